#include "sim/control/cycle_path.h"

#include "sim/base/tolerances.h"

namespace firstoff {

void CyclePath::go(Point to, MoveKind kind) {
    if (distance(at_, to) <= tolerance::kSamePlaceMm) return;
    if (goesOn(to, kind)) {
        out_.back().to = frame_.out(to);
        at_ = to;
        return;
    }
    along({at_, to, {}, kind, kNoBlock});
}

bool CyclePath::goesOn(Point to, MoveKind kind) const {
    if (out_.empty()) return false;
    const CycleMove& last = out_.back();
    if (last.kind != kind || last.block != kNoBlock || last.pass != pass_) return false;
    const Point first = at_ - before_;
    const Point second = to - at_;
    const double longer = std::fmax(length(first), length(second));
    return std::abs(cross(first, second)) <= tolerance::kSamePlaceMm * longer && dot(first, second) > 0;
}

void CyclePath::along(const ProfileElement& piece) {
    // The path stays where it is, so that many moves too short to be made do not add up to a gap.
    if (distance(at_, piece.to) <= tolerance::kSamePlaceMm) return;
    before_ = at_;
    at_ = piece.to;
    CycleMove move;
    move.from = frame_.out(before_);
    move.to = frame_.out(piece.to);
    if (isArc(piece.kind)) move.centre = frame_.out(piece.centre);
    move.kind = frame_.turned(piece.kind);
    move.pass = static_cast<std::uint16_t>(pass_);
    move.block = piece.block;
    out_.push_back(move);
}

}  // namespace firstoff
