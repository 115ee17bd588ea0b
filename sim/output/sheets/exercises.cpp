#include "sim/output/sheets/exercises.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/output/sheets/cycle_runs.h"
#include "sim/output/sheets/sheet_text.h"
#include "sim/output/sheets/words_in_force.h"

namespace firstoff {

namespace {

constexpr double kSameSpeed = 1e-3;  // share: what the spindle really does is what the formula says
constexpr std::size_t kMostOfAKind = 2;
constexpr std::size_t kMostCycles = 4;

bool has(const Program& program, BlockId id, char letter) {
    const Block& block = program.blocks[id];
    return std::any_of(program.begin(block), program.end(block), [&](const Word& w) { return w.letter == letter; });
}

class Asking {
public:
    explicit Asking(const Trial& trial)
        : t_(trial), path_(trial.toolpath), runs_(cycleRuns(trial)), inForce_(wordsInForce(trial)) {}

    std::vector<Exercise> run() {
        for (std::uint32_t i = 0; i < path_.moves.size(); ++i) askAboutMove(i);
        for (const CycleRun& cycle : runs_) {
            askAboutPasses(cycle);
            askAboutThread(cycle);
        }
        std::vector<Exercise> chosen = choose();
        std::stable_sort(chosen.begin(), chosen.end(),
                         [](const Exercise& a, const Exercise& b) { return a.block < b.block; });
        return chosen;
    }

private:
    using Kind = Exercise::Kind;

    struct Candidate {
        Exercise exercise;
        int station = 0;
    };

    // A few of each kind, spread over lines and tools: of those still open the one whose line, then whose tool, was
    // asked about least, then the first.
    std::vector<Exercise> choose() {
        std::vector<Exercise> chosen;
        std::vector<const Candidate*> taken;
        for (const Kind kind : {Kind::PassesOfCycle, Kind::DepthOfPass, Kind::ClampHolds, Kind::SpindleSpeed,
                                Kind::WhatSetIt, Kind::EndOfBlock, Kind::FeedPerMinute}) {
            const std::size_t most = kind == Kind::PassesOfCycle ? kMostCycles : kMostOfAKind;
            for (std::size_t n = 0; n < most; ++n) {
                const Candidate* best = bestOf(kind, taken);
                if (best == nullptr) break;
                taken.push_back(best);
                chosen.push_back(best->exercise);
            }
        }
        return chosen;
    }

    const Candidate* bestOf(Kind kind, const std::vector<const Candidate*>& taken) const {
        const Candidate* best = nullptr;
        std::ptrdiff_t least = 0;
        for (const Candidate& candidate : candidates_) {
            if (candidate.exercise.kind != kind || isTaken(candidate, taken)) continue;
            const auto line = std::count_if(taken.begin(), taken.end(), [&](const Candidate* t) {
                return t->exercise.block == candidate.exercise.block;
            });
            const auto tool = std::count_if(taken.begin(), taken.end(),
                                            [&](const Candidate* t) { return t->station == candidate.station; });
            constexpr std::ptrdiff_t kLineFirst = 1000;
            const std::ptrdiff_t asked = kLineFirst * line + tool;
            if (best != nullptr && asked >= least) continue;
            best = &candidate;
            least = asked;
        }
        return best;
    }

    // A line is asked once for one kind, and a tool as well.
    static bool isTaken(const Candidate& candidate, const std::vector<const Candidate*>& taken) {
        return std::any_of(taken.begin(), taken.end(), [&](const Candidate* t) {
            if (t->exercise.kind != candidate.exercise.kind) return false;
            const bool ofCycle = candidate.exercise.kind == Kind::PassesOfCycle;
            return t->exercise.block == candidate.exercise.block || (!ofCycle && t->station == candidate.station);
        });
    }

    std::string nameOf(BlockId block) const { return blockName(t_.program, block); }

    // A plain cut that one line of the program orders.
    bool isPlainCut(const Move& move) const {
        return (move.kind == MoveKind::Feed || move.kind == MoveKind::ArcClockwise ||
                move.kind == MoveKind::ArcAnticlockwise) &&
               move.cycleBlock == kNoBlock && t_.program.isOwn(move.block);
    }

    void askAboutMove(std::uint32_t i) {
        const Move& move = path_.moves[i];
        if (!isPlainCut(move)) return;
        const ModalState& modal = path_.modals[move.modal];
        if (modal.inches) return;  // formulas in the shop's other units would want other words
        askWhatSetIt(i);
        // Under compensation the tip stands where no word of the program says.
        if (move.compensation != Compensation::Off || previousCompensated(i)) return;
        if (modal.constantSurfaceSpeed && modal.speed > 0) {
            askAboutSpeed(i);
            askAboutClamp(i);
        }
        askAboutFeed(i);
        askAboutEnd(i);
    }

