#include "sim/drawing/dxf_entity.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/base/contour_geometry.h"
#include "sim/base/say.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

// Group codes.
constexpr int kLayer = 8;
constexpr int kX = 10, kY = 20, kZ = 30;
constexpr int kEndX = 11, kEndY = 21, kEndZ = 31;
constexpr int kRadius = 40, kBulge = 42;
constexpr int kStartAngle = 50, kEndAngle = 51;
constexpr int kFlags = 70, kCount = 90;
constexpr int kExtrusionX = 210, kExtrusionY = 220, kExtrusionZ = 230;

// Ends of a line that differ this much in height do not lie in one plane with the rest.
constexpr double kFlat = 1e-6;
// Extrusion directions are written with all figures, so anything else is another direction.
constexpr double kSameDirection = 1e-9;

DrawingFault badNumber(const DxfThing& entity, int code) {
    const DxfGroup* group = entity.find(code);
    DrawingFault fault;
    fault.code = "drawing-bad-number";
    fault.line = group ? group->line : entity.line;
    fault.message = group ? say("{} has \"{}\" for its group {}, which must be a number; it was left out.",
                                inMessage(entity.kind), inMessage(group->value), code)
                          : say("{} has no group {}; it was left out.", inMessage(entity.kind), code);
    fault.remedy = tr("Save the drawing anew from the program it was drawn with.");
    return fault;
}

EntityReading leftOut(DrawingFault fault) {
    EntityReading reading;
    reading.fault = std::move(fault);
    return reading;
}

EntityReading notUnderstood() {
    EntityReading reading;
    reading.understood = false;
    return reading;
}

// Nothing for a direction that is neither up nor down.
std::optional<bool> isMirrored(const DxfThing& entity) {
    const double x = entity.number(kExtrusionX, 0.0);
    const double y = entity.number(kExtrusionY, 0.0);
    const double z = entity.number(kExtrusionZ, 1.0);
    if (!(std::abs(x) < kSameDirection && std::abs(y) < kSameDirection)) return std::nullopt;
    if (std::abs(z - 1) < kSameDirection) return false;
    if (std::abs(z + 1) < kSameDirection) return true;
    return std::nullopt;
}

void mirror(Contour& corners) {
    for (ContourCorner& corner : corners) {
        corner.at.z = -corner.at.z;
        corner.bulge = -corner.bulge;
    }
}

// Direction of an angle in degrees, exact at the quarters.
Point directionOf(double degrees) {
    const double quarters = std::round(degrees / 90);
    const double rest = radians(degrees - 90 * quarters);
    const Point d{std::cos(rest), std::sin(rest)};
    switch (static_cast<int>(std::fmod(quarters, 4) + 4) % 4) {
        case 1:
            return leftOf(d);
        case 2:
            return -d;
        case 3:
            return -leftOf(d);
        default:
            return d;
    }
}

DrawnPath pathOf(const DxfThing& entity, Contour corners, bool closed) {
    return {std::move(corners), closed, std::string(entity.text(kLayer)), entity.line};
}

EntityReading whole(DrawnPath path) {
    EntityReading reading;
    reading.path = std::move(path);
    return reading;
}

EntityReading readLine(const DxfThing& entity) {
    for (int code : {kX, kY, kEndX, kEndY}) {
        if (!entity.number(code)) return leftOut(badNumber(entity, code));
    }
    if (!(std::abs(entity.number(kZ, 0.0) - entity.number(kEndZ, 0.0)) < kFlat)) return notUnderstood();
    const Point from{*entity.number(kX), *entity.number(kY)};
    const Point to{*entity.number(kEndX), *entity.number(kEndY)};
    return whole(pathOf(entity, {{from, 0}, {to, 0}}, false));
}

// Anticlockwise from one angle to another, degrees; in two pieces where it is more than half a turn.
Contour arcCorners(Point centre, double radius, double from, double sweep) {
    const auto at = [&](double degrees) { return centre + radius * directionOf(degrees); };
    if (sweep <= 180) return {{at(from), bulgeOf(radians(sweep))}, {at(from + sweep), 0}};
    const double bulge = bulgeOf(radians(sweep / 2));
    return {{at(from), bulge}, {at(from + sweep / 2), bulge}, {at(from + sweep), 0}};
}

EntityReading readRound(const DxfThing& entity, bool arc) {
    for (int code : {kX, kY, kRadius}) {
        if (!entity.number(code)) return leftOut(badNumber(entity, code));
    }
    const Point centre{*entity.number(kX), *entity.number(kY)};
    const double radius = *entity.number(kRadius);
    if (!(radius > 0)) return leftOut(badNumber(entity, kRadius));
    const auto mirrored = isMirrored(entity);
    if (!mirrored) return notUnderstood();
    double from = 0;
    double sweep = 0;
    if (arc) {
        for (int code : {kStartAngle, kEndAngle}) {
            if (!entity.number(code)) return leftOut(badNumber(entity, code));
        }
        from = std::fmod(*entity.number(kStartAngle), 360);
        sweep = std::fmod(*entity.number(kEndAngle) - *entity.number(kStartAngle), 360);
        if (sweep < 0) sweep += 360;
    }
    // An arc that ends where it starts goes all the way round.
    const bool closed = sweep <= 0;
    const Point start = radius * directionOf(from);
    Contour corners =
        closed ? Contour{{centre + start, 1}, {centre - start, 1}} : arcCorners(centre, radius, from, sweep);
    if (*mirrored) mirror(corners);
    return whole(pathOf(entity, std::move(corners), closed));
}

