#include "gui/gl/shader.h"

#include <algorithm>
#include <glm/gtc/type_ptr.hpp>

#include "gui/gl/shader_text.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

GLuint compile(GLenum stage, const std::string& name, std::string_view defined) {
    std::string text = "#version 410 core\n";
    for (std::size_t at = 0; at < defined.size();) {
        const std::size_t end = std::min(defined.find(' ', at), defined.size());
        text += "#define ";
        text += defined.substr(at, end - at);
        if (refusedForTest(defined.substr(at, end - at)))
            throw GraphicsError(say("The graphics driver does not accept {}: FIRSTOFF_GL_REFUSE names it.", name));
        text += '\n';
        at = end + 1;
    }
    if (stage == GL_FRAGMENT_SHADER) text += "#define FRAGMENT\n";
    text += shaderText("studio.glsl");
    text += "#line 1\n";
    text += shaderText(name);
    const GLchar* begin = text.c_str();
    const GLuint shader = glCreateShader(stage);
    glShaderSource(shader, 1, &begin, nullptr);
    glCompileShader(shader);
    GLint good = 0;
    glGetShaderiv(shader, GL_COMPILE_STATUS, &good);
    if (good) return shader;
    char log[2048] = "";
    glGetShaderInfoLog(shader, sizeof log, nullptr, log);
    glDeleteShader(shader);
    throw GraphicsError(say("The graphics driver does not accept {}: {}", name, log));
}

}  // namespace

Shader::Shader(std::string_view name, std::string_view defined) {
    const std::string base(name);
    const GLuint vertex = compile(GL_VERTEX_SHADER, base + ".vert", defined);
    const GLuint fragment = compile(GL_FRAGMENT_SHADER, base + ".frag", defined);
    program_ = glCreateProgram();
    glAttachShader(program_, vertex);
    glAttachShader(program_, fragment);
    glLinkProgram(program_);
    glDeleteShader(vertex);
    glDeleteShader(fragment);
    GLint good = 0;
    glGetProgramiv(program_, GL_LINK_STATUS, &good);
    if (good) return;
    char log[2048] = "";
    glGetProgramInfoLog(program_, sizeof log, nullptr, log);
    glDeleteProgram(program_);
    throw GraphicsError(say("The graphics driver does not link {}: {}", base, log));
}

Shader::~Shader() {
    glDeleteProgram(program_);
}

GLint Shader::at(const char* name) const {
    const auto [entry, fresh] = places_.try_emplace(name, -1);
    if (fresh) entry->second = glGetUniformLocation(program_, name);
    return entry->second;
}

void Shader::set(const char* name, float value) const {
    glUniform1f(at(name), value);
}
void Shader::set(const char* name, int value) const {
    glUniform1i(at(name), value);
}
void Shader::set(const char* name, const glm::vec2& value) const {
    glUniform2fv(at(name), 1, glm::value_ptr(value));
}
void Shader::set(const char* name, const glm::vec3& value) const {
    glUniform3fv(at(name), 1, glm::value_ptr(value));
}
void Shader::set(const char* name, const glm::vec4& value) const {
    glUniform4fv(at(name), 1, glm::value_ptr(value));
}
void Shader::set(const char* name, const glm::mat3& value) const {
    glUniformMatrix3fv(at(name), 1, GL_FALSE, glm::value_ptr(value));
}
void Shader::set(const char* name, const glm::mat4& value) const {
    glUniformMatrix4fv(at(name), 1, GL_FALSE, glm::value_ptr(value));
}

}  // namespace firstoff::gui
