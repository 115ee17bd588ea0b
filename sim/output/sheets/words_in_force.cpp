#include "sim/output/sheets/words_in_force.h"

#include <cmath>
#include <optional>

#include "sim/control/codes.h"

namespace firstoff {

namespace {

std::optional<ModalThing> thingOf(const Trial& trial, const Word& word, bool speedIsClamp) {
    switch (word.letter) {
        case 'T':
            return ModalThing::Tool;
        case 'F':
            return ModalThing::Feed;
        case 'S':
            if (speedIsClamp) return std::nullopt;
            return ModalThing::Speed;
        case 'G':
            break;
        default:
            return std::nullopt;
    }
    if (word.form != Word::Form::Number) return std::nullopt;
    const auto tenths = static_cast<int>(std::lround(10 * word.value));
    const CodeEntry* entry = codeEntry('G', tenths, trial.setup.control.codeSystem);
    if (entry == nullptr) return std::nullopt;
    switch (entry->group) {
        case CodeGroup::WorkOffset:
            return ModalThing::WorkOffset;
        case CodeGroup::SpeedMode:
            return ModalThing::SpeedMode;
        case CodeGroup::FeedMode:
            return ModalThing::FeedMode;
        case CodeGroup::Compensation:
            return ModalThing::Compensation;
        case CodeGroup::Motion:
            return ModalThing::Movement;
        default:
            return std::nullopt;
    }
}

// S beside the code of the clamp is no speed.
bool setsClamp(const Trial& trial, const Block& block) {
    for (const Word* word = trial.program.begin(block); word != trial.program.end(block); ++word) {
        if (word->letter != 'G' || word->form != Word::Form::Number) continue;
        const auto tenths = static_cast<int>(std::lround(10 * word->value));
        const CodeEntry* entry = codeEntry('G', tenths, trial.setup.control.codeSystem);
        if (entry != nullptr && entry->order == Order::CoordinateSetting) return true;
    }
    return false;
}

void carryOut(const Trial& trial, BlockId id, WordsInForce& now) {
    const Block& block = trial.program.blocks[id];
    const bool clamp = setsClamp(trial, block);
    for (const Word* word = trial.program.begin(block); word != trial.program.end(block); ++word) {
        const auto thing = thingOf(trial, *word, clamp);
        if (!thing || word->form == Word::Form::Missing) continue;
        now[static_cast<std::size_t>(*thing)] = {std::string(trial.program.textOf(*word)), id};
    }
}

}  // namespace

std::vector<WordsInForce> wordsInForce(const Trial& trial) {
    std::vector<WordsInForce> all(trial.program.blocks.size());
    std::vector<bool> done(all.size(), false);
    WordsInForce now;
    for (const Step& step : trial.toolpath.steps) {
        if (step.block >= all.size()) continue;
        carryOut(trial, step.block, now);
        if (!done[step.block]) all[step.block] = now;
        done[step.block] = true;
    }
    return all;
}

}  // namespace firstoff