// An edge without length says nothing, whatever its bulge.
void dropRepeats(Contour& corners, bool closed) {
    Contour kept;
    kept.reserve(corners.size());
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const bool last = i + 1 == corners.size();
        const bool repeated =
            last ? closed && !kept.empty() && corners[i].at == kept.front().at : corners[i].at == corners[i + 1].at;
        if (!repeated) kept.push_back(corners[i]);
    }
    corners = std::move(kept);
}

EntityReading polyline(const DxfThing& entity, Contour corners, bool closed) {
    const auto mirrored = isMirrored(entity);
    if (!mirrored) return notUnderstood();
    dropRepeats(corners, closed);
    if (corners.size() < 2) return {};
    if (*mirrored) mirror(corners);
    return whole(pathOf(entity, std::move(corners), closed));
}

DrawingFault wrongCount(const DxfThing& entity, long said, std::size_t held) {
    DrawingFault fault;
    fault.code = "drawing-bad-number";
    fault.line = entity.find(kCount)->line;
    fault.message = say("{} says that it has {} corners and holds {}; it was left out.", entity.kind, said, held);
    fault.remedy = tr("Save the drawing anew; the file may have been cut short.");
    return fault;
}

EntityReading readLightPolyline(const DxfThing& entity) {
    Contour corners;
    bool hasY = true;
    for (const DxfGroup& group : entity.groups) {
        if (group.code != kX && group.code != kY && group.code != kBulge) continue;
        const auto value = drawnNumber(group.value);
        const bool misplaced = group.code == kX ? !hasY : corners.empty() || (group.code == kY && hasY);
        if (!value || misplaced) {
            DxfThing at{entity.kind, entity.line, {group}};
            return leftOut(badNumber(at, group.code));
        }
        if (group.code == kX) corners.push_back({{*value, 0}, 0});
        if (group.code == kY) corners.back().at.r = *value;
        if (group.code == kBulge) corners.back().bulge = *value;
        hasY = group.code == kX ? false : group.code == kY || hasY;
    }
    if (!hasY) return leftOut(badNumber(entity, kY));
    const long count = entity.whole(kCount, static_cast<long>(corners.size()));
    if (count != static_cast<long>(corners.size())) return leftOut(wrongCount(entity, count, corners.size()));
    return polyline(entity, std::move(corners), (entity.whole(kFlags, 0) & 1) != 0);
}

}  // namespace

EntityReading readEntity(const DxfThing& entity) {
    if (entity.kind == "LINE") return readLine(entity);
    if (entity.kind == "ARC") return readRound(entity, true);
    if (entity.kind == "CIRCLE") return readRound(entity, false);
    if (entity.kind == "LWPOLYLINE") return readLightPolyline(entity);
    return notUnderstood();
}

void PolylineReading::add(const DxfThing& vertex) {
    constexpr long kFrameOfSpline = 16;
    if ((vertex.whole(kFlags, 0) & kFrameOfSpline) != 0 || fault_) return;
    for (int code : {kX, kY}) {
        if (!vertex.number(code)) {
            fault_ = badNumber(vertex, code);
            return;
        }
    }
    const double bulge = vertex.number(kBulge, 0.0);
    if (!std::isfinite(bulge)) {
        fault_ = badNumber(vertex, kBulge);
        return;
    }
    corners_.push_back({{*vertex.number(kX), *vertex.number(kY)}, bulge});
}

EntityReading PolylineReading::finish() const {
    if (fault_) return leftOut(*fault_);
    constexpr long kClosed = 1;
    // Splines, lines in space, meshes and bodies of faces.
    constexpr long kOthers = 4 | 8 | 16 | 64;
    const long flags = head_.whole(kFlags, 0);
    if ((flags & kOthers) != 0) return notUnderstood();
    return polyline(head_, corners_, (flags & kClosed) != 0);
}

bool drawsNoOutline(std::string_view kind) {
    constexpr std::array kKinds = {"TEXT",        "MTEXT",     "DIMENSION", "ARC_DIMENSION", "LEADER", "MLEADER",
                                   "MULTILEADER", "TOLERANCE", "HATCH",     "VIEWPORT",      "POINT",  "ATTDEF",
                                   "ATTRIB",      "IMAGE",     "WIPEOUT",   "XLINE",         "RAY"};
    return std::find(kKinds.begin(), kKinds.end(), kind) != kKinds.end();
}

std::string inMessage(std::string_view bytes) {
    constexpr std::size_t kLongest = 40;
    std::string text(bytes.substr(0, kLongest));
    for (char& c : text) {
        if (c < ' ' || c > '~') c = '?';
    }
    return bytes.size() > kLongest ? text + "..." : text;
}

}  // namespace firstoff
