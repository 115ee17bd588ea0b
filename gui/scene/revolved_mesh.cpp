// Notation. A loop runs anticlockwise with z to the right and r upwards, so the solid lies left of an edge of direction
// d and the outward normal of the half-section is d turned clockwise, (d.r, -d.z). Each edge becomes a ring of quads
// between two circles; an end on the axis shrinks its circle to a point and the quads to triangles.
#include "gui/scene/revolved_mesh.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"

namespace firstoff::gui {

namespace {

struct ProfileEdge {
    Point from, to;
    Point normal;  // unit
    double length = 0;
    std::uint32_t colour = 0;
    float lay = 0;
};

// One circle of vertices: where an edge begins or ends, or both when the surface goes on smoothly.
struct Ring {
    Point place, normal;
    std::uint32_t colour = 0;
    float lay = 0;
};

bool onAxis(Point p) {
    return p.r < tolerance::kSamePlaceMm;
}

std::vector<ProfileEdge> edgesOf(const Loop& loop, const RevolveOptions& options) {
    std::vector<ProfileEdge> edges;
    const std::size_t n = loop.points.size();
    for (std::size_t i = 0; i < n; ++i) {
        const Point from = loop.points[i];
        const Point to = loop.points[(i + 1) % n];
        const double size = distance(from, to);
        if (size < tolerance::kSamePlaceMm) continue;
        const Point d = (1 / size) * (to - from);
        const CutId cut = i < loop.cuts.size() ? loop.cuts[i] : kUncut;
        edges.push_back({from, to, {d.r, -d.z}, size, options.colour(cut), options.lay(cut)});
    }
    return edges;
}

bool goesOnSmoothly(const ProfileEdge& a, const ProfileEdge& b, const RevolveOptions& options) {
    if (a.colour != b.colour || a.lay != b.lay || distance(a.to, b.from) > tolerance::kSamePlaceMm) return false;
    const double turn = std::acos(std::clamp(dot(a.normal, b.normal), -1.0, 1.0));
    // A chord of length c that turns by `turn` from its neighbour has a sagitta of about c * turn / 8.
    return turn < options.smoothAngle && std::min(a.length, b.length) * turn / 8 < options.chordMm;
}

// The longer edge has the say: the line before a fillet stays as straight in the light as it is.
Point sharedNormal(const ProfileEdge& a, const ProfileEdge& b) {
    const Point sum = a.length * a.normal + b.length * b.normal;
    return (1 / length(sum)) * sum;
}

class RingStrips {
public:
    RingStrips(const RevolveOptions& options, TriangleMesh& mesh) : mesh_(mesh) {
        const double sweep = options.toAngle - options.fromAngle;
        whole_ = sweep > 2 * kPi - 1e-9;
        const int sectors = std::max(3, static_cast<int>(std::ceil(options.sectors * sweep / (2 * kPi) - 1e-9)));
        const int circles = whole_ ? sectors : sectors + 1;
        for (int i = 0; i < circles; ++i) {
            const double angle = options.fromAngle + sweep * i / sectors;
            directions_.emplace_back(static_cast<float>(std::cos(angle)), static_cast<float>(std::sin(angle)));
        }
        sectors_ = sectors;
    }

    // Returns the index of the first vertex of the ring.
    std::uint32_t ring(const Ring& ring) {
        const auto first = static_cast<std::uint32_t>(mesh_.vertices.size());
        const auto z = static_cast<float>(ring.place.z);
        const auto r = static_cast<float>(ring.place.r);
        const auto nz = static_cast<float>(ring.normal.z);
        const auto nr = static_cast<float>(ring.normal.r);
        for (glm::vec2 d : directions_) {
            mesh_.vertices.push_back({{z, r * d.x, r * d.y}, {nz, nr * d.x, nr * d.y}, ring.colour, z - r, ring.lay});
        }
        return first;
    }

