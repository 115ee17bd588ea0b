// What the window wants to know quickly about a trial of any length. Made once per trial, on the worker; then only
// read.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "gui/clearance_index.h"
#include "gui/load_index.h"
#include "gui/pass_index.h"
#include "sim/trial/trial.h"

namespace firstoff::gui {

// What a move does, as the motion lane tells it.
enum class MotionClass : std::uint8_t {
    Cutting,  // at feed, threads included
    Rapid,
    Waiting,  // dwell and turret index
};
MotionClass classOf(MoveKind kind);

// A stretch of the cycle with one tool called.
struct ToolSpan {
    double t0 = 0, t1 = 0;   // s
    std::uint16_t call = 0;  // index into Toolpath::calls, of the first call of the stretch
    int station = 0;
};

struct StopMark {
    double timeS = 0;
    ProgramStop::Kind kind = ProgramStop::Kind::Stop;
    BlockId block = kNoBlock;
};

struct FindingMark {
    double timeS = 0;
    std::uint32_t line = 0;     // 1-based, 0 none
    std::uint32_t finding = 0;  // index into Trial::findings
    Severity severity = Severity::Note;
    bool unproven = false;
};
// The worse, the higher.
inline int rank(const FindingMark& mark) {
    return 2 * static_cast<int>(mark.severity) + (mark.unproven ? 1 : 0);
}

class TimelineIndex {
public:
    explicit TimelineIndex(const Trial& trial);

    const std::vector<ToolSpan>& toolSpans() const { return toolSpans_; }
    const std::vector<StopMark>& stops() const { return stops_; }
    // Findings of the program that have a time, in order of time; those without one stand at their line's first
    // execution.
    const std::vector<FindingMark>& findingsByTime() const { return byTime_; }
    // Findings of the program that have a line, in order of line.
    const std::vector<FindingMark>& findingsByLine() const { return byLine_; }
    // Those of one line (1-based).
    std::span<const FindingMark> findingsOfLine(std::uint32_t line) const;
    double maxRevPerMin() const { return maxRevPerMin_; }
    const ClearanceIndex& clearance() const { return clearance_; }
    const LoadIndex& load() const { return load_; }
    const PassIndex& passes() const { return passes_; }

    // Seconds of each class from the start of timed move `first` to the start of `last`.
    double secondsOf(MotionClass kind, std::size_t first, std::size_t last) const;

    struct Extent {
        float low = 0, high = 0;
    };
    // Least and greatest spindle speed over timed moves [first, last), rev/min; first < last.
    Extent revPerMin(std::size_t first, std::size_t last) const;

    // Turns of the spindle from the start of the cycle to `fraction` of timed move `index`.
    double turns(std::size_t index, double fraction) const;

    // When the last execution of a block ends, or NaN if it is never executed.
    double doneAt(BlockId block) const { return block < doneAt_.size() ? doneAt_[block] : kNever; }

private:
    ClearanceIndex clearance_;
    LoadIndex load_;
    PassIndex passes_;
    static const double kNever;
    void indexTools(const Trial& trial);
    void indexStops(const Trial& trial);
    void indexFindings(const Trial& trial);
    void indexMoves(const Trial& trial);
    void indexBlocks(const Trial& trial);

    std::vector<ToolSpan> toolSpans_;
    std::vector<StopMark> stops_;
    std::vector<FindingMark> byTime_;
    std::vector<FindingMark> byLine_;
    std::vector<double> cuttingSeconds_;  // before each timed move; one entry past the end
    std::vector<double> rapidSeconds_;
    std::vector<double> seconds_;
    std::vector<double> turns_;
    std::vector<std::vector<Extent>> speedLevels_;  // level 0: per timed move; each next one per kFan entries
    std::vector<double> doneAt_;
    double maxRevPerMin_ = 0;
};

// Start of a move of the toolpath in the cycle, s; the end of the cycle for one past the last.
double startOfMove(const Trial& trial, std::uint32_t move);

}  // namespace firstoff::gui
