// What holds the piece: the chuck, the second spindle, both or neither, as M codes open and close them.
//
// Followed move by move: whether the chuck is open, where the second spindle stands, whether it grips and turns in
// step, and whether the piece in it has been parted from the bar. At the start the chuck is closed, and the second
// spindle grips nothing and stands still.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "sim/base/say.h"
#include "sim/cutting/jaw_hold.h"
#include "sim/motion/carrier_travels.h"
#include "sim/motion/machine_pose.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

namespace {

// Of jaws that are not bored to a depth: how much of the diameter they should have (common practice, no source).
constexpr double kGripOfDiameter = 0.5;
constexpr double kRoundingMm = 0.01;  // figures of a set-up have two decimals

constexpr int kMostLooks = 50;  // at the bar while jaws move: a program may make many parts

class Workholding {
public:
    explicit Workholding(const Machining& m) : m_(m) {
        if (m.setup.secondSpindle) secondZ_ = m.setup.secondSpindle->startZ;
    }

    std::vector<Finding> find() {
        const auto& events = m_.toolpath.machineEvents;
        const auto& falls = m_.stock->severances();
        if (events.empty() && !m_.setup.secondSpindle) return {};
        std::size_t event = 0, fall = 0;
        for (std::size_t i = 0; i < m_.timeline.moves.size(); ++i) {
            // Where the spindle is waited for first, they act behind that.
            const bool waits = m_.timeline.moves[i].wait != TimedMove::Wait::None;
            for (; event < events.size() && events[event].duringMove <= m_.timeline.moves[i].move; ++event) {
                if (waits && events[event].duringMove == m_.timeline.moves[i].move) break;
                act(events[event].action, i);
            }
            watch(i);
            for (; fall < falls.size() && falls[fall].timedMove <= i; ++fall) part(falls[fall], i);
        }
        atTheEnd();
        return std::move(findings_);
    }

private:
    // A cycle that starts again starts with things where the set-up says, not where the last one left them.
    void atTheEnd() {
        const bool ended = !m_.toolpath.stops.empty() && m_.toolpath.stops.back().kind == ProgramStop::Kind::End;
        if (!m_.setup.secondSpindle || !ended || m_.timeline.moves.empty()) return;
        const double away = std::abs(secondZ_ - m_.setup.secondSpindle->startZ);
        if (away < kRoundingMm) return;
        const std::size_t last = m_.timeline.moves.size() - 1;
        Finding* finding = add(last, Severity::Warning, "second-spindle-left-at-work");
        if (!finding) return;
        finding->span.line = m_.toolpath.stops.back().block + 1;
        finding->span.column = 0;
        finding->message = say(
            "The program ends with the second spindle {:.3f} mm from where it stood at the start: the next cycle meets "
            "it there.",
            away);
        finding->remedy = tr("Send it back before the end of the program.");
        finding->values = {{"away_mm", away}};
    }

    bool turns(std::size_t i) const { return m_.timeline.moves[i].rpmStart > 0 || m_.timeline.moves[i].rpmEnd > 0; }
    bool secondDrives() const { return grips_ && inStep_; }

    void act(MachineAction action, std::size_t i) {
        switch (action) {
            case MachineAction::ChuckOpen:
                open_ = true;
                if (!grips_) letGo(i);
                break;
            case MachineAction::ChuckClose:
                open_ = false;
                break;
            case MachineAction::SecondSpindleApproach:
                if (m_.setup.secondSpindle) travel(i, m_.setup.secondSpindle->approachZ);
                break;
            case MachineAction::SecondSpindleRetract:
                if (m_.setup.secondSpindle) travel(i, m_.setup.secondSpindle->parkedZ);
                break;
            case MachineAction::SecondSpindleGrip:
                if (m_.setup.secondSpindle && !grips_) grip(i);
                break;
            case MachineAction::SecondSpindleRelease:
                if (m_.setup.secondSpindle && grips_) release(i);
                break;
            case MachineAction::SecondSpindleTurnsAlike:
                inStep_ = true;
                break;
            case MachineAction::SecondSpindleStop:
                inStep_ = false;
                break;
            case MachineAction::None:
            case MachineAction::TailstockAdvance:
            case MachineAction::TailstockRetract:
                break;
        }
    }