    void strip(std::uint32_t from, bool fromOnAxis, std::uint32_t to, bool toOnAxis) {
        const auto count = static_cast<std::uint32_t>(directions_.size());
        for (std::uint32_t i = 0; i < static_cast<std::uint32_t>(sectors_); ++i) {
            const std::uint32_t j = (i + 1) % count;
            if (!toOnAxis) addTriangle(from + i, to + i, to + j);
            if (!fromOnAxis) addTriangle(from + i, to + j, from + j);
        }
    }

private:
    void addTriangle(std::uint32_t a, std::uint32_t b, std::uint32_t c) {
        mesh_.indices.insert(mesh_.indices.end(), {a, b, c});
    }

    TriangleMesh& mesh_;
    std::vector<glm::vec2> directions_;
    int sectors_ = 0;
    bool whole_ = true;
};

void revolveLoop(const Loop& loop, const RevolveOptions& options, RingStrips& strips) {
    const std::vector<ProfileEdge> edges = edgesOf(loop, options);
    const std::size_t n = edges.size();
    if (n < 2) return;
    const auto smoothAfter = [&](std::size_t i) { return goesOnSmoothly(edges[i], edges[(i + 1) % n], options); };
    const auto startRing = [&](std::size_t i) {
        const ProfileEdge& before = edges[(i + n - 1) % n];
        const bool smooth = smoothAfter((i + n - 1) % n);
        return Ring{edges[i].from, smooth ? sharedNormal(before, edges[i]) : edges[i].normal, edges[i].colour,
                    edges[i].lay};
    };
    constexpr std::uint32_t none = 0xffffffffu;
    std::uint32_t carried = none;
    for (std::size_t i = 0; i < n; ++i) {
        const ProfileEdge& edge = edges[i];
        const bool flat = onAxis(edge.from) && onAxis(edge.to);
        const bool smooth = smoothAfter(i);
        if (flat) {
            carried = none;
            continue;
        }
        const std::uint32_t from = carried != none ? carried : strips.ring(startRing(i));
        const Point endNormal = smooth ? sharedNormal(edge, edges[(i + 1) % n]) : edge.normal;
        const std::uint32_t to = strips.ring({edge.to, endNormal, edge.colour, edge.lay});
        strips.strip(from, onAxis(edge.from), to, onAxis(edge.to));
        carried = smooth ? to : none;
    }
}

// Even-odd trapezoids between neighbouring z of the corners.
struct Slab {
    double z0, z1;
};

struct Crossing {
    double r0, r1;  // where an edge stands at both sides of a slab
};

std::vector<double> cornerStations(std::span<const Loop> loops) {
    std::vector<double> stations;
    for (const Loop& loop : loops) {
        for (Point p : loop.points) stations.push_back(p.z);
    }
    std::sort(stations.begin(), stations.end());
    const auto same = [](double a, double b) { return b - a < tolerance::kSamePlaceMm; };
    stations.erase(std::unique(stations.begin(), stations.end(), same), stations.end());
    return stations;
}

struct SpanEdge {
    Point low, high;  // low.z < high.z
    double rAt(double z) const { return low.r + (high.r - low.r) * (z - low.z) / (high.z - low.z); }
};

std::vector<SpanEdge> spanEdges(std::span<const Loop> loops) {
    std::vector<SpanEdge> edges;
    for (const Loop& loop : loops) {
        const std::size_t n = loop.points.size();
        for (std::size_t i = 0; i < n; ++i) {
            Point a = loop.points[i];
            Point b = loop.points[(i + 1) % n];
            if (a.z > b.z) std::swap(a, b);
            if (b.z - a.z >= tolerance::kSamePlaceMm) edges.push_back({a, b});
        }
    }
    std::sort(edges.begin(), edges.end(), [](const SpanEdge& a, const SpanEdge& b) { return a.low.z < b.low.z; });
    return edges;
}

std::vector<Crossing> crossings(const std::vector<SpanEdge>& active, Slab slab) {
    std::vector<Crossing> found;
    for (const SpanEdge& e : active) found.push_back({e.rAt(slab.z0), e.rAt(slab.z1)});
    std::sort(found.begin(), found.end(), [](Crossing a, Crossing b) { return a.r0 + a.r1 < b.r0 + b.r1; });
    return found;
}

class FlatFace {
public:
    FlatFace(double angle, int normalSign, std::uint32_t colour, TriangleMesh& mesh)
        : mesh_(mesh),
          cosine_(static_cast<float>(std::cos(angle))),
          sine_(static_cast<float>(std::sin(angle))),
          sign_(normalSign),
          colour_(colour) {}

