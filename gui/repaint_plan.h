// What of the panes has to be painted anew.
//
// The panes are made from nothing in every frame, and most of what they draw stands where it stood. A graphics
// processor fills those pixels for nothing; where OpenGL runs on the processor they are most of the price of a frame.
// So the window is looked at in tiles: a tile that would get the same triangles as in the frame before keeps its
// pixels.
#pragma once

#include <imgui.h>

#include <cstdint>
#include <span>
#include <vector>

namespace firstoff::gui {

// Pixels, rows from the top; `right` and `bottom` are the first ones outside.
struct PixelArea {
    int left = 0, top = 0, right = 0, bottom = 0;

    bool operator==(const PixelArea&) const = default;
};

class RepaintPlan {
public:
    static constexpr int kTile = 32;       // pixels
    static constexpr int kMostAreas = 20;  // each costs a walk over the triangles

    // Cuts the lists of `data` down to what lies in tiles that changed since the call before; returns those places,
    // none over another, to be cleared before the lists are drawn. `fresh`: images of the same name whose pixels are
    // new. `data` is as the drawing library rendered it, one pixel for each of its units.
    const std::vector<PixelArea>& cutDown(ImDrawData& data, std::span<const ImTextureID> fresh);
    // Takes everything as changed in the next call: the pixels are lost, or the type is another.
    void forget() { before_.clear(); }

private:
    struct Triangle {
        float left, top, right, bottom;  // what of it can be seen, whole pixels outwards
    };

    void look(const ImDrawData& data, std::span<const ImTextureID> fresh);
    void look(const ImDrawList& list, const ImDrawCmd& command, std::uint64_t seed);
    void findAreas();
    void joinAreas();
    void cutDown(ImDrawList& list, std::size_t firstTriangle);
    PixelArea pixels(const PixelArea& tiles) const;

    int width_ = 0, height_ = 0, across_ = 0, down_ = 0;
    std::vector<std::uint64_t> before_, tiles_, vertices_;
    std::vector<Triangle> triangles_;  // of all lists and commands, in their order
    std::vector<PixelArea> areas_;
    std::uint64_t frame_ = 0;
};

}  // namespace firstoff::gui