    // --- The chuck ---------------------------------------------------------------------------------------------------

    // What is held by neither chuck: it tips out if its middle lies in front of the jaws; a bar that reaches into the
    // spindle stays, and may be fed or pulled by a length that nobody knows here.
    void letGo(std::size_t i) {
        if (++looks_ > kMostLooks) return;
        const Billet& billet = at(i);
        const double jaws = m_.setup.chuck.jawLength;
        if (const auto middle = middleOf(billet); middle && *middle > jaws) {
            if (Finding* finding = add(i, Severity::Stop, "piece-let-go")) {
                finding->message =
                    say("The chuck opens and nothing else holds the part, whose middle lies {:.1f} mm in front of the "
                        "jaws: it tips out of them.",
                        *middle - jaws);
                finding->remedy =
                    tr("Grip it with the second spindle first, or open the chuck by hand with the part held.");
                finding->values = {{"in_front_mm", *middle - jaws}};
            }
        } else if (Finding* finding = add(i, Severity::Warning, "bar-let-go")) {
            finding->unproven = true;
            finding->message =
                tr("The chuck opens and nothing else holds the bar. Whether it is fed, pulled or turned then is not "
                   "modelled; it was left where it was.");
            finding->remedy = tr("Try what follows as a program of its own, with the stick-out that it then has.");
        }
    }

    // Middle of the metal along z; nothing if there is none.
    static std::optional<double> middleOf(const Billet& billet) {
        const Grid& grid = billet.grid();
        std::vector<Interval> solids;
        double area = 0, moment = 0;
        for (int c = 0; c < grid.columns; ++c) {
            billet.intervals(c, solids);
            double ring = 0;
            for (const Interval& solid : solids) ring += solid.outer * solid.outer - solid.inner * solid.inner;
            area += ring;
            moment += ring * grid.z(c);
        }
        if (area <= 0) return std::nullopt;
        return moment / area;
    }

    void watch(std::size_t i) {
        if (open_ && !secondDrives()) {
            if (turns(i) && once(Said::OpenWhileTurning)) openWhileTurning(i);
            if (isAtFeed(m_.timeline.moves[i].kind) && takesMetal(m_, i) && once(Said::CutWhileOpen)) cutWhileOpen(i);
        } else {
            said_.erase(Said::OpenWhileTurning);
            said_.erase(Said::CutWhileOpen);
        }
        const bool held = grips_ && !parted_;
        if (held && !open_ && turns(i) && !inStep_) {
            if (once(Said::NotInStep)) notInStep(i);
        } else if (!held) {
            said_.erase(Said::NotInStep);
        }
    }

    void openWhileTurning(std::size_t i) {
        Finding* finding = add(i, Severity::Stop, "chuck-open-while-turning");
        if (!finding) return;
        finding->message =
            say("The chuck is open while the spindle turns at {:.0f} rev/min: the part is thrown "
                "out, or the machine stops with an alarm.",
                std::max(m_.timeline.moves[i].rpmStart, m_.timeline.moves[i].rpmEnd));
        finding->remedy =
            tr("Stop the spindle (M05) before the chuck opens, and close the chuck before it starts again.");
    }

    void cutWhileOpen(std::size_t i) {
        Finding* finding = add(i, Severity::Stop, "cut-with-chuck-open");
        if (!finding) return;
        finding->message = say("Tool {} cuts while the chuck is open: the part is held by nothing.", toolWord(m_, i));
        finding->remedy = tr("Close the chuck before this cut.");
    }

    // --- The second spindle ------------------------------------------------------------------------------------------

    const Chuck& secondChuck() const { return m_.setup.secondSpindle->chuck; }

