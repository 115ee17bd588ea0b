// A picture without stairs on its edges, at two prices.
#pragma once

#include <cstdint>
#include <memory>

#include "gui/gl/framebuffer.h"
#include "gui/gl/pixel_copy.h"
#include "gui/gl/shader.h"
#include "gui/gl/small_objects.h"

namespace firstoff::gui {

enum class Edges : std::uint8_t {
    Fine,   // four samples a pixel: for graphics hardware, and for pictures that stand still
    Quick,  // one sample, edges smoothed afterwards: well under half the price on software OpenGL, for moving pictures
};

// True where OpenGL runs on the processor. A context must be current.
bool isSoftwareOpenGl();

// Draw between begin() and finish(); both with the same context current.
class Picture {
public:
    // Binds the framebuffer to draw into and sets the viewport; its contents are undefined.
    void begin(int width, int height, Edges edges);
    // Puts back the framebuffer that was bound before begin(); returns the finished texture, row 0 at the bottom. It
    // stays valid until the next begin().
    GLuint finish();
    // The finished picture, read back.
    Image read() const;

private:
    void takeStairsOut();

    Framebuffer fine_, quick_, smoothed_;
    std::unique_ptr<PixelCopy> copy_;
    std::unique_ptr<Shader> stairs_, smooth_;
    std::unique_ptr<VertexArray> empty_;
    std::unique_ptr<NearestSampler> nearest_;
    Edges edges_ = Edges::Fine;
    GLint before_ = 0;
};

}  // namespace firstoff::gui
