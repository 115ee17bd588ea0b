// Owners of the small things of OpenGL. Make, use and destroy them with their context current.
#pragma once

#include "gui/gl/loader.h"

namespace firstoff::gui {

// A vertex array without attributes: what a draw that makes its own corners still has to bind.
class VertexArray {
public:
    VertexArray() { glGenVertexArrays(1, &id_); }
    ~VertexArray() { glDeleteVertexArrays(1, &id_); }
    VertexArray(const VertexArray&) = delete;
    VertexArray& operator=(const VertexArray&) = delete;

    void bind() const { glBindVertexArray(id_); }

private:
    GLuint id_ = 0;
};

// Reads the nearest pixel of a texture, whatever the texture itself says.
class NearestSampler {
public:
    NearestSampler() {
        glGenSamplers(1, &id_);
        glSamplerParameteri(id_, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
        glSamplerParameteri(id_, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
        glSamplerParameteri(id_, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
        glSamplerParameteri(id_, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    }
    ~NearestSampler() { glDeleteSamplers(1, &id_); }
    NearestSampler(const NearestSampler&) = delete;
    NearestSampler& operator=(const NearestSampler&) = delete;

    GLuint id() const { return id_; }

private:
    GLuint id_ = 0;
};

}  // namespace firstoff::gui
