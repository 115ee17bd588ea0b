#include "sim/clearance/nearness.h"

#include <optional>

#include "sim/clearance/body_tree.h"
#include "sim/clearance/mesh_inside.h"
#include "sim/clearance/pair_search.h"
#include "sim/clearance/swing_search.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kHasPair = 1;

// A point of the one body that lies inside the other, a mesh, though no surfaces touch, room frame.
std::optional<SpacePoint> insideOf(const PlacedBody& mesh, const PlacedBody& other) {
    if (!mesh.data().isMesh) return std::nullopt;
    for (const SpacePoint& sample : other.data().samples) {
        const SpacePoint turned = other.stand().turned(sample);
        const Point shift = other.stand().shifts[0];
        const SpacePoint p{turned.z + shift.z, turned.r + shift.r, turned.y};
        if (isInside(mesh.data(), mesh.stand().intoBody(p))) return p;
    }
    return std::nullopt;
}

std::optional<SpacePoint> oneInsideOther(const PlacedBody& a, const PlacedBody& b) {
    if (const auto p = insideOf(a, b)) return p;
    return insideOf(b, a);
}

}  // namespace

Nearness nearness(const BodyShape& first, const Placing& firstAt, const BodyShape& second, const Placing& secondAt,
                  double beyond, NearnessHint* hint) {
    if (first.empty() || second.empty()) return {};
    const PlacedBody a(first, firstAt), b(second, secondAt);
    PairSearch search(a, b, beyond);
    if (hint && hint->at[2] == kHasPair && hint->at[0] < a.data().nodes.size() && hint->at[1] < b.data().nodes.size() &&
        a.isSingle(hint->at[0]) && b.isSingle(hint->at[1])) {
        search.tryFirst(hint->at[0], hint->at[1]);
    }
    Nearness nearest = search.run();
    if (hint && search.found()) hint->at = {search.foundFirst(), search.foundSecond(), kHasPair, 0};
    if (nearest.gap > 0) {
        if (const auto p = oneInsideOther(a, b)) nearest = {0, *p, *p};
    }
    return nearest;
}

SwingNearness nearnessOfSwing(const BodyShape& first, const Placing& firstAt, double turnTo, const BodyShape& second,
                              const Placing& secondAt, double beyond) {
    if (first.empty() || second.empty()) return {};
    const PlacedBody a(first, firstAt), b(second, secondAt);
    // Whatever is inside at all while no surfaces touch is so from the start.
    SwingNearness swing = SwingSearch(a, b, firstAt.turn, turnTo, beyond).run();
    if (swing.nearest.gap > 0 || swing.fraction > 0) {
        if (const auto p = oneInsideOther(a, b)) swing = {{0, *p, *p}, 0};
    }
    return swing;
}

}  // namespace firstoff
