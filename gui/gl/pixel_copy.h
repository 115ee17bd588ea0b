// A texture drawn pixel for pixel.
#pragma once

#include "gui/gl/shader.h"
#include "gui/gl/small_objects.h"

namespace firstoff::gui {

// Where OpenGL runs on the processor this costs less than a textured rectangle and, other than a blit, does not wait
// for the texture to be finished. A context must be current, always the same.
class PixelCopy {
public:
    // Into the framebuffer bound for drawing, within the scissor where that is on: the texture's lower left pixel comes
    // to (`left`, `bottom`). What lies outside the texture gets the nearest of its pixels. Depth, blending and the
    // viewport are the caller's; program, vertex array and texture unit 0 are left unbound.
    void draw(GLuint texture, int left, int bottom) const;

private:
    Shader shader_{"copy"};
    VertexArray empty_;
};

}  // namespace firstoff::gui
