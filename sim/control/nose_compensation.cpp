// The centre path element by element is in offset_curve.cpp, with its notation. Here the elements are joined up.
//
// An element trimmed at an inside corner by more than its length would be run backwards. It is taken out, and the
// element before it is joined to the one after it; if that one is now too short it goes too. Each element is put in and
// taken out once at most, so the whole is linear.
#include "sim/control/nose_compensation.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <optional>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/control/offset_curve.h"

namespace firstoff {

namespace {

using namespace nose;
using tolerance::kSamePlaceMm;

// What has become of one element.
struct Piece {
    std::uint32_t element = 0;
    std::int32_t below = -1;  // the piece before it that still has its place; -1: none, or none that can be given up
    Point lead, start, end, leave;
    double trimmed = 0;  // taken off at the start
    double lacking = 0;  // length that neighbours wanted of it beyond its own; of a hollow arc: radius
    bool tooHollow = false;
    bool straight = false;  // has lost its own shape: a straight piece from `start` to `end`
    bool gone = false;      // has lost its place too
};

class Compensator {
public:
    Compensator(const std::vector<PathElement>& elements, const CompensationSetting& setting,
                std::vector<CompensationIssue>& issues)
        : elements_(elements),
          issues_(issues),
          start_(setting.start),
          s_(setting.side == Compensation::Left ? 1 : -1),
          rho_(setting.noseRadius),
          tip_(setting.noseRadius * tipFromNoseCentre(setting.tipNumber)) {}

    std::vector<PathElement> run(std::size_t startUp, std::size_t end, bool cancelled);

private:
    void addAll(std::size_t startUp, std::size_t end);
    void add(std::size_t index, bool otherSide);
    void changeSide(Piece& piece, const Curve& curve);
    void roundStart(const PathElement& e);
    void roundCancel(const PathElement& e);
    void join(Piece& piece, const Curve& curve);
    void turn(const Corner& corner, Piece& piece, const Curve& curve);
    std::int32_t joinPastTop(Piece& piece, const Curve& curve);
    void link(std::int32_t out, Piece& piece, const Curve& curve);
    void giveUp(std::int32_t from, std::int32_t upTo);
    void finish();
    void report(CompensationIssue::Kind kind, const PathElement& e, double amount = 0, double uncut = 0);
    void reportLoss(const Piece& piece);

    void emitStartUp(const PathElement& e);
    void emitCancel(const PathElement& e);
    void emitPiece(const Piece& piece);
    void emitStraight(Point to, const PathElement& e);
    void emitJoint(Point centre, const PathElement& e);

