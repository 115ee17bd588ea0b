#include "gui/playing.h"

#include <algorithm>

namespace firstoff::gui {

namespace {

// How long a block is watched when it is played by block, s: long enough to read a short one.
constexpr double kBlockS = 0.8;

std::size_t stepAt(const Trial& trial, const PlayPlace& place) {
    const std::vector<Step>& steps = trial.toolpath.steps;
    if (place.step < steps.size() && trial.startOfStep(place.step) <= place.timeS) return place.step;
    return std::min(trial.stepAt(place.timeS), steps.size() - 1);
}

PlayPlace playedByBlock(const Trial& trial, PlayPlace place, double blocks) {
    std::size_t step = stepAt(trial, place);
    place.share += blocks;
    while (place.share >= 1) {
        const std::size_t next = nextStepWithWords(trial, step);
        if (next >= trial.toolpath.steps.size()) {
            place.timeS = trial.timeline.cycleTimeS;
            place.step = static_cast<std::size_t>(-1);
            return place;
        }
        step = next;
        place.share -= 1;
    }
    const double from = trial.startOfStep(step);
    const double to = trial.startOfStep(nextStepWithWords(trial, step));
    place.timeS = from + place.share * (to - from);
    place.step = step;
    return place;
}

}  // namespace

std::size_t nextStepWithWords(const Trial& trial, std::size_t step) {
    const std::vector<Step>& steps = trial.toolpath.steps;
    for (++step; step < steps.size(); ++step) {
        const Block& block = trial.program.blocks[steps[step].block];
        if (block.kind != Block::Kind::Words || block.wordCount > 0) break;
    }
    return std::min(step, steps.size());
}

bool holdsAtOnce(const Trial& trial, double timeS) {
    if (trial.timeline.moves.empty()) return true;
    const TimedMove& timed = trial.timeline.moves[trial.timeline.at(timeS)];
    return timed.kind != MoveKind::Thread || timeS >= timed.t1;
}

PlayPlace played(const Trial& trial, const TimelineIndex& index, PlayPlace place, const PlayRules& rules,
                 double seconds) {
    const double cycle = trial.timeline.cycleTimeS;
    if (!place.playing || trial.toolpath.steps.empty()) return place;
    const PlayPlace before = place;
    const std::size_t step = stepAt(trial, before);
    if (rules.byBlock) {
        place = playedByBlock(trial, place, seconds * rules.speed / kBlockS);
    } else {
        place.timeS += seconds * rules.speed;
        place.step = static_cast<std::size_t>(-1);
    }
    const auto haltAt = [&](double timeS, std::size_t at) {
        place.timeS = timeS;
        place.step = at;
        place.share = 0;
        place.playing = false;
        place.holding = false;
    };
    if (rules.singleBlock) {
        const std::size_t next = nextStepWithWords(trial, step);
        if (next < trial.toolpath.steps.size() && trial.startOfStep(next) <= place.timeS)
            haltAt(trial.startOfStep(next), next);
    }
    for (const StopMark& stop : index.stops()) {
        const bool halts =
            stop.kind != ProgramStop::Kind::End && stop.timeS > before.timeS && stop.timeS <= place.timeS;
        if (!place.playing && stop.timeS >= place.timeS) break;  // halted there already, before a block
        if (!halts) continue;
        haltAt(stop.timeS, static_cast<std::size_t>(-1));
        break;
    }
    if (before.holding) {
        // Held at once, or, in a thread, where the pass ends.
        const TimedMove& timed = trial.timeline.moves[trial.timeline.at(before.timeS)];
        const double end = holdsAtOnce(trial, before.timeS) ? before.timeS : timed.t1;
        if (place.timeS >= end) haltAt(end, static_cast<std::size_t>(-1));
    }
    if (rules.loop && place.playing && place.timeS >= std::min(rules.loop->toS, cycle)) {
        place.timeS = rules.loop->fromS;
        place.step = static_cast<std::size_t>(-1);
        place.share = 0;
    }
    if (place.timeS >= cycle) {
        place.timeS = cycle;
        place.playing = false;
    }
    return place;
}

}  // namespace firstoff::gui
