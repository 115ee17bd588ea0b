// A picture to draw into: several samples a pixel while drawing, one when read.
#pragma once

#include <cstdint>
#include <vector>

#include "gui/gl/loader.h"

namespace firstoff::gui {

// 8-bit RGB, rows from the top, no padding.
struct Image {
    int width = 0, height = 0;
    std::vector<std::uint8_t> rgb;
};

// The longest side that a picture may have, pixels. A context must be current.
int largestPicture();

// Reads `width` x `height` pixels from the lower left of the framebuffer bound for reading; one sample a pixel.
Image readPixels(int width, int height);

// Colour and depth. Owns GL objects: make, use and destroy it with its context current. Not copied; moves leave an
// empty one.
class Framebuffer {
public:
    Framebuffer() = default;
    Framebuffer(int width, int height, int samples = 4) { resize(width, height, samples); }
    ~Framebuffer();
    Framebuffer(Framebuffer&& other) noexcept;
    Framebuffer& operator=(Framebuffer&& other) noexcept;

    // Makes it `width` x `height` pixels; does nothing when it already is. Samples above what the driver has are cut
    // down. Throws GraphicsError where it gives no picture of that size at all.
    void resize(int width, int height, int samples = 4);
    int width() const { return width_; }
    int height() const { return height_; }
    int samples() const { return samples_; }  // 0: one a pixel

    // Binds it for drawing and sets the viewport.
    void bind() const;
    // Merges the samples into texture(). Leaves the framebuffer that was bound for drawing bound.
    void resolve() const;
    // The merged picture, linear filtering, row 0 at the bottom as GL has it.
    GLuint texture() const { return texture_; }
    // Copies the colours to a picture of the same size; both with one sample.
    void copyTo(GLuint framebuffer) const;
    // Resolves and reads the picture back.
    Image read() const;

private:
    void release();
    bool make(int width, int height, int samples);

    int width_ = 0, height_ = 0, samples_ = 0, asked_ = -1;
    GLuint drawn_ = 0, resolved_ = 0;
    GLuint colour_ = 0, depth_ = 0, texture_ = 0;
};

}  // namespace firstoff::gui