    void travel(std::size_t i, double to) {
        const double by = to - std::exchange(secondZ_, to);
        if (!grips_ || parted_ || std::abs(by) < kRoundingMm) return;
        if (open_) {
            Finding* finding = add(i, Severity::Warning, "bar-pulled");
            if (!finding) return;
            finding->unproven = true;
            finding->message =
                say("The second spindle moves the bar by {:.3f} mm through the open chuck; that is not modelled, and "
                    "the bar was left where it was.",
                    by);
            finding->remedy = tr("Try what follows as a program of its own, with the stick-out that the bar then has.");
            finding->values = {{"by_mm", by}};
            return;
        }
        Finding* finding = add(i, Severity::Stop, "second-spindle-pulls-held-bar");
        if (!finding) return;
        finding->message = say(
            "The second spindle is sent away by {:.3f} mm with the part in its jaws, while the chuck holds the same "
            "part and it is not parted off.",
            by);
        finding->remedy = tr("Part the piece off before this, open the chuck, or release the second spindle.");
        finding->values = {{"by_mm", by}};
    }

    void grip(std::size_t i) {
        grips_ = true;
        parted_ = false;
        said_.erase(Said::NotInStep);
        if (++looks_ > kMostLooks) return;
        const Chuck& chuck = secondChuck();
        const Range jaws = gripRangeOfSecond(chuck, secondZ_);
        const Billet& billet = at(i);
        if (chuck.maxRevPerMin <= 0) speedNotKnown(i);
        const JawHold hold = holdOf(billet, jaws, chuck.grip);
        if (hold.lengthMm <= 0) {
            grips_ = false;  // said once; nothing follows from a grip that is none
            return gripsNothing(i, frontOf(billet), jaws);
        }
        if (chuck.grip == Chuck::Grip::Outside && chuck.jawOuterRadius > 0 && hold.radius >= chuck.jawOuterRadius) {
            doesNotFit(i, hold);
        }
        const double needed = chuck.gripLength > 0 ? std::min(chuck.gripLength, chuck.jawLength)
                                                   : std::min(chuck.jawLength, kGripOfDiameter * 2 * hold.radius);
        if (hold.lengthMm < needed - kRoundingMm) gripsShort(i, hold, needed);
    }

    void speedNotKnown(std::size_t i) {
        Finding* finding = add(i, Severity::Note, "chuck-speed-not-given");
        if (!finding) return;
        finding->message =
            tr("The set-up does not say what speed is marked on the second chuck, so no speed was held against it.");
        finding->remedy = tr("Write the figure on the chuck as max_rev_per_min into the chuck of [second_spindle].");
    }

    void gripsNothing(std::size_t i, double front, Range jaws) {
        Finding* finding = add(i, Severity::Stop, "second-spindle-grips-nothing");
        if (!finding) return;
        const double datum = m_.toolpath.datumOf(moveAt(m_, i)).z;
        finding->message = say(
            "The second spindle closes its jaws between Z{:.3f} and Z{:.3f}, where there is nothing to grip: the part "
            "ends at Z{:.3f}.",
            jaws.min - datum, jaws.max - datum, front - datum);
        finding->remedy = tr("Send it to the piece first, and correct where [second_spindle] says it stands then.");
        finding->values = {{"jaws_from_mm", jaws.min - datum}, {"part_ends_mm", front - datum}};
    }

    void doesNotFit(std::size_t i, const JawHold& hold) {
        Finding* finding = add(i, Severity::Stop, "second-jaws-too-small");
        if (!finding) return;
        finding->message = say(
            "The part has a diameter of {:.3f} mm where the second spindle is to grip it; its jaws reach out to {:.3f} "
            "mm.",
            2 * hold.radius, 2 * secondChuck().jawOuterRadius);
        finding->remedy = tr("Take other jaws, or grip a smaller diameter.");
        finding->values = {{"diameter_mm", 2 * hold.radius}};
    }

