#include "sim/control/compensation_remarks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/control/figures.h"
#include "sim/control/offset_curve.h"

namespace firstoff {

namespace {

// Wrong against right, in length along which the side can be told.
constexpr double kMostlyWrong = 3;
// A wall that leans less than this off a diameter is none (sine).
constexpr double kWall = 0.17;

std::string uncut(double mm) {
    return mm > tolerance::kTouchMm ? say(" {} mm of material stay in the middle of it.", figure(mm)) : "";
}

Remark arcTooSmall(const CompensationIssue& issue, double noseRadius) {
    return {Severity::Stop,
            "compensation-arc-too-small",
            say("The nose radius of {} mm does not fit into this arc: it is {} mm too large.{}", figure(noseRadius),
                figure(issue.amountMm), uncut(issue.uncutMm)),
            tr("Use an insert with a smaller nose radius, or make the arc larger."),
            {{"nose_radius_mm", noseRadius}, {"excess_mm", issue.amountMm}, {"uncut_mm", issue.uncutMm}}};
}

Remark noRoom(const CompensationIssue& issue, double noseRadius) {
    return {
        Severity::Stop,
        "compensation-no-room",
        say("With a nose radius of {} mm there is no room for this move: it would turn back by {} mm and cut "
            "into the part.{}",
            figure(noseRadius), figure(issue.amountMm), uncut(issue.uncutMm)),
        tr("Make the step, groove or lead-in longer than the nose radius needs, or use a smaller nose radius. Check "
           "G41/G42 and the tip number."),
        {{"nose_radius_mm", noseRadius}, {"excess_mm", issue.amountMm}, {"uncut_mm", issue.uncutMm}}};
}

Remark sideChange(const CompensationIssue& issue) {
    return {Severity::Warning,
            "compensation-side-changed",
            say("The side of nose-radius compensation changes in front of this move. Controls cross over in "
                "different ways; here the nose centre went {} mm straight across at the shared point.",
                figure(issue.amountMm)),
            tr("Cancel with G40 and a move away from the part, then give the other side."),
            {{"across_mm", issue.amountMm}},
            true};
}

Remark remarkOf(const CompensationIssue& issue, double noseRadius) {
    using Kind = CompensationIssue::Kind;
    switch (issue.kind) {
        case Kind::InsideArcTooSmall:
            return arcTooSmall(issue, noseRadius);
        case Kind::NoRoom:
            return noRoom(issue, noseRadius);
        case Kind::SideChange:
            return sideChange(issue);
        case Kind::StartOnArc:
            return {Severity::Stop, "compensation-starts-on-arc",
                    tr("Nose-radius compensation cannot be switched on in an arc."),
                    tr("Give G41 or G42 before a straight approach with G00 or G01.")};
        case Kind::CancelOnArc:
            break;
    }
    return {Severity::Stop, "compensation-ends-on-arc", tr("Nose-radius compensation cannot be cancelled in an arc."),
            tr("Give G40 with a straight move away from the part, G00 or G01.")};
}

// In the air in front of the part a start-up may cut across its contour and do no harm, so that is the lesser fault.
Remark gougeRemark(const NoseGouge& gouge, std::uint32_t line, double noseRadius) {
    const std::string depth = fmt::format("{:.3f}", gouge.depthMm);
    return {gouge.switching ? Severity::Warning : Severity::Stop,
            "compensation-gouge",
            gouge.switching
                ? say("On this move, which switches compensation on or off, the nose of radius {} mm crosses the "
                      "contour of line {} by {} mm.",
                      figure(noseRadius), line, depth)
                : say("Along this move the nose of radius {} mm cuts {} mm into the contour of line {}.",
                      figure(noseRadius), depth, line),
            gouge.switching ? tr("Begin and end the compensated path farther from the part, on the side of the tool.")
                            : tr("Use an insert with a smaller nose radius, or make the contour wider there."),
            {{"gouge_mm", gouge.depthMm}, {"into_line", line}, {"nose_radius_mm", noseRadius}}};
}

// Feed moves of one side in a row.
struct SideRun {
    Compensation side = Compensation::Off;
    BlockId block = kNoBlock;  // where the side was given, or takes effect
    const Word* word = nullptr;
    double right = 0, wrong = 0;  // mm of feed, weighed by how well they tell
};

class SideCheck {
public:
    SideCheck(const CompensatedStretch& stretch, Remarks& remarks)
        : stretch_(stretch), remarks_(remarks), tip_(tipFromNoseCentre(stretch.order.tipOfTool)) {
        run_ = {stretch.order.setting.side, stretch.order.block, stretch.order.word};
    }