    void trapezoid(Slab slab, Crossing lower, Crossing upper) {
        const auto first = static_cast<std::uint32_t>(mesh_.vertices.size());
        corner({slab.z0, lower.r0});
        corner({slab.z1, lower.r1});
        corner({slab.z1, upper.r1});
        corner({slab.z0, upper.r0});
        if (sign_ > 0) {
            mesh_.indices.insert(mesh_.indices.end(), {first, first + 1, first + 2, first, first + 2, first + 3});
        } else {
            mesh_.indices.insert(mesh_.indices.end(), {first, first + 2, first + 1, first, first + 3, first + 2});
        }
    }

private:
    void corner(Point p) {
        const auto z = static_cast<float>(p.z);
        const auto r = static_cast<float>(p.r);
        const auto sign = static_cast<float>(sign_);
        mesh_.vertices.push_back({{z, r * cosine_, r * sine_}, {0, -sign * sine_, sign * cosine_}, colour_, 0});
    }

    TriangleMesh& mesh_;
    float cosine_, sine_;
    int sign_;
    std::uint32_t colour_;
};

}  // namespace

TriangleMesh revolve(std::span<const Loop> loops, const RevolveOptions& options) {
    assert(options.toAngle > options.fromAngle && options.toAngle <= options.fromAngle + 2 * kPi + 1e-9);
    TriangleMesh mesh;
    RingStrips strips(options, mesh);
    for (const Loop& loop : loops) revolveLoop(loop, options, strips);
    return mesh;
}

TriangleMesh sectionFace(std::span<const Loop> loops, double angle, int normalSign, std::uint32_t colour) {
    TriangleMesh mesh;
    FlatFace face(angle, normalSign, colour, mesh);
    const std::vector<double> stations = cornerStations(loops);
    const std::vector<SpanEdge> edges = spanEdges(loops);
    std::vector<SpanEdge> active;
    std::size_t next = 0;
    for (std::size_t i = 0; i + 1 < stations.size(); ++i) {
        const Slab slab{stations[i], stations[i + 1]};
        const double middle = 0.5 * (slab.z0 + slab.z1);
        std::erase_if(active, [&](const SpanEdge& e) { return e.high.z < middle; });
        for (; next < edges.size() && edges[next].low.z < middle; ++next) {
            if (edges[next].high.z > middle) active.push_back(edges[next]);
        }
        const std::vector<Crossing> found = crossings(active, slab);
        for (std::size_t k = 0; k + 1 < found.size(); k += 2) face.trapezoid(slab, found[k], found[k + 1]);
    }
    return mesh;
}

int sectorsFor(double radiusPx) {
    constexpr double kErrorPx = 0.33;
    constexpr int kFewest = 36, kMost = 120;
    if (radiusPx <= kErrorPx) return kFewest;
    const double step = 2 * std::acos(1 - kErrorPx / radiusPx);
    // In twelves, so that jaws and quarters fall on sector edges and the count does not flicker with the distance.
    const int count = 12 * static_cast<int>(std::ceil(2 * kPi / step / 12));
    return std::clamp(count, kFewest, kMost);
}

}  // namespace firstoff::gui