    void gripsShort(std::size_t i, const JawHold& hold, double needed) {
        Finding* finding = add(i, Severity::Warning, "second-spindle-grips-short");
        if (!finding) return;
        finding->message =
            say("The second spindle has only {:.2f} mm of a diameter of {:.3f} mm in its jaws; {}.", hold.lengthMm,
                2 * hold.radius,
                secondChuck().gripLength > 0 ? say("they are made for {:.2f} mm", needed)
                                             : say("common practice is half the diameter, here {:.2f} mm", needed));
        finding->remedy =
            tr("Bring it nearer, or grip a longer diameter. What grip and speed hold a part is for the chuck maker's "
               "chart and authorised people to say.");
        finding->values = {{"gripped_mm", hold.lengthMm}, {"needed_mm", needed}};
    }

    void release(std::size_t i) {
        if (parted_ && inStep_ && turns(i)) {
            if (Finding* finding = add(i, Severity::Stop, "chuck-open-while-turning")) {
                finding->message = tr("The second spindle releases the piece while it turns: the piece is thrown out.");
                finding->remedy = tr("Stop it before it releases the piece.");
            }
        } else if (!parted_ && open_) {
            grips_ = false;
            letGo(i);
        }
        grips_ = parted_ = false;
    }

    void notInStep(std::size_t i) {
        Finding* finding = add(i, Severity::Stop, "second-spindle-not-in-step");
        if (!finding) return;
        finding->message = say(
            "Both spindles hold the part, and the first turns at {:.0f} rev/min while the second does not turn in step "
            "with it: the part is twisted in the jaws.",
            std::max(m_.timeline.moves[i].rpmStart, m_.timeline.moves[i].rpmEnd));
        finding->remedy = tr(
            "Bring the second spindle in step before it grips, or stop the first (M05) until the hand-over is done.");
    }

    // A piece has come off at the end of timed move `i`.
    void part(const Severance& fall, std::size_t i) {
        if (!m_.setup.secondSpindle || parted_) return;
        double from = 1e9, to = -1e9;
        for (const Loop& loop : fall.section) {
            for (Point p : loop.points) from = std::min(from, p.z), to = std::max(to, p.z);
        }
        const Range jaws = gripRangeOfSecond(secondChuck(), secondZ_);
        if (to <= jaws.min || from >= jaws.max) return;
        if (!grips_) return partedBesideOpenJaws(i);
        if (open_ && once(Said::CutWhileOpen)) cutWhileOpen(i);
        parted_ = true;
    }

    void partedBesideOpenJaws(std::size_t i) {
        Finding* finding = add(i, Severity::Warning, "parted-into-open-jaws");
        if (!finding) return;
        finding->message =
            tr("The piece is parted off while it stands in the open jaws of the second spindle: it is not gripped, and "
               "drops or jams.");
        finding->remedy = tr("Grip it with the second spindle before it is parted off.");
    }

    // ---
    // ----------------------------------------------------------------------------------------------------------------

    enum class Said : std::uint8_t { OpenWhileTurning, CutWhileOpen, NotInStep };
    bool once(Said said) { return said_.insert(said).second; }

    const Billet& at(std::size_t i) {
        if (!cursor_) cursor_.emplace(m_.stock);
        cursor_->seek(static_cast<std::uint32_t>(i), 0);
        return cursor_->billet();
    }

    // Null if the same was said of the block before: a program may make many parts.
    Finding* add(std::size_t i, Severity severity, const char* code) {
        if (!blocks_.insert({code, moveAt(m_, i).block}).second) return nullptr;
        findings_.push_back(findingAt(m_, i, severity, code));
        return &findings_.back();
    }

    const Machining& m_;
    std::optional<StockCursor> cursor_;
    bool open_ = false, grips_ = false, inStep_ = false;
    bool parted_ = false;  // the piece in the second spindle from the bar
    double secondZ_ = 0;   // of its face
    int looks_ = 0;
    std::set<Said> said_;
    std::set<std::pair<std::string, BlockId>> blocks_;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> workholdingFindings(const Machining& machining) {
    return Workholding(machining).find();
}

}  // namespace firstoff