    bool previousCompensated(std::uint32_t i) const {
        return i > 0 && path_.moves[i - 1].compensation != Compensation::Off;
    }

    double clamp(const ModalState& modal) const {
        const double own = modal.clampRevPerMin, machine = t_.setup.machine.maxRevPerMin;
        return own > 0 && machine > 0 ? std::min(own, machine) : std::max(own, machine);
    }

    const TimedMove& timed(std::uint32_t i) const { return t_.timeline.moves[t_.timeline.workOf(i)]; }

    void askAboutSpeed(std::uint32_t i) {
        const Move& move = path_.moves[i];
        const ModalState& modal = path_.modals[move.modal];
        const double d = 2 * std::abs((move.from + path_.programmedShift(move)).r);
        const double n = timed(i).rpmStart;
        if (d <= 0 || n <= 0 || std::abs(n / (1000 * modal.speed / (kPi * d)) - 1) > kSameSpeed) return;
        Exercise e{Kind::SpindleSpeed, move.block, {}, {}, {}};
        e.question = say("What spindle speed runs where the cut of {} begins, at the diameter {}?", nameOf(move.block),
                         shortFigure(d, 3));
        e.answer = say("{0} rev/min: n = 1000 v / (π d) = 1000 × {1} / (π × {2}).", figure(n, 0),
                       shortFigure(modal.speed, 1), shortFigure(d, 3));
        e.values = {{"surface_speed_m_per_min", modal.speed}, {"diameter_mm", d}, {"rev_per_min", n}};
        add(std::move(e), move);
    }

    // Asked where the spindle really runs against the clamp within the cut.
    void askAboutClamp(std::uint32_t i) {
        const Move& move = path_.moves[i];
        const ModalState& modal = path_.modals[move.modal];
        const double most = clamp(modal);
        if (most <= 0) return;
        const double d = 1000 * modal.speed / (kPi * most);
        const double from = 2 * std::abs((move.from + path_.programmedShift(move)).r);
        const double to = 2 * std::abs((move.to + path_.programmedShift(move)).r);
        const bool reached = std::abs(timed(i).rpmEnd / most - 1) < kSameSpeed;
        if (!reached || from <= d || to >= d) return;
        Exercise e{Kind::ClampHolds, move.block, {}, {}, {}};
        e.question = say("At which diameter does the clamp take hold in the cut of {}?", nameOf(move.block));
        e.answer =
            say("At X{0}: d = 1000 v / (π n) = 1000 × {1} / (π × {2}). Nearer to the axis the spindle stays at "
                "{2} rev/min and the surface speed falls.",
                figure(d, 1), shortFigure(modal.speed, 1), figure(most, 0));
        e.values = {{"surface_speed_m_per_min", modal.speed}, {"clamp_rev_per_min", most}, {"diameter_mm", d}};
        add(std::move(e), move);
    }

    void askAboutFeed(std::uint32_t i) {
        const Move& move = path_.moves[i];
        const ModalState& modal = path_.modals[move.modal];
        if (!modal.feedPerRev) return;
        const double n = timed(i).rpmStart;
        if (n <= 0 || move.feed <= 0) return;
        Exercise e{Kind::FeedPerMinute, move.block, {}, {}, {}};
        e.question =
            say("How many millimetres a minute does the tool feed where the cut of {} begins?", nameOf(move.block));
        e.answer = say("{0} mm/min: {1} mm for each revolution × {2} rev/min.", figure(move.feed * n, 0),
                       shortFigure(move.feed, 4), figure(n, 0));
        e.values = {{"feed_mm_per_rev", move.feed}, {"rev_per_min", n}, {"feed_mm_per_min", move.feed * n}};
        add(std::move(e), move);
    }

    // Where one axis stands from an earlier line.
    void askAboutEnd(std::uint32_t i) {
        const Move& move = path_.moves[i];
        const bool last = i + 1 == path_.moves.size() || path_.moves[i + 1].block != move.block;
        const bool oneAxis = has(t_.program, move.block, 'X') != has(t_.program, move.block, 'Z');
        if (!last || !oneAxis) return;
        const Point end = move.to + path_.programmedShift(move);
        const double x = (t_.setup.control.radiusProgramming ? 1 : 2) * end.r;
        Exercise e{Kind::EndOfBlock, move.block, {}, {}, {}};
        e.question = say("Where does the tip stand, in X and Z, at the end of {}?", nameOf(move.block));
        e.answer = say("X{} Z{}. The axis that the line does not name stays where it was.", shortFigure(x, 3),
                       shortFigure(end.z, 3));
        e.values = {{"x_mm", x}, {"z_mm", end.z}};
        add(std::move(e), move);
    }

