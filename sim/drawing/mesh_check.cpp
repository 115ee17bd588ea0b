// Volume by the divergence theorem: a sixth of the sum of a · (b × c) over the triangles, taken about the middle of the
// mesh so that a body far from the origin loses no figures. Mean thickness of a body with the surface A: 2 V / A, which
// is t of a sheet and r of a wire.
#include "sim/drawing/mesh_check.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <optional>
#include <utility>

#include "sim/base/say.h"

namespace firstoff {

namespace {

constexpr float kLargestFigure = 1e9F;  // in any unit far beyond any machine; NaN compares false

using Corner = std::array<double, 3>;
using Face = std::array<std::uint32_t, 3>;

struct Bounds {
    Corner min{1e300, 1e300, 1e300}, max{-1e300, -1e300, -1e300};
    void add(const Corner& p) {
        for (std::size_t i = 0; i < 3; ++i) {
            min[i] = std::min(min[i], p[i]);
            max[i] = std::max(max[i], p[i]);
        }
    }
    double longest() const { return std::max({max[0] - min[0], max[1] - min[1], max[2] - min[2]}); }
    bool contains(const Bounds& other) const {
        for (std::size_t i = 0; i < 3; ++i) {
            if (other.min[i] < min[i] || other.max[i] > max[i]) return false;
        }
        return true;
    }
};

// Sets that grow together; the smallest member speaks for each.
class Joined {
public:
    explicit Joined(std::size_t count) : parent_(count) { std::iota(parent_.begin(), parent_.end(), 0u); }
    std::uint32_t find(std::uint32_t i) {
        while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
        return i;
    }
    void join(std::uint32_t a, std::uint32_t b) {
        a = find(a);
        b = find(b);
        parent_[std::max(a, b)] = std::min(a, b);
    }

private:
    std::vector<std::uint32_t> parent_;
};

// Corners as numbers, equal ones with the same.
struct Net {
    std::vector<Corner> corners;
    std::vector<Face> faces;
};

Net weldEqual(const std::vector<MeshFacet>& triangles) {
    Net net;
    const auto at = [&](std::uint32_t i) {
        const float* p = &triangles[i / 3][std::size_t{3} * (i % 3)];
        return Corner{p[0], p[1], p[2]};
    };
    std::vector<std::uint32_t> order(3 * triangles.size());
    std::iota(order.begin(), order.end(), 0u);
    std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) { return at(a) < at(b); });
    net.faces.resize(triangles.size());
    for (std::uint32_t i : order) {
        const Corner here = at(i);
        if (net.corners.empty() || net.corners.back() != here) net.corners.push_back(here);
        net.faces[i / 3][i % 3] = static_cast<std::uint32_t>(net.corners.size() - 1);
    }
    return net;
}

// Joins corners nearer than `reach` along every axis: they stand in one cell of a grid twice as wide, or of one of the
// seven grids that are shifted by half a cell along some axes. However many stand in a cell, that takes no longer.
Net weldNear(const Net& net, double reach) {
    Joined joined(net.corners.size());
    using Cell = std::array<std::int64_t, 3>;
    std::vector<std::pair<Cell, std::uint32_t>> cells(net.corners.size());
    for (unsigned shift = 0; shift < 8; ++shift) {
        for (std::uint32_t i = 0; i < net.corners.size(); ++i) {
            for (unsigned axis = 0; axis < 3; ++axis) {
                const double half = (shift >> axis & 1) != 0 ? 0.5 : 0.0;
                cells[i].first[axis] = static_cast<std::int64_t>(std::floor(net.corners[i][axis] / (2 * reach) + half));
            }
            cells[i].second = i;
        }
        std::sort(cells.begin(), cells.end());
        for (std::size_t i = 1; i < cells.size(); ++i) {
            if (cells[i].first == cells[i - 1].first) joined.join(cells[i].second, cells[i - 1].second);
        }
    }
    Net welded{net.corners, net.faces};
    for (Face& face : welded.faces) {
        for (std::uint32_t& corner : face) corner = joined.find(corner);
    }
    return welded;
}

// Faces that have come down to a line do not count.
bool isLine(const Face& f) {
    return f[0] == f[1] || f[1] == f[2] || f[2] == f[0];
}

// Edges that are not run through as often one way as the other: how many, and of how many that is because two faces
// beside it look opposite ways.
struct OpenEdges {
    std::size_t open = 0, facingMixed = 0;
};

