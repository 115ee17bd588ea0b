// Depth alone, drawn first and read afterwards: for shadows and for what lies near what.
#pragma once

#include <cstdint>

#include "gui/gl/loader.h"

namespace firstoff::gui {

// Owns GL objects: make, use and destroy it with its context current.
class DepthMap {
public:
    enum class Read : std::uint8_t {
        Compared,  // sampler2DShadow: how much of the place is nearer than the reference, between pixels
        Plain,     // sampler2D: the depth of the nearest pixel
    };
    explicit DepthMap(Read read) : read_(read) {}
    ~DepthMap() { release(); }
    DepthMap(const DepthMap&) = delete;
    DepthMap& operator=(const DepthMap&) = delete;

    // Does nothing when it is that size already. False where the driver refuses it.
    bool resize(int width, int height);
    // Binds it for drawing, clears it and sets the viewport.
    void begin() const;
    GLuint texture() const { return texture_; }
    int width() const { return width_; }
    int height() const { return height_; }

private:
    void release();

    Read read_;
    int width_ = 0, height_ = 0;
    GLuint framebuffer_ = 0, texture_ = 0;
};

}  // namespace firstoff::gui
