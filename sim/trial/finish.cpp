#include "sim/trial/finish.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/trial/turned_surfaces.h"

namespace firstoff {

namespace {

// Heights per feed mark.
constexpr double kPerMark = 400;
// First look at a whole span.
constexpr double kSurveySteps = 4000;
// Marks whose feeds differ by less than this count as one feed.
constexpr double kSameFeed = 1e-3;
// A profile flatter than this has no marks.
constexpr double kNoMarksMm = 1e-7;
// Part of the marks' height that the filter may take before it is told.
constexpr double kTellLoss = 0.01;
// No profile has more heights than this; a span with very fine and very coarse feeds is then taken more coarsely.
constexpr double kMostHeights = 400'000;

std::uint32_t wholeMovesAt(const Trial& trial, const FinishOptions& options) {
    const auto all = static_cast<std::uint32_t>(trial.timeline.moves.size());
    if (!options.timeS || all == 0) return all;
    const std::size_t at = trial.timeline.at(*options.timeS);
    return static_cast<std::uint32_t>(at) + (*options.timeS >= trial.timeline.moves[at].t1 ? 1 : 0);
}

class Finish {
public:
    Finish(const Trial& trial, const WorkPiece& work, const SurfaceSpan& span, const FinishOptions& options)
        : trial_(trial),
          marked_(work.billet, work.moves, trial.timeline, trial.toolpath, trial.setup, span, options.spindleAngle) {
        report_.span = span;
        report_.piece = work.piece;
    }

    FinishReport run() {
        report_.trouble = marked_.trouble();
        if (report_.trouble.empty()) measure();
        return std::move(report_);
    }

private:
    void measure() {
        report_.lengthMm = marked_.length();
        const auto survey = marked_.stamp(0, marked_.length(), marked_.length() / kSurveySteps);
        if (survey && survey->feedMax <= 0) {
            report_.trouble = tr("the tool only dwelt there, it was not fed along the surface");
            return;
        }
        double cutOff = survey ? cutOffFor(survey->feedMax) : 0;
        if (!survey || !take(cutOff, *survey)) return standsApart();
        // The class goes by the spacing of the marks, which need not be the feed.
        const std::optional<double> spacing = spacingOf(report_.marks.profile);
        if (spacing && cutOffFor(*spacing) != cutOff) {
            cutOff = cutOffFor(*spacing);
            if (!take(cutOff, *survey)) return standsApart();
        }
        report_.roughness = roughnessOf(report_.marks.profile, cutOff);
        placeProfile();
        takeOwners();
        compareWithTheory();
        note(cutOff);
    }

    // The profile of the middle of the span, as long as the cut-off asks for.
    bool take(double cutOff, const FeedMarks& survey) {
        const double wanted = std::min(marked_.length(), wantedLength(cutOff));
        report_.from = (marked_.length() - wanted) / 2;
        report_.to = std::min(marked_.length(), report_.from + wanted);
        const double step = std::max(survey.feedMin / kPerMark, wanted / kMostHeights);
        std::optional<FeedMarks> marks = marked_.stamp(report_.from, report_.to, step);
        if (marks) report_.marks = std::move(*marks);
        return marks.has_value();
    }

    void standsApart() {
        report_.marks = {};
        report_.trouble =
            tr("the feed is wider than the tool and leaves ridges standing, so there is no finish to speak of");
    }

    void placeProfile() {
        const SurfaceProfile& profile = report_.marks.profile;
        for (std::size_t i = 0; i < profile.heights.size(); ++i) {
            report_.places.push_back(marked_.pointAt(report_.from + profile.step * static_cast<double>(i)));
        }
        for (double at : {report_.roughness.from, report_.roughness.to}) {
            report_.ends.push_back(marked_.pointAt(report_.from + at));
        }
    }

    void takeOwners() {
        for (const MarkedStretch& stretch : report_.marks.stretches) {
            const std::uint32_t move = trial_.timeline.moves[stretch.cut].move;
            const BlockId block = trial_.shownBlock(move);
            const int station = trial_.toolpath.calls[trial_.toolpath.moves[move].call].station;
            if (std::find(report_.blocks.begin(), report_.blocks.end(), block) == report_.blocks.end()) {
                report_.blocks.push_back(block);
            }
            if (std::find(report_.stations.begin(), report_.stations.end(), station) == report_.stations.end()) {
                report_.stations.push_back(station);
            }
        }
    }

    bool oneFeed() const { return report_.marks.feedMax - report_.marks.feedMin <= kSameFeed * report_.marks.feedMax; }

    void compareWithTheory() {
        const FeedMarks& marks = report_.marks;
        if (marks.noseRadius > 0 && oneFeed() && marks.feedMax < 2 * marks.noseRadius) {
            report_.theory = noseTheory(marks.feedMax, marks.noseRadius);
        }
    }