    // True where a side is wrong.
    bool check() {
        if (tip_ == Point{}) return false;
        const std::size_t count = stretch_.elements.size() - (stretch_.cancelled ? 1 : 0);
        for (std::size_t i = 0; i < count; ++i) {
            if (stretch_.elements[i].changesSide) changeSide(i);
            if (i > 0) weigh(stretch_.elements[i]);
        }
        report();
        return wrong_;
    }

private:
    void changeSide(std::size_t i) {
        report();
        const bool left = run_.side == Compensation::Left;
        run_ = {left ? Compensation::Right : Compensation::Left, stretch_.block(stretch_.elements[i].tag)};
    }

    void weigh(const PathElement& e) {
        if (e.kind == MoveKind::Rapid || nose::hasNoLength(e)) return;
        const Point middle = nose::middleOf(e);
        weigh(middle - e.from, e);
        weigh(e.to - middle, e);
    }

    // The normal summed over a way is the normal of its chord.
    void weigh(Point way, const PathElement& e) {
        const Point n = run_.side == Compensation::Left ? leftOf(way) : -leftOf(way);
        const double towards = -dot(n, tip_);
        (towards > 0 ? run_.right : run_.wrong) += std::abs(towards);
        const bool wall = n.z * tip_.z > kWall * length(way);
        if (wall && stretch_.order.bladeMm > 0 && wall_ == nullptr) wall_ = &e;
    }

    void report() {
        if (run_.wrong > kMostlyWrong * run_.right && run_.wrong > tolerance::kTouchMm) {
            reportWrong();
        } else if (wall_ != nullptr) {
            reportWall();
        }
        wall_ = nullptr;
    }

    void reportWrong() {
        const bool left = run_.side == Compensation::Left;
        remarks_.at(run_.block, run_.word,
                    {Severity::Warning,
                     "compensation-wrong-side",
                     say("{} leads the nose of tip number {} along the side of the path on which the part must "
                         "lie: it would be cut too small by twice the nose radius of {} mm.",
                         left ? "G41" : "G42", stretch_.order.tipOfTool, figure(stretch_.order.setting.noseRadius)),
                     say("Write {} for this direction of cut, or check the tip number.", left ? "G42" : "G41"),
                     {{"feed_mm", run_.wrong + run_.right}}});
    }

    // Of a blade as wide as w whose one corner is compensated, the other side stands w - 2r behind the nose circle.
    void reportWall() {
        const double beyond = stretch_.order.bladeMm - 2 * stretch_.order.setting.noseRadius;
        if (beyond <= tolerance::kTouchMm) return;
        remarks_.at(stretch_.block(wall_->tag),
                    {Severity::Warning,
                     "compensation-other-corner",
                     say("This wall lies on the side of the edge whose corner is not compensated (tip number "
                         "{}): the edge is {} mm wide and would cut {} mm into it.",
                         stretch_.order.tipOfTool, figure(stretch_.order.bladeMm), figure(beyond)),
                     tr("Cut this wall with an offset and tip number of its own for the other corner."),
                     {{"gouge_mm", beyond}}});
    }

    const CompensatedStretch& stretch_;
    Remarks& remarks_;
    const Point tip_;
    SideRun run_;
    const PathElement* wall_ = nullptr;
    bool wrong_ = false;
};

}  // namespace

void reportIssues(const CompensatedStretch& stretch, const std::vector<CompensationIssue>& issues, Remarks& remarks) {
    for (const CompensationIssue& issue : issues) {
        remarks.at(stretch.block(issue.tag), remarkOf(issue, stretch.order.setting.noseRadius));
    }
}

void reportShortLeads(const CompensatedStretch& stretch, Remarks& remarks) {
    const double noseRadius = stretch.order.setting.noseRadius;
    const auto look = [&](const PathElement& e, bool on) {
        const double along = distance(e.from, e.to);
        if (along >= noseRadius - tolerance::kTouchMm) return;
        remarks.at(stretch.block(e.tag),
                   {Severity::Note,
                    "compensation-short-lead",
                    on ? say("Compensation is switched on on a move of {} mm, less than the nose radius of {} mm: "
                             "the nose goes more sideways than along it, and some controls refuse that.",
                             figure(along), figure(noseRadius))
                       : say("Compensation is switched off on a move of {} mm, less than the nose radius of {} mm: "
                             "the nose goes more sideways than along it, and some controls refuse that.",
                             figure(along), figure(noseRadius)),
                    tr("Make the move longer than the nose radius."),
                    {{"move_mm", along}, {"nose_radius_mm", noseRadius}}});
    };
    look(stretch.elements.front(), true);
    if (stretch.cancelled && stretch.elements.size() > 1) look(stretch.elements.back(), false);
}

void reportGouges(const CompensatedStretch& stretch, const std::vector<NoseGouge>& gouges, Remarks& remarks) {
    for (const NoseGouge& gouge : gouges) {
        remarks.at(stretch.block(gouge.tag),
                   gougeRemark(gouge, remarks.lineOf(stretch.block(gouge.intoTag)), stretch.order.setting.noseRadius));
    }
}

bool reportSide(const CompensatedStretch& stretch, Remarks& remarks) {
    return SideCheck(stretch, remarks).check();
}

}  // namespace firstoff
