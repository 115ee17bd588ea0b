#include "sim/cutting/cut_finding.h"

namespace firstoff {

Finding cutFinding(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, std::uint32_t timedMove,
                   double fraction, Severity severity, const char* code) {
    const TimedMove& timed = timeline.moves[timedMove];
    const Move& move = toolpath.moves[timed.move];
    Finding finding;
    finding.severity = severity;
    finding.code = code;
    finding.span.line = move.block == kNoBlock ? 0 : move.block + 1;
    finding.timeS = timeAt(timed, toolpath, setup, fraction);
    finding.place = pointAt(timed, fraction) + toolpath.tipShift(move);
    return finding;
}

}  // namespace firstoff
