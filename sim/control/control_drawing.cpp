// Direct drawing entry: lines by their angle, and the corners that a block asks for at the end of its move.
//
// Notation: p where the line begins, A its angle in degrees from +Z, anticlockwise with Z to the right and X upwards,
// so that a cylinder turned towards the chuck is at A180 and a face turned outwards at A90; u = (cos A, sin A) in (z,
// r). With one coordinate the line ends where it reaches it. With none it ends in c, where the next line crosses it,
// which has an end q and an angle of its own, v: c = p + t u with t = cross(q - p, v) / cross(u, v). (Common practice,
// no source; the crossing is elementary geometry.)
#include <cmath>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/control/control.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kAngle = BlockWords::kCommaA | BlockWords::bit('A');
constexpr std::uint32_t kAlongR = BlockWords::bits({'X', 'U'});
constexpr std::uint32_t kAlongZ = BlockWords::bits({'Z', 'W'});

// Two directions whose cross product is below this are parallel: an angle typed with four decimals is finer by far.
constexpr double kParallel = 1e-9;
// How far an end point may lie off a line before both are said to contradict. A drawing gives angles to a few seconds
// and lengths to 0.01 mm.
constexpr double kContradictionMm = 0.01;
constexpr double kContradictionRad = 1e-4;

// Exact in the directions of the axes, so that a face is a face.
Point direction(double degrees) {
    const double turned = std::fmod(degrees, 360.0);
    const double quarter = std::round(turned / 90);
    const double rest = radians(turned - 90 * quarter);
    Point u{std::cos(rest), std::sin(rest)};
    for (int i = 0; i < (static_cast<int>(quarter) % 4 + 4) % 4; ++i) u = leftOf(u);
    return u;
}

}  // namespace

// A corner word without a comma, where the control takes such words: R and C, and the older I and K, in a G01 block
// that names one axis or an angle.
const Word* Control::plainCorner() const {
    if (!setup_.control.plainCorners || now_.modal.motion != 1) return nullptr;
    if (words_.hasAny(kAlongR) && words_.hasAny(kAlongZ) && !words_.hasAny(kAngle)) return nullptr;
    if (words_.has('R')) return words_.word('R');
    if (words_.has('C')) return words_.word('C');
    if (words_.has('I') && !words_.hasAny(kAlongR)) return words_.word('I');
    if (words_.has('K') && !words_.hasAny(kAlongZ)) return words_.word('K');
    return nullptr;
}

// `word` is the corner word, null where the block has none.
std::optional<CornerWish> Control::cornerWish(const Word*& word) {
    use(BlockWords::kCommaC | BlockWords::kCommaR);
    const bool comma = words_.cornerRadius() != nullptr || words_.cornerChamfer() != nullptr;
    word = words_.cornerRadius() != nullptr ? words_.cornerRadius() : words_.cornerChamfer();
    if (!comma) word = plainCorner();
    if (word == nullptr) return std::nullopt;
    if (!comma) use(BlockWords::bit(word->letter));
    if (words_.cornerRadius() != nullptr && words_.cornerChamfer() != nullptr) {
        remarks_.at(block(), *words_.cornerChamfer(),
                    {Severity::Stop, "word-twice", tr("Both ,C and ,R stand in this block; ,R was taken."),
                     tr("Write one of them.")});
    }
    const double size = lengthOf(*word);
    CornerWish wish{std::abs(size), word->letter == 'R', {}};
    // I and K always say where the next move goes, R and C do with a sign.
    const bool always = word->letter == 'I' || word->letter == 'K';
    if (!comma && (always || size < 0)) {
        wish.towards = words_.hasAny(kAlongR) ? Point{size, 0} : Point{0, size};
        return wish;
    }
    if (size > 0) return wish;
    if (size < 0) {
        remarks_.at(block(), *word,
                    {Severity::Stop, "not-above-zero",
                     say("A corner must be above zero, not {}; it was left sharp.", figure(word->value)),
                     tr("Correct the figure or its sign.")});
    }
    return std::nullopt;
}

// Where a line at that angle goes. A control that counts lengths in increments counts angles in thousandths of a
// degree.
Point Control::angleOf(const Word& word) {
    const double degrees = countsIncrements(word) ? word.value / 1000 : word.value;
    if (countsIncrements(word) && word.value != 0 && std::abs(degrees) < 1) {
        remarks_.at(
            block(), word,
            {Severity::Warning,
             "decimal-point-missing",
             say("{} has no decimal point, so it counts as {} degrees.", program_.textOf(word), figure(degrees)),
             tr("Write the decimal point."),
             {{"taken_deg", degrees}}});
    }
    return direction(degrees);
}

