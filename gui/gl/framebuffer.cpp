#include "gui/gl/framebuffer.h"

#include "sim/base/say.h"

#include <algorithm>
#include <utility>

namespace firstoff::gui {

namespace {

GLuint renderbuffer(GLenum format, int samples, int width, int height) {
    GLuint id = 0;
    glGenRenderbuffers(1, &id);
    glBindRenderbuffer(GL_RENDERBUFFER, id);
    glRenderbufferStorageMultisample(GL_RENDERBUFFER, samples, format, width, height);
    return id;
}

GLuint plainTexture(int width, int height) {
    GLuint id = 0;
    glGenTextures(1, &id);
    glBindTexture(GL_TEXTURE_2D, id);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    return id;
}

bool complete() {
    return glCheckFramebufferStatus(GL_FRAMEBUFFER) == GL_FRAMEBUFFER_COMPLETE;
}

// Puts back the framebuffers that were bound when it was made.
class KeepBinding {
public:
    KeepBinding() {
        glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &draw_);
        glGetIntegerv(GL_READ_FRAMEBUFFER_BINDING, &read_);
    }
    ~KeepBinding() {
        glBindFramebuffer(GL_DRAW_FRAMEBUFFER, static_cast<GLuint>(draw_));
        glBindFramebuffer(GL_READ_FRAMEBUFFER, static_cast<GLuint>(read_));
    }
    KeepBinding(const KeepBinding&) = delete;
    KeepBinding& operator=(const KeepBinding&) = delete;

private:
    GLint draw_ = 0, read_ = 0;
};

}  // namespace

Framebuffer::~Framebuffer() {
    release();
}

Framebuffer::Framebuffer(Framebuffer&& other) noexcept {
    *this = std::move(other);
}

Framebuffer& Framebuffer::operator=(Framebuffer&& other) noexcept {
    std::swap(width_, other.width_);
    std::swap(height_, other.height_);
    std::swap(samples_, other.samples_);
    std::swap(asked_, other.asked_);
    std::swap(drawn_, other.drawn_);
    std::swap(resolved_, other.resolved_);
    std::swap(colour_, other.colour_);
    std::swap(depth_, other.depth_);
    std::swap(texture_, other.texture_);
    return *this;
}

void Framebuffer::release() {
    if (drawn_ == 0) return;
    glDeleteFramebuffers(1, &drawn_);
    glDeleteFramebuffers(1, &resolved_);
    glDeleteRenderbuffers(1, &colour_);
    glDeleteRenderbuffers(1, &depth_);
    glDeleteTextures(1, &texture_);
    drawn_ = resolved_ = colour_ = depth_ = texture_ = 0;
}

int largestPicture() {
    GLint texture = 0, buffer = 0;
    glGetIntegerv(GL_MAX_TEXTURE_SIZE, &texture);
    glGetIntegerv(GL_MAX_RENDERBUFFER_SIZE, &buffer);
    return std::min(texture, buffer);
}

// Half as many samples each time the driver refuses, down to one a pixel.
void Framebuffer::resize(int width, int height, int samples) {
    GLint most = 0;
    glGetIntegerv(GL_MAX_SAMPLES, &most);
    if (refusedForTest("MULTISAMPLE")) most = 0;
    samples = samples <= 1 ? 0 : std::min(samples, static_cast<int>(most));
    if (samples == 1) samples = 0;
    if (drawn_ != 0 && width == width_ && height == height_ && samples == asked_) return;
    asked_ = samples;
    const int largest = largestPicture();
    while (width > largest || height > largest || !make(width, height, samples)) {
        if (samples == 0 || width > largest || height > largest) {
            release();
            throw GraphicsError(say("The graphics driver gives no picture of {} x {} pixels; {} a side is its limit.",
                                    width, height, largest));
        }
        samples = samples > 2 ? samples / 2 : 0;
    }
}

bool Framebuffer::make(int width, int height, int samples) {
    release();
    width_ = width;
    height_ = height;
    samples_ = samples;

    const KeepBinding keep;
    texture_ = plainTexture(width, height);
    depth_ = renderbuffer(GL_DEPTH_COMPONENT24, samples, width, height);
    glGenFramebuffers(1, &drawn_);
    glBindFramebuffer(GL_FRAMEBUFFER, drawn_);
    glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_RENDERBUFFER, depth_);
    if (samples == 0) {
        glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, texture_, 0);
        return complete();
    }
    colour_ = renderbuffer(GL_RGBA8, samples, width, height);
    glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_RENDERBUFFER, colour_);
    if (!complete()) return false;
    glGenFramebuffers(1, &resolved_);
    glBindFramebuffer(GL_FRAMEBUFFER, resolved_);
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, texture_, 0);
    return complete();
}

void Framebuffer::bind() const {
    glBindFramebuffer(GL_FRAMEBUFFER, drawn_);
    glViewport(0, 0, width_, height_);
}

void Framebuffer::resolve() const {
    if (samples_ == 0) return;
    const KeepBinding keep;
    glBindFramebuffer(GL_READ_FRAMEBUFFER, drawn_);
    glBindFramebuffer(GL_DRAW_FRAMEBUFFER, resolved_);
    glBlitFramebuffer(0, 0, width_, height_, 0, 0, width_, height_, GL_COLOR_BUFFER_BIT, GL_NEAREST);
}

void Framebuffer::copyTo(GLuint framebuffer) const {
    const KeepBinding keep;
    glBindFramebuffer(GL_READ_FRAMEBUFFER, drawn_);
    glBindFramebuffer(GL_DRAW_FRAMEBUFFER, framebuffer);
    glBlitFramebuffer(0, 0, width_, height_, 0, 0, width_, height_, GL_COLOR_BUFFER_BIT, GL_NEAREST);
}

Image Framebuffer::read() const {
    resolve();
    const KeepBinding keep;
    glBindFramebuffer(GL_READ_FRAMEBUFFER, samples_ == 0 ? drawn_ : resolved_);
    return readPixels(width_, height_);
}

Image readPixels(int width, int height) {
    Image image{width, height, {}};
    const std::size_t row = 3 * static_cast<std::size_t>(width);
    image.rgb.resize(row * static_cast<std::size_t>(height));
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    for (int y = 0; y < height; ++y) {
        glReadPixels(0, height - 1 - y, width, 1, GL_RGB, GL_UNSIGNED_BYTE,
                     image.rgb.data() + row * static_cast<std::size_t>(y));
    }
    return image;
}

}  // namespace firstoff::gui
