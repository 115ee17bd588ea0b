// One entity of a DXF file as a path. Inside sim/drawing only.
//
// Lines lie in the drawing's own frame. Arcs, circles and polylines lie in a frame of their own whose z axis is their
// extrusion direction; if that looks the other way (0, 0, -1), x runs the other way as well, so what was drawn
// anticlockwise is clockwise in the drawing.
#pragma once

#include <optional>
#include <string_view>

#include "sim/drawing/drawing.h"
#include "sim/drawing/dxf_groups.h"

namespace firstoff {

// In the unit of the file.
struct EntityReading {
    std::optional<DrawnPath> path;      // nothing if it draws nothing or is not understood
    std::optional<DrawingFault> fault;  // numbers missing or senseless
    bool understood = true;
};

EntityReading readEntity(const DxfThing& entity);

// A POLYLINE, whose corners are entities of their own: `begin` gives the head, `add` each VERTEX.
class PolylineReading {
public:
    explicit PolylineReading(DxfThing head) : head_(std::move(head)) {}
    void add(const DxfThing& vertex);
    EntityReading finish() const;
    const DxfThing& head() const { return head_; }

private:
    DxfThing head_;
    Contour corners_;
    std::optional<DrawingFault> fault_;
};

// Writing, dimensions, fillings: they draw no outline and are left out without harm.
bool drawsNoOutline(std::string_view kind);

// Any bytes as something that can stand in a message: a few letters, others as ?.
std::string inMessage(std::string_view bytes);

}  // namespace firstoff
