#include "sim/trial/tool_moves.h"

#include <fmt/format.h>

namespace firstoff {

std::string toolWord(const Machining& m, std::size_t i) {
    return toolWord(m.toolpath.calls[moveAt(m, i).call]);
}

Finding findingAt(const Machining& m, std::size_t i, Severity severity, const char* code) {
    Finding finding;
    finding.severity = severity;
    finding.code = code;
    finding.span = m.program.span(moveAt(m, i).block);
    finding.timeS = m.timeline.moves[i].t1;
    finding.place = tipTo(m, i);
    return finding;
}

}  // namespace firstoff
