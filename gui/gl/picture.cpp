#include "gui/gl/picture.h"

#include <string_view>

namespace firstoff::gui {

bool isSoftwareOpenGl() {
    const std::string what = describeOpenGl();
    for (std::string_view name : {"llvmpipe", "softpipe", "swrast", "SWR", "Software"}) {
        if (what.find(name) != std::string::npos) return true;
    }
    return false;
}

void Picture::begin(int width, int height, Edges edges) {
    glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &before_);
    edges_ = edges;
    Framebuffer& target = edges == Edges::Fine ? fine_ : quick_;
    target.resize(width, height, edges == Edges::Fine ? 4 : 1);
    target.bind();
}

GLuint Picture::finish() {
    if (edges_ == Edges::Fine) {
        fine_.resolve();
    } else {
        takeStairsOut();
    }
    glBindFramebuffer(GL_FRAMEBUFFER, static_cast<GLuint>(before_));
    return edges_ == Edges::Fine ? fine_.texture() : smoothed_.texture();
}

void Picture::takeStairsOut() {
    if (!smooth_) {
        copy_ = std::make_unique<PixelCopy>();
        stairs_ = std::make_unique<Shader>("stairs");
        smooth_ = std::make_unique<Shader>("smooth");
        empty_ = std::make_unique<VertexArray>();
        nearest_ = std::make_unique<NearestSampler>();
    }
    const GLboolean depth = glIsEnabled(GL_DEPTH_TEST);
    const glm::vec2 texel = 1.0f / glm::vec2(quick_.width(), quick_.height());
    smoothed_.resize(quick_.width(), quick_.height(), 1);
    smoothed_.bind();
    glDisable(GL_DEPTH_TEST);
    copy_->draw(quick_.texture(), 0, 0);
    for (GLuint unit : {1u, 0u}) {
        glActiveTexture(GL_TEXTURE0 + unit);
        glBindTexture(GL_TEXTURE_2D, quick_.texture());
    }
    glBindSampler(0, nearest_->id());
    empty_->bind();
    glEnable(GL_DEPTH_TEST);
    glClear(GL_DEPTH_BUFFER_BIT);
    glColorMask(GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
    stairs_->use();
    stairs_->set("uDrawn", 0);
    stairs_->set("uTexel", texel);
    glDrawArrays(GL_TRIANGLES, 0, 3);

    glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
    glDepthMask(GL_FALSE);
    glDepthFunc(GL_EQUAL);
    smooth_->use();
    smooth_->set("uDrawn", 0);
    smooth_->set("uBetween", 1);
    smooth_->set("uTexel", texel);
    glDrawArrays(GL_TRIANGLES, 0, 3);
    glDepthMask(GL_TRUE);
    glDepthFunc(GL_LESS);
    if (!depth) glDisable(GL_DEPTH_TEST);
    glBindVertexArray(0);
    glBindSampler(0, 0);
    for (GLuint unit : {1u, 0u}) {
        glActiveTexture(GL_TEXTURE0 + unit);
        glBindTexture(GL_TEXTURE_2D, 0);
    }
}

Image Picture::read() const {
    return edges_ == Edges::Fine ? fine_.read() : smoothed_.read();
}

}  // namespace firstoff::gui
