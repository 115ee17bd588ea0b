#include "sim/clearance/not_modelled.h"

#include <algorithm>
#include <string>

#include "sim/base/say.h"

namespace firstoff {

namespace {

bool turretMoves(const Timeline& timeline) {
    return std::any_of(timeline.moves.begin(), timeline.moves.end(),
                       [](const TimedMove& timed) { return timed.from != timed.to || timed.kind == MoveKind::Index; });
}

void add(ClearanceResult& result, std::string sentence) {
    std::vector<std::string>& all = result.notModelled;
    if (std::find(all.begin(), all.end(), sentence) == all.end()) all.push_back(std::move(sentence));
}

}  // namespace

void tellNotModelled(const Timeline& timeline, const Toolpath& toolpath, const Setup&, const MachineBodies& bodies,
                     ClearanceResult& result) {
    const bool moves = turretMoves(timeline);
    for (const MachineBodies::Gap& gap : bodies.notModelled) {
        add(result, gap.what);
        if (!gap.moves || !moves) continue;
        Finding finding;
        finding.severity = Severity::Note;
        finding.code = "not-modelled";
        finding.unproven = true;
        finding.span = gap.span;
        finding.span.file = SourceSpan::File::Setup;
        finding.message = gap.what + tr(" The program moves, so nothing is proven about it.");
        finding.remedy = tr("Give its measures in the set-up file; set-up-keys.md says how.");
        result.findings.push_back(std::move(finding));
    }
    std::vector<bool> used(toolpath.calls.size());
    for (const TimedMove& timed : timeline.moves) used[toolpath.moves[timed.move].call] = true;
    for (std::size_t i = 0; i < used.size(); ++i) {
        const ToolCall& call = toolpath.calls[i];
        if (!used[i] || call.station == 0 || call.toolIndex >= 0) continue;
        add(result, say("Station {} has no tool in the set-up: what stands there is not checked.", call.station));
    }
}

}  // namespace firstoff