OpenEdges openEdges(const Net& net) {
    struct Use {
        std::uint32_t a, b;  // a < b
        bool forwards;
        bool operator<(const Use& other) const { return std::pair(a, b) < std::pair(other.a, other.b); }
    };
    std::vector<Use> uses;
    uses.reserve(3 * net.faces.size());
    for (const Face& face : net.faces) {
        if (isLine(face)) continue;
        for (std::size_t i = 0; i < 3; ++i) {
            const std::uint32_t a = face[i], b = face[(i + 1) % 3];
            uses.push_back({std::min(a, b), std::max(a, b), a < b});
        }
    }
    std::sort(uses.begin(), uses.end());
    OpenEdges result;
    for (std::size_t from = 0, to = 0; from < uses.size(); from = to) {
        std::size_t forwards = 0;
        for (to = from; to < uses.size() && !(uses[from] < uses[to]); ++to) forwards += uses[to].forwards ? 1u : 0u;
        if (2 * forwards == to - from) continue;
        ++((to - from) % 2 == 0 ? result.facingMixed : result.open);
    }
    return result;
}

struct Shell {
    double sixVolumes = 0, twoAreas = 0;
    Bounds bounds;
};

// In order of their first corner.
std::vector<Shell> shellsOf(const Net& net, const Corner& middle) {
    Joined joined(net.corners.size());
    for (const Face& face : net.faces) {
        joined.join(face[0], face[1]);
        joined.join(face[0], face[2]);
    }
    std::vector<Shell> shells;
    std::vector<std::uint32_t> number(net.corners.size(), 0xffffffffu);
    for (const Face& face : net.faces) {
        std::uint32_t& shell = number[joined.find(face[0])];
        if (shell == 0xffffffffu) {
            shell = static_cast<std::uint32_t>(shells.size());
            shells.emplace_back();
        }
        std::array<Corner, 3> p;
        for (std::size_t i = 0; i < 3; ++i) {
            p[i] = net.corners[face[i]];
            shells[shell].bounds.add(p[i]);
            for (std::size_t axis = 0; axis < 3; ++axis) p[i][axis] -= middle[axis];
        }
        const auto crossed = [](const Corner& a, const Corner& b) {
            return Corner{a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
        };
        const Corner bc = crossed(p[1], p[2]);
        shells[shell].sixVolumes += p[0][0] * bc[0] + p[0][1] * bc[1] + p[0][2] * bc[2];
        const Corner u{p[1][0] - p[0][0], p[1][1] - p[0][1], p[1][2] - p[0][2]};
        const Corner v{p[2][0] - p[0][0], p[2][1] - p[0][1], p[2][2] - p[0][2]};
        const Corner normal = crossed(u, v);
        shells[shell].twoAreas += std::sqrt(normal[0] * normal[0] + normal[1] * normal[1] + normal[2] * normal[2]);
    }
    return shells;
}

bool isInverted(const std::vector<Shell>& shells) {
    return std::any_of(shells.begin(), shells.end(), [&](const Shell& shell) {
        // A shell that looks inwards is a hollow if it lies in a body.
        return shell.sixVolumes < 0 && std::none_of(shells.begin(), shells.end(), [&](const Shell& around) {
                   return around.sixVolumes > 0 && around.bounds.contains(shell.bounds);
               });
    });
}

const char* nameOf(DrawingUnit unit) {
    switch (unit) {
        case DrawingUnit::Centimetre:
            return "cm";
        case DrawingUnit::Metre:
            return "m";
        case DrawingUnit::Inch:
            return later("inch");
        default:
            return "mm";
    }
}

// The unit in which a longest side would be that of most bodies in a lathe.
std::optional<DrawingUnit> likelyUnit(double longestFigure) {
    constexpr double kLeastMm = 20, kMostMm = 2000;
    for (DrawingUnit unit : {DrawingUnit::Millimetre, DrawingUnit::Inch, DrawingUnit::Metre, DrawingUnit::Centimetre}) {
        const double mm = longestFigure * millimetresIn(unit);
        if (mm >= kLeastMm && mm <= kMostMm) return unit;
    }
    return std::nullopt;
}

std::optional<DrawingFault> sizeFault(const Bounds& bounds, std::string_view file, DrawingUnit unit) {
    const double longest = bounds.longest() * millimetresIn(unit);
    if (longest >= kShortestBodyMm && longest <= kLongestBodyMm) return std::nullopt;
    const auto likely = likelyUnit(bounds.longest());
    std::string remedy = tr("Check the unit it was saved in, and say it in the set-up (unit).");
    if (likely && *likely != unit) {
        remedy = say("Probably its figures are {0}: then it is {1:.4g} mm long; write unit = \"{2}\".",
                     tr(nameOf(*likely)), bounds.longest() * millimetresIn(*likely), nameOf(*likely));
    }
    return meshFault("mesh-size-improbable",
                     say("{} would be {:.4g} mm long with its figures in {}; bodies between {} mm and {} mm are "
                         "taken.",
                         file, longest, tr(nameOf(unit)), kShortestBodyMm, kLongestBodyMm),
                     std::move(remedy));
}

std::string facingMixed(std::string_view file, std::size_t edges) {
    return edges == 1 ? say("{} is not closed: at 1 edge the faces on either side look opposite ways, so inside and "
                            "outside cannot be told.",
                            file)
                      : say("{} is not closed: at {} edges the faces on either side look opposite ways, so inside and "
                            "outside cannot be told.",
                            file, edges);
}

std::string isOpen(std::string_view file, std::size_t edges) {
    return edges == 1
               ? say("{} is open: 1 edge of its surface is not shared by two triangles, so it encloses nothing.", file)
               : say("{} is open: {} edges of its surface are not shared by two triangles, so it encloses nothing.",
                     file, edges);
}

std::optional<DrawingFault> firstFault(const std::vector<MeshFacet>& triangles, std::string_view file,
                                       DrawingUnit unit) {
    for (std::size_t i = 0; i < triangles.size(); ++i) {
        if (std::all_of(triangles[i].begin(), triangles[i].end(), [](float x) { return std::abs(x) < kLargestFigure; }))
            continue;
        return meshFault(
            "mesh-bad-number",
            say("Triangle {} of {} has a coordinate that is no number, or far beyond any machine.", i + 1, file),
            tr("Save the body anew as STL from the program it was drawn in."));
    }
    Net net = weldEqual(triangles);
    OpenEdges open = openEdges(net);
    if (open.open + open.facingMixed > 0) {
        net = weldNear(net, kWeldMm / millimetresIn(unit));
        open = openEdges(net);
    }
    if (open.open + open.facingMixed > 0) {
        const bool mixed = open.open == 0;
        return meshFault(
            "mesh-open", mixed ? facingMixed(file, open.facingMixed) : isOpen(file, open.open + open.facingMixed),
            tr("Save it from a solid body, not from surfaces, or have the mesh closed by the program that wrote it."));
    }
    Bounds bounds;
    for (const Corner& corner : net.corners) bounds.add(corner);
    const Corner middle{(bounds.min[0] + bounds.max[0]) / 2, (bounds.min[1] + bounds.max[1]) / 2,
                        (bounds.min[2] + bounds.max[2]) / 2};
    const std::vector<Shell> shells = shellsOf(net, middle);
    double sixVolumes = 0, twoAreas = 0;
    for (const Shell& shell : shells) {
        sixVolumes += shell.sixVolumes;
        twoAreas += shell.twoAreas;
    }
    const double thickness = twoAreas > 0 ? 2 * (std::abs(sixVolumes) / 6) / (twoAreas / 2) : 0;
    if (thickness * millimetresIn(unit) < kThinnestMm) {
        return meshFault("mesh-no-volume", say("{} encloses no volume: it is flat or a line.", file),
                         tr("Save it from a solid body; give a sheet its thickness."));
    }
    if (sixVolumes < 0 || isInverted(shells)) {
        return meshFault(
            "mesh-inverted",
            say("{} is inside out: its faces look inwards, so that all but the body would be solid.", file),
            tr("Turn its faces round (reverse the normals) in the program it was drawn in, and save it anew."));
    }
    return sizeFault(bounds, file, unit);
}

}  // namespace

std::vector<DrawingFault> faultsOf(const std::vector<MeshFacet>& triangles, std::string_view fileName,
                                   DrawingUnit unit) {
    std::vector<DrawingFault> faults;
    if (auto fault = firstFault(triangles, fileName, unit)) faults.push_back(std::move(*fault));
    return faults;
}

}  // namespace firstoff