    const std::vector<PathElement>& elements_;
    std::vector<CompensationIssue>& issues_;
    const CompensationStart start_;
    double s_;  // of the element that is being added
    double startSide_ = 0;
    const double rho_;
    const Point tip_;
    std::vector<Piece> pieces_;         // one for each compensated element that has a length, in order
    Curve topCurve_;                    // of pieces_.back()
    Point startUpEnd_;                  // where the centre stands when compensation has come on
    std::optional<Point> cancelStart_;  // cancelling B: where the centre leaves for the cancelling move's end
    std::vector<PathElement> out_;
    Point at_;         // imaginary tip at the end of `out_`
    double lost_ = 0;  // of the last elements in a row that lost too little to be reported
};

void Compensator::report(CompensationIssue::Kind kind, const PathElement& e, double amount, double uncut) {
    issues_.push_back({kind, e.tag, amount, uncut});
}

// What is lost of a piece that no longer runs along its element: the length that is lacking; by how much the nose, from
// where it stands instead, misses the element; the link in place of an arc the size of the nose. Less than a touch is
// the rounding of the program's decimals, but many short pieces in a row may each lose less than that and count
// together.
void Compensator::reportLoss(const Piece& piece) {
    const PathElement& e = elements_[piece.element];
    // Where the nose still runs along a link it passes the middle at a place that says nothing.
    const bool standsStill = piece.gone || distance(piece.start, piece.end) <= kSamePlaceMm;
    const double uncut = standsStill ? std::max(0.0, distance(middleOf(e), at_ - tip_) - rho_) : 0;
    if (piece.tooHollow && piece.lacking > tolerance::kTouchMm) {
        return report(CompensationIssue::Kind::InsideArcTooSmall, e, piece.lacking, uncut);
    }
    double missed = 0;
    if (piece.gone) {
        missed = std::abs(distanceTo(e, at_ - tip_) - rho_);
    } else if (piece.tooHollow) {
        missed = distance(piece.start, piece.end);
    }
    lost_ += std::max(piece.lacking, missed);
    if (lost_ <= tolerance::kTouchMm) return;
    report(CompensationIssue::Kind::NoRoom, e, lost_, uncut);
    lost_ = 0;
}

void Compensator::addAll(std::size_t startUp, std::size_t end) {
    pieces_.reserve(end - startUp);
    bool otherSide = false;
    for (std::size_t i = 0; i < end; ++i) {
        otherSide ^= elements_[i].changesSide;
        if (i == startUp) {
            if (otherSide) s_ = -s_;
            otherSide = false;
            startSide_ = s_;
            startUpEnd_ = offsetLine(elements_[i], s_, rho_).to;
        } else if (!hasNoLength(elements_[i])) {
            add(i, otherSide);
            otherSide = false;
        }
    }
    finish();
}

void Compensator::add(std::size_t index, bool otherSide) {
    if (otherSide) {
        finish();
        s_ = -s_;
    }
    const Curve curve = offset(elements_[index], s_, rho_);
    Piece piece;
    piece.element = static_cast<std::uint32_t>(index);
    piece.lead = piece.start = curve.from;
    piece.end = piece.leave = curve.to;
    piece.straight = piece.tooHollow = curve.vanishes;
    piece.lacking = curve.lacking;
    if (!pieces_.empty()) {
        if (otherSide) {
            changeSide(piece, curve);
        } else {
            join(piece, curve);
        }
    }
    topCurve_ = curve;
    pieces_.push_back(piece);
}

// The new piece begins where it would on its own. Straight on and back on itself are told within one degree.
void Compensator::changeSide(Piece& piece, const Curve& curve) {
    static const double kStraight = std::sin(radians(1));
    const bool straight = topCurve_.k == 0 && curve.k == 0 && std::abs(cross(topCurve_.t2, curve.t1)) < kStraight;
    if (straight && !topCurve_.vanishes && !curve.vanishes) return;
    report(CompensationIssue::Kind::SideChange, elements_[piece.element], distance(pieces_.back().leave, piece.lead));
}

// Start-up B at an outside corner, as if the start-up move were compensated too.
void Compensator::roundStart(const PathElement& e) {
    Piece& first = pieces_.front();
    if (first.straight || first.gone) return;
    const Curve before = offsetLine(e, s_, rho_);
    const Curve curve = offset(elements_[first.element], s_, rho_);
    const auto corner = outsideTurn(before, curve, e.to, s_, rho_);
    if (!corner) return;
    startUpEnd_ = corner->leave;
    first.lead = corner->lead;
    first.start = corner->start;
}

// Likewise for cancelling.
void Compensator::roundCancel(const PathElement& e) {
    Piece& last = pieces_.back();
    if (last.straight || last.gone) return;
    const auto corner = outsideTurn(topCurve_, offsetLine(e, s_, rho_), e.from, s_, rho_);
    if (!corner) return;
    last.end = corner->end;
    last.leave = corner->leave;
    cancelStart_ = corner->lead;
}

void Compensator::join(Piece& piece, const Curve& curve) {
    Piece& top = pieces_.back();
    piece.below = static_cast<std::int32_t>(pieces_.size()) - 1;
    if (curve.vanishes) {  // what becomes of it shows when the element after it comes
        piece.lead = piece.start = top.end;
        return;
    }
    if (topCurve_.vanishes) {
        const std::int32_t out = joinPastTop(piece, curve);
        if (out >= 0) link(out, piece, curve);
        return;
    }
    double miss = 0;
    const Corner corner = cornerOf(topCurve_, curve, elements_[piece.element].from, s_, rho_, miss);
    const double lacking = miss > 0 ? miss : top.trimmed + topCurve_.before(corner.end) - topCurve_.length;
    if (miss == 0 && lacking <= kSamePlaceMm) return turn(corner, piece, curve);
    top.lacking = lacking;
    const std::int32_t out = joinPastTop(piece, curve);
    if (out < 0) return;
    if (miss > 0 || lacking > tolerance::kTouchMm) return link(out, piece, curve);
    // Backwards by less than a touch is better than a link to the perpendicular point.
    turn(corner, piece, curve);
    top.straight = true;
    piece.below = -1;
}

void Compensator::turn(const Corner& corner, Piece& piece, const Curve& curve) {
    Piece& top = pieces_.back();
    top.end = corner.end;
    top.leave = corner.leave;
    piece.lead = corner.lead;
    piece.start = corner.start;
    piece.trimmed = curve.after(corner.start);
}

// Joins a new piece to one below the top and gives up those between. If none meets it, changes nothing and returns the
// deepest one that has no room; otherwise returns -1.
std::int32_t Compensator::joinPastTop(Piece& piece, const Curve& curve) {
    const std::int32_t top = piece.below;
    std::int32_t out = top;
    for (std::int32_t below = pieces_[out].below; below >= 0; out = below, below = pieces_[out].below) {
        Piece& candidate = pieces_[below];
        const Curve a = offset(elements_[candidate.element], s_, rho_);
        if (a.vanishes) continue;
        const auto x = insideMeeting(a, curve, s_);
        if (!x) break;
        const double lacking = candidate.trimmed + a.before(*x) - a.length;
        if (lacking <= kSamePlaceMm) {
            giveUp(top, out);
            candidate.end = candidate.leave = piece.lead = piece.start = *x;
            piece.trimmed = curve.after(*x);
            piece.below = below;
            return -1;
        }
        candidate.lacking = lacking;
    }
    return out;
}

// Makes the piece `out` a straight link to the perpendicular start of a new piece, and gives up those between.
void Compensator::link(std::int32_t out, Piece& piece, const Curve& curve) {
    giveUp(piece.below, out);
    Piece& link = pieces_[out];
    link.gone = false;
    link.straight = true;
    link.end = link.leave = piece.lead = piece.start = curve.from;
    piece.below = -1;
}

// Takes away the pieces from `from` down to `upTo`.
void Compensator::giveUp(std::int32_t from, std::int32_t upTo) {
    for (std::int32_t i = from; i != upTo; i = pieces_[i].below) pieces_[i].gone = true;
    pieces_[upTo].gone = true;
}

void Compensator::finish() {
    if (pieces_.empty()) return;
    Piece& last = pieces_.back();
    const double lacking = topCurve_.vanishes ? 0 : last.trimmed - topCurve_.length;
    if (lacking <= kSamePlaceMm) return;
    last.lacking = lacking;
    last.straight = true;
}

void Compensator::emitStraight(Point to, const PathElement& e) {
    out_.push_back({at_, to, {}, e.kind == MoveKind::Rapid ? MoveKind::Rapid : MoveKind::Feed, e.tag});
    at_ = to;
}

void Compensator::emitJoint(Point centre, const PathElement& e) {
    if (distance(at_, centre + tip_) > kSamePlaceMm) emitStraight(centre + tip_, e);
}

void Compensator::emitStartUp(const PathElement& e) {
    if (isArc(e.kind)) report(CompensationIssue::Kind::StartOnArc, e);
    emitStraight(startUpEnd_ + tip_, e);
}

void Compensator::emitCancel(const PathElement& e) {
    if (isArc(e.kind)) report(CompensationIssue::Kind::CancelOnArc, e);
    if (cancelStart_) emitJoint(*cancelStart_, e);
    emitStraight(e.to, e);
}

void Compensator::emitPiece(const Piece& piece) {
    const PathElement& e = elements_[piece.element];
    if (piece.gone || piece.straight) {
        reportLoss(piece);
    } else {
        lost_ = 0;
    }
    if (piece.gone) return emitStraight(at_, e);
    emitJoint(piece.start, e);
    if (isArc(e.kind) && !piece.straight && distance(piece.start, piece.end) > kSamePlaceMm) {
        out_.push_back({at_, piece.end + tip_, e.centre + tip_, e.kind, e.tag});
        at_ = piece.end + tip_;
    } else {
        emitStraight(piece.end + tip_, e);
    }
    emitJoint(piece.leave, e);
}

// Elements before `startUp` have no length, those from `end` on are not compensated.
std::vector<PathElement> Compensator::run(std::size_t startUp, std::size_t end, bool cancelled) {
    addAll(startUp, end);
    if (!pieces_.empty()) {
        startUpEnd_ = pieces_.front().lead;
        const PathElement& last = elements_.back();
        const bool roundTheEnd = start_ == CompensationStart::B && cancelled && !isArc(last.kind) && !hasNoLength(last);
        if (roundTheEnd) roundCancel(last);
        s_ = startSide_;
        if (start_ == CompensationStart::B && !isArc(elements_[startUp].kind)) roundStart(elements_[startUp]);
    }

    out_.reserve(elements_.size() + elements_.size() / 8);
    at_ = elements_.front().from;
    auto piece = pieces_.begin();
    const PathElement* before = &elements_[startUp];
    for (std::size_t i = 0; i < end; ++i) {
        const PathElement& e = elements_[i];
        if (i == startUp) {
            emitStartUp(e);
        } else if (piece == pieces_.end() || piece->element != i) {
            emitStraight(at_, e);
        } else {
            if (!piece->gone) {
                emitJoint(piece->lead, *before);  // across a sharp outside corner
                before = &e;
            }
            emitPiece(*piece++);
        }
    }
    if (cancelled) emitCancel(elements_.back());
    return std::move(out_);
}

}  // namespace

std::vector<PathElement> compensate(const std::vector<PathElement>& elements, const CompensationSetting& setting,
                                    bool cancelled, std::vector<CompensationIssue>& issues) {
    assert(setting.noseRadius >= 0);
    if (setting.side == Compensation::Off) return elements;
    const std::size_t end = elements.size() - (cancelled && !elements.empty() ? 1 : 0);
    std::size_t startUp = 0;
    while (startUp < end && hasNoLength(elements[startUp])) ++startUp;
    if (startUp == end) return elements;  // switched off before anything moved
    return Compensator(elements, setting, issues).run(startUp, end, cancelled);
}

}  // namespace firstoff