// A G01 with an angle and no coordinate.
void Control::openLine() {
    use(kAngle);
    if (openLine_) dropLine(tr("the next block gives an angle only, too"));
    if (!now_.datumChecked) checkDatum();
    if (!now_.feedChecked) checkFeed();
    const Word* corner = nullptr;
    const auto wish = cornerWish(corner);
    recorder_->openLine(newMove(MoveKind::Feed, now_.position), wish, corner);
    openLine_ = OpenLine{block(), words_.angle(), angleOf(*words_.angle())};
}

void Control::dropLine(const char* why) {
    remarks_.at(openLine_->block, *openLine_->word,
                {Severity::Stop, "line-without-end",
                 say("The line at {} has no end point of its own: it ends where the next line crosses it, which "
                     "needs G01 with X, Z and an angle. But {}; the line was left out.",
                     program_.textOf(*openLine_->word), why),
                 tr("Write the next line with X, Z and A, or give this one an end point.")});
    openLine_.reset();
    lineDroppedIn_ = block();
    recorder_->dropLine();
}

// The end point of a move in a block with an angle, or behind a line that waits for its end. `to` is what the
// coordinates of the block say.
Point Control::endOfLine(Point to) {
    const bool straight = now_.modal.motion == 1;
    const Word* angle = straight ? words_.angle() : nullptr;
    if (angle != nullptr) use(kAngle);
    if (openLine_ && !closeLine(to)) return to;
    if (angle == nullptr) return to;
    const Point u = angleOf(*angle);
    const bool alongR = words_.hasAny(kAlongR);
    const bool alongZ = words_.hasAny(kAlongZ);
    const Point from = now_.position;
    if (!alongR || !alongZ) {
        const double slope = alongR ? u.r : u.z;
        const double way = alongR ? to.r - from.r : to.z - from.z;
        if (std::abs(slope) < kParallel) {
            if (std::abs(way) < tolerance::kSamePlaceMm) return to;
            remarks_.at(block(), *angle,
                        {Severity::Stop, "angle-never-reaches",
                         say("A line at {} never reaches this {}: it runs along the other axis. Only {} was moved.",
                             program_.textOf(*angle), alongR ? "X" : "Z", alongR ? "X" : "Z"),
                         tr("Correct the angle (from +Z, anticlockwise), or give the other coordinate.")});
            return to;
        }
        to = from + (way / slope) * u;
    }
    // Without the line before it, this one does not begin where it was drawn.
    if (lineDroppedIn_ != block()) checkAngle(from, to, u, block(), *angle);
    return to;
}

// The end point `to` against the direction of its line, which it should have.
void Control::checkAngle(Point from, Point to, Point u, BlockId where, const Word& word) {
    const double ahead = dot(to - from, u);
    const double off = std::abs(cross(u, to - from));
    if (off > kContradictionMm + kContradictionRad * std::abs(ahead)) {
        remarks_.at(where, word,
                    {Severity::Warning,
                     "angle-contradicts",
                     say("X and Z end {} mm off a line at {}; X and Z were taken.", figure(off), program_.textOf(word)),
                     tr("Leave one of the three words out, or correct it."),
                     {{"off_mm", off}}});
    } else if (ahead < -tolerance::kSamePlaceMm) {
        remarks_.at(where, word,
                    {Severity::Warning,
                     "angle-points-back",
                     say("The line at {} reaches its end going backwards by {} mm. Its end point was taken; "
                         "some controls refuse it.",
                         program_.textOf(word), figure(-ahead)),
                     tr("Turn the angle by 180 degrees, or correct the coordinate."),
                     {{"back_mm", -ahead}},
                     true});
    }
}

// Ends the waiting line where this block's line crosses it, and stands there; false where that cannot be.
bool Control::closeLine(Point to) {
    const Word* angle = words_.angle();
    const char* why = nullptr;
    if (now_.modal.motion != 1) {
        why = tr("the next move is not a straight one at feed");
    } else if (now_.incremental || words_.hasAny(axes() & BlockWords::bits({'U', 'W'}))) {
        why = tr("the next block counts from an end that is not known (incremental)");
    } else if (!words_.has('X') || !words_.has('Z')) {
        why = tr("the next block does not give both X and Z");
    } else if (angle == nullptr) {
        why = tr("the next block has no angle");
    }
    if (why != nullptr) {
        dropLine(why);
        return false;
    }
    const OpenLine line = *openLine_;
    const Point v = angleOf(*angle);
    const double crossing = cross(line.direction, v);
    if (std::abs(crossing) < kParallel) {
        dropLine(tr("the next line is parallel to it"));
        return false;
    }
    const Point from = now_.position;
    const Point corner = from + (cross(to - from, v) / crossing) * line.direction;
    checkAngle(from, corner, line.direction, line.block, *line.word);
    openLine_.reset();
    recorder_->closeLine(corner);
    now_.position = corner;
    return true;
}

}  // namespace firstoff