    void askWhatSetIt(std::uint32_t i) {
        const Move& move = path_.moves[i];
        const WordInForce& feed = inForce_[move.block][static_cast<std::size_t>(ModalThing::Feed)];
        if (feed.block == kNoBlock || feed.block == move.block) return;
        Exercise e{Kind::WhatSetIt, move.block, {}, {}, {}};
        e.question = say("{} has no F. Which line set the feed it runs at, and to what?", nameOf(move.block));
        e.answer = say("{}, to {}.", nameOf(feed.block), feed.word);
        e.values = {{"line", t_.program.lineOf(feed.block)}};
        add(std::move(e), move);
    }

    void add(Exercise exercise, const Move& move) {
        candidates_.push_back({std::move(exercise), path_.calls[move.call].station});
    }
    void add(Exercise exercise, const CycleRun& run) { add(std::move(exercise), path_.moves[run.firstMove()]); }

    void askAboutPasses(const CycleRun& run) {
        std::vector<const CyclePass*> rough;
        for (const CyclePass& pass : run.passes) {
            if (!pass.alongProfile) rough.push_back(&pass);
        }
        if (rough.size() < 2 || run.order == Order::PatternRepeat) return;
        const std::optional<double> last = depthOfLast(run, *rough[rough.size() - 2], *rough.back());
        Exercise e{Kind::PassesOfCycle, run.block, {}, {}, {}};
        const std::string count = std::to_string(rough.size());
        const bool profile = rough.size() < run.passes.size();
        e.question =
            last ? say("How many passes does the cycle of {} make, and how deep is the last?", nameOf(run.block))
                 : say("How many passes does the cycle of {} make?", nameOf(run.block));
        if (profile && last) {
            e.question =
                say("How many passes does the cycle of {} make before it goes along the profile, and how deep "
                    "is the last of them?",
                    nameOf(run.block));
        }
        const bool radius = run.order == Order::RoughingAlong || run.order == Order::TurningPass;
        e.answer = !last    ? say("{} passes.", count)
                   : radius ? say("{} passes; the last is {} mm deep, on radius.", count, shortFigure(*last, 3))
                            : say("{} passes; the last is {} mm deep.", count, shortFigure(*last, 3));
        e.values = {{"passes", static_cast<double>(rough.size())}};
        if (last) e.values.emplace_back("last_depth_mm", *last);
        add(std::move(e), run);
    }

    // By how much the last pass goes deeper than the one before, on radius or along Z; nothing where that is no depth
    // of cut.
    static std::optional<double> depthOfLast(const CycleRun& run, const CyclePass& before, const CyclePass& last) {
        switch (run.order) {
            case Order::RoughingAlong:
            case Order::TurningPass:
                return std::abs(before.level.r - last.level.r);
            case Order::RoughingAcross:
            case Order::FacingPass:
            case Order::PeckDrill:
                return std::abs(before.level.z - last.level.z);
            default:
                return std::nullopt;
        }
    }

    void askAboutThread(const CycleRun& run) {
        constexpr std::size_t kAsked = 3;  // the fourth: its root is a whole number
        if (run.order != Order::ThreadingCycle || run.passes.size() <= kAsked + 1) return;
        const double first = run.passes.front().threadDepth, depth = run.passes[kAsked].threadDepth;
        if (first <= 0 || std::abs(depth - 2 * first) > 1e-6) return;
        Exercise e{Kind::DepthOfPass, run.block, {}, {}, {}};
        e.question =
            say("How deep below the crest is the fourth pass of the thread of {}, if each pass takes the same "
                "area?",
                nameOf(run.block));
        e.answer = say("{0} mm: first depth × √4 = {1} × 2.", shortFigure(depth, 3), shortFigure(first, 3));
        e.values = {{"first_depth_mm", first}, {"pass", 4}, {"depth_mm", depth}};
        add(std::move(e), run);
    }

    const Trial& t_;
    const Toolpath& path_;
    std::vector<CycleRun> runs_;
    std::vector<WordsInForce> inForce_;
    std::vector<Candidate> candidates_;
};

}  // namespace

std::vector<Exercise> exercisesOf(const Trial& trial) {
    return Asking(trial).run();
}

}  // namespace firstoff
