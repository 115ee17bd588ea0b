// The pieces of a body, laid out for measuring, under a tree of boxes; and the same as it is placed.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

#include "sim/base/space.h"
#include "sim/clearance/nearness.h"

namespace firstoff {

struct BodyShape::Data {
    // Corners z, r, y of polyhedra; z, r of the half-section of turned pieces.
    std::vector<double> z, r, y;
    struct Piece {
        std::uint32_t begin = 0, end = 0;  // corners
        bool turned = false;
        double axisR = 0, axisY = 0;
    };
    std::vector<Piece> pieces;
    struct Node {
        std::array<float, 3> min{}, max{};  // z, r, y; rounded outwards
        std::uint32_t child = 0;            // its two children stand side by side from here; 0: a single piece
        std::uint32_t piece = 0;
    };
    std::vector<Node> nodes;  // the first is the root
    bool isMesh = false;
    std::vector<SpacePoint> samples;  // a point of each part that hangs together, see mesh_inside.h
    SpaceBox box;
};

// A placing, ready for use.
struct Stand {
    double c = 1, s = 0, axisR = 0;
    std::array<Point, 4> shifts{};
    int count = 1;

    explicit Stand(const Placing& at) : axisR(at.axisR), shifts(at.shifts), count(at.count) { turnTo(at.turn); }
    void turnTo(double angle) {
        c = angle == 0 ? 1 : std::cos(angle);
        s = angle == 0 ? 0 : std::sin(angle);
    }

    SpacePoint directionInBody(SpacePoint d) const { return {d.z, c * d.r + s * d.y, c * d.y - s * d.r}; }
    SpacePoint turned(SpacePoint p) const {
        const double r = p.r - axisR;
        return {p.z, axisR + c * r - s * p.y, s * r + c * p.y};
    }
    Point furthestShift(SpacePoint d) const {
        Point best = shifts[0];
        double most = best.z * d.z + best.r * d.r;
        for (int i = 1; i < count; ++i) {
            const Point p = shifts[static_cast<std::size_t>(i)];
            const double m = p.z * d.z + p.r * d.r;
            if (m > most) {
                most = m;
                best = p;
            }
        }
        return best;
    }
    SpacePoint placed(SpacePoint inBody, SpacePoint direction) const {
        const SpacePoint p = turned(inBody);
        const Point shift = furthestShift(direction);
        return {p.z + shift.z, p.r + shift.r, p.y};
    }
    // Of the middle of what its shifts sweep.
    SpacePoint middle(SpacePoint inBody) const;
    // Where a point of the room, at the first of its shifts, lies in the body's frame.
    SpacePoint intoBody(SpacePoint p) const;
};

// How a solid moves while its stand turns by up to `half` either way.
struct Rocking {
    double half = 0, cosHalf = 1, sinHalf = 0;

    explicit Rocking(double halfAngle)
        : half(std::abs(halfAngle)), cosHalf(std::cos(halfAngle)), sinHalf(std::sin(std::abs(halfAngle))) {}
    // Least of v cos d + w sin d over |d| <= half.
    double least(double v, double w) const {
        const double size = std::sqrt(v * v + w * w);
        if (half >= 3.1415 || -v >= size * cosHalf) return -size;
        return v * cosHalf - std::abs(w) * sinHalf;
    }
};

// One body where it stands, as the searches walk it: nodes with children, each a convex solid; see pair_search.h.
class PlacedBody {
public:
    class Cover {  // box of a node
    public:
        SpacePoint support(SpacePoint d) const {
            const SpacePoint in = stand_->directionInBody(d);
            return stand_->placed({in.z < 0 ? min_.z : max_.z, in.r < 0 ? min_.r : max_.r, in.y < 0 ? min_.y : max_.y},
                                  d);
        }
        SpacePoint middle() const { return stand_->middle(0.5 * (min_ + max_)); }
        // Least of away · x over its points x while it rocks.
        double least(SpacePoint away, const Rocking& rocking) const;
        // How far any point is from the axis of the turn, and its diagonal.
        double reach() const;
        double size() const { return length(max_ - min_); }

        Cover(const Stand& stand, const BodyShape::Data::Node& node)
            : stand_(&stand),
              min_{node.min[0], node.min[1], node.min[2]},
              max_{node.max[0], node.max[1], node.max[2]} {}

    private:
        const Stand* stand_;
        SpacePoint min_, max_;
    };

    class Solid {  // a single piece
    public:
        SpacePoint support(SpacePoint d) const;
        double least(SpacePoint away, const Rocking& rocking) const;

        Solid(const Stand& stand, const BodyShape::Data& data, std::uint32_t piece)
            : stand_(&stand), data_(&data), piece_(&data.pieces[piece]) {}

    private:
        const Stand* stand_;
        const BodyShape::Data* data_;
        const BodyShape::Data::Piece* piece_;
    };

    using Node = std::uint32_t;
    using Children = std::array<Node, 2>;

    PlacedBody(const BodyShape& shape, const Placing& at) : data_(&shape.data()), stand_(at) {}

    Node root() const { return 0; }
    bool isSingle(Node n) const { return data_->nodes[n].child == 0; }
    int children(Node n, Children& out) const {
        const Node first = data_->nodes[n].child;
        out = {first, first + 1};
        return 2;
    }
    Cover cover(Node n) const { return {stand_, data_->nodes[n]}; }
    Solid solid(Node n) const { return {stand_, *data_, data_->nodes[n].piece}; }
    double size(Node n) const { return cover(n).size(); }

    Stand& stand() { return stand_; }
    const Stand& stand() const { return stand_; }
    const BodyShape::Data& data() const { return *data_; }

private:
    const BodyShape::Data* data_;
    Stand stand_;
};

}  // namespace firstoff