    void note(double cutOff) {
        const Roughness& r = report_.roughness;
        report_.noMarks = r.rt < kNoMarksMm && report_.marks.edgePart > 0;
        if (!r.filtered()) {
            report_.notes.push_back(say(
                "The surface is too short for a cut-off of {} mm: not filtered, {:.3f} mm of it from its mean height; "
                "the figures are Pa, Pq, Pz and Pt.",
                cutOff, r.to - r.from));
        } else if (r.cutShort()) {
            report_.notes.push_back(
                say("The surface gives room for {} of the {} sections of {} mm.", r.sections, kSections, r.cutOff));
        }
        if (!r.rsm) report_.notes.push_back(tr("Fewer than two marks stand out, so there is no RSm."));
        if (!oneFeed()) {
            report_.notes.push_back(say("The feed runs from {:.4f} to {:.4f} mm per revolution along it.",
                                        report_.marks.feedMin, report_.marks.feedMax));
        }
        const double lost = r.filtered() ? passedIntoMeanLine(r.rsm.value_or(report_.marks.feedMax), r.cutOff) : 0;
        if (lost > kTellLoss) {
            report_.notes.push_back(
                say("The marks lie so wide for this cut-off that {:.1f} % of their height goes into the mean line.",
                    100 * lost));
        }
        if (report_.noMarks) {
            report_.notes.push_back(tr(
                "An edge of the tool lies along the surface and leaves no feed marks; what roughness there will be has "
                "other causes, which are not reckoned."));
        } else if (report_.marks.edgePart > 0) {
            report_.notes.push_back(
                say("{:.0f} % of the profile is cut by straight edges, so the formulas for a nose do not hold.",
                    100 * report_.marks.edgePart));
        }
        if (report_.marks.runs > 1 && !report_.noMarks) {
            report_.notes.push_back(tr(
                "Several passes have left marks; how they stand to one another is a matter of chance on the machine."));
        }
    }

    const Trial& trial_;
    MarkedSpan marked_;
    FinishReport report_;
};

// How far a place is from a surface, mm. Of a place on a corner of two surfaces each has it.
double offSurface(const WorkPiece& work, const SurfaceSpan& span, Point place) {
    if (span.isFace()) return distance(place, {span.z, std::clamp(place.r, span.from, span.to)});
    const Grid& grid = work.billet.grid();
    const double z = std::clamp(place.z, span.from, span.to);
    std::vector<Interval> solids;
    work.billet.intervals(std::clamp(grid.columnNear(z), 0, grid.columns - 1), solids);
    if (solids.empty()) return std::numeric_limits<double>::infinity();
    const double r = span.side == SurfaceSpan::Side::Outer ? solids.back().outer : solids.front().inner;
    return distance(place, {z, r});
}

struct LeftSurface {
    std::size_t piece = 0;  // into the pieces
    SurfaceSpan span;
    double rank = 0;  // the least is taken
};

FinishReport nothingThere(const SurfaceSpan& span, const char* why) {
    FinishReport report;
    report.span = span;
    report.trouble = why;
    return report;
}

}  // namespace

NoseTheory noseTheory(double feed, double noseRadius) {
    assert(feed > 0 && feed < 2 * noseRadius);
    NoseTheory theory;
    theory.rtParabola = feed * feed / (8 * noseRadius);
    theory.rtCircle = noseRadius - std::sqrt(noseRadius * noseRadius - feed * feed / 4);
    theory.ra = theory.rtParabola * 4 / (9 * std::sqrt(3.0));
    return theory;
}

FinishReport finishOf(const Trial& trial, const SurfaceSpan& span, const FinishOptions& options) {
    if (!trial.stock) return nothingThere(span, tr("the set-up gives no usable bar"));
    const std::vector<WorkPiece> pieces = piecesAfter(trial, wholeMovesAt(trial, options));
    for (const WorkPiece& work : pieces) {
        if (work.isIn(span)) return Finish(trial, work, span, options).run();
    }
    return nothingThere(span, tr("there is no metal there"));
}

FinishReport finishOfFace(const Trial& trial, double z, double rFrom, double rTo, const FinishOptions& options) {
    FinishReport report;
    for (auto side : {SurfaceSpan::Side::FrontFace, SurfaceSpan::Side::BackFace}) {
        report = finishOf(trial, {side, rFrom, rTo, z}, options);
        if (report.trouble.empty()) return report;
    }
    return report;
}

std::optional<FinishReport> finishOfSurface(const Trial& trial, BlockId block, std::optional<Point> place,
                                            const FinishOptions& options) {
    const std::vector<WorkPiece> pieces = piecesAfter(trial, wholeMovesAt(trial, options));
    std::optional<LeftSurface> taken;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        for (const SurfaceSpan& span : surfacesLeftBy(trial, pieces[i], block)) {
            const double rank = place ? offSurface(pieces[i], span, *place) : span.from - span.to;
            if (!taken || rank < taken->rank) taken = LeftSurface{i, span, rank};
        }
    }
    if (!taken) return std::nullopt;
    return Finish(trial, pieces[taken->piece], taken->span, options).run();
}

std::vector<FinishReport> finishOfBlock(const Trial& trial, BlockId block, const FinishOptions& options) {
    std::vector<FinishReport> reports;
    for (const WorkPiece& work : piecesAfter(trial, wholeMovesAt(trial, options))) {
        for (const SurfaceSpan& span : surfacesLeftBy(trial, work, block)) {
            reports.push_back(Finish(trial, work, span, options).run());
        }
    }
    return reports;
}

std::vector<FinishReport> surfaceFinishes(const Trial& trial, const FinishOptions& options) {
    std::vector<FinishReport> reports;
    for (const WorkPiece& work : piecesAfter(trial, wholeMovesAt(trial, options))) {
        for (const SurfaceOnPart& surface : surfacesLeft(trial, work)) {
            FinishReport& report = reports.emplace_back(Finish(trial, work, surface.span, options).run());
            report.leftBy = surface.block;
            report.rFrom = surface.rFrom;
            report.rTo = surface.rTo;
            report.marks.profile = {};
            report.places = {};
        }
    }
    return reports;
}

}  // namespace firstoff
