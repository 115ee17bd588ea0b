// A linked pair of shaders.
#pragma once

#include <glm/glm.hpp>
#include <string>
#include <string_view>
#include <unordered_map>

#include "gui/gl/loader.h"

namespace firstoff::gui {

// Owns a GL program made from the embedded texts `name`.vert and `name`.frag; each is preceded by
// studio.glsl. `defined`: names that the texts ask for with #ifdef, parted by spaces. Throws GraphicsError with the
// compiler's words.
class Shader {
public:
    explicit Shader(std::string_view name, std::string_view defined = {});
    ~Shader();
    Shader(const Shader&) = delete;
    Shader& operator=(const Shader&) = delete;

    void use() const { glUseProgram(program_); }
    // Uniforms of the program in use. A name the shader does not have is ignored: the compiler drops what it does not
    // need.
    void set(const char* name, float value) const;
    void set(const char* name, int value) const;
    void set(const char* name, const glm::vec2& value) const;
    void set(const char* name, const glm::vec3& value) const;
    void set(const char* name, const glm::vec4& value) const;
    void set(const char* name, const glm::mat3& value) const;
    void set(const char* name, const glm::mat4& value) const;

private:
    GLint at(const char* name) const;

    GLuint program_ = 0;
    mutable std::unordered_map<std::string, GLint> places_;
};

}  // namespace firstoff::gui
