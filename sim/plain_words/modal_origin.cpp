#include "sim/plain_words/modal_origin.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "sim/control/codes.h"
#include "sim/control/cycle_orders.h"

namespace firstoff {

namespace {

// Blocks without a move that are looked through for the word; more of them in a row is no program by hand.
constexpr std::size_t kMostBlocks = 10'000;

bool same(const ModalState& a, const ModalState& b, ModalField field) {
    switch (field) {
        case ModalField::Motion:
            return a.motion == b.motion;
        case ModalField::Spindle:
            return a.spindle == b.spindle;
        case ModalField::Speed:
            return a.speed == b.speed && a.constantSurfaceSpeed == b.constantSurfaceSpeed;
        case ModalField::Clamp:
            return a.clampRevPerMin == b.clampRevPerMin;
        case ModalField::Feed:
            return a.feed == b.feed && a.feedPerRev == b.feedPerRev;
        case ModalField::Compensation:
            return a.compensation == b.compensation;
        case ModalField::WorkOffset:
            return a.workOffset == b.workOffset;
        case ModalField::Coolant:
            return a.coolant == b.coolant;
        case ModalField::Units:
            return a.inches == b.inches;
    }
    return true;
}

bool codeSets(const CodeEntry& code, ModalField field) {
    switch (field) {
        case ModalField::Motion:
            return code.group == CodeGroup::Motion || isOneShotCycle(code.order);
        case ModalField::Spindle:
            return code.group == CodeGroup::Spindle;
        case ModalField::Speed:
            return code.group == CodeGroup::SpeedMode;
        case ModalField::Feed:
            return code.group == CodeGroup::FeedMode;
        case ModalField::Compensation:
            return code.group == CodeGroup::Compensation;
        case ModalField::WorkOffset:
            return code.group == CodeGroup::WorkOffset;
        case ModalField::Coolant:
            return code.group == CodeGroup::Coolant;
        case ModalField::Units:
            return code.group == CodeGroup::Units;
        case ModalField::Clamp:
            break;
    }
    return false;
}

const CodeEntry* codeOf(const Word& word, CodeSystem system) {
    if (word.form != Word::Form::Number || (word.letter != 'G' && word.letter != 'M')) return nullptr;
    return codeEntry(word.letter, static_cast<int>(std::lround(10 * word.value)), system);
}

bool setsCoordinates(const Program& program, const Block& block, CodeSystem system) {
    return std::any_of(program.begin(block), program.end(block), [&](const Word& word) {
        const CodeEntry* code = codeOf(word, system);
        return code != nullptr && code->order == Order::CoordinateSetting;
    });
}

// The last word of the block that sets the field; null without one. A figure tells more than the code it stands with.
const Word* setterIn(const Trial& trial, const Block& block, ModalField field) {
    if (block.kind != Block::Kind::Words) return nullptr;
    const Program& program = trial.program;
    const CodeSystem system = trial.setup.control.codeSystem;
    const Word* code = nullptr;
    const Word* figure = nullptr;
    const char letter = field == ModalField::Feed                                  ? 'F'
                        : field == ModalField::Speed || field == ModalField::Clamp ? 'S'
                                                                                   : '\0';
    for (const Word* word = program.begin(block); word != program.end(block); ++word) {
        const CodeEntry* entry = codeOf(*word, system);
        if (entry != nullptr && codeSets(*entry, field)) code = word;
        if (word->letter == letter) figure = word;
    }
    if (letter == 'S' && setsCoordinates(program, block, system) != (field == ModalField::Clamp)) return code;
    return figure != nullptr ? figure : code;
}

std::size_t stepOf(const Toolpath& toolpath, std::uint32_t move) {
    const auto after = std::upper_bound(toolpath.steps.begin(), toolpath.steps.end(), move,
                                        [](std::uint32_t m, const Step& s) { return m < s.firstMove; });
    return after == toolpath.steps.begin() ? 0 : static_cast<std::size_t>(after - toolpath.steps.begin()) - 1;
}

}  // namespace

ModalOrigins::ModalOrigins(const Trial& trial) {
    const std::vector<Move>& moves = trial.toolpath.moves;
    const std::vector<ModalState>& modals = trial.toolpath.modals;
    const ModalState* before = &modals.front();
    for (std::size_t i = 0; i < moves.size(); ++i) {
        const ModalState* now = &modals[moves[i].modal];
        if (now == before) continue;
        for (std::size_t field = 0; field < kModalFields; ++field) {
            if (!same(*now, *before, static_cast<ModalField>(field)))
                changes_[field].push_back(static_cast<std::uint32_t>(i));
        }
        before = now;
    }
    const std::vector<Step>& steps = trial.toolpath.steps;
    for (std::size_t field = 0; field < kModalFields; ++field) {
        const std::size_t end =
            changes_[field].empty() ? steps.size() : stepOf(trial.toolpath, changes_[field].front()) + 1;
        for (std::size_t step = 0; step < end && step < steps.size(); ++step) {
            if (setterIn(trial, trial.program.blocks[steps[step].block], static_cast<ModalField>(field)) != nullptr)
                said_[field].push_back(static_cast<std::uint32_t>(step));
        }
    }
}

std::optional<ModalOrigin> ModalOrigins::of(const Trial& trial, ModalField field, std::size_t move) const {
    const std::vector<std::uint32_t>& changes = changes_[static_cast<std::size_t>(field)];
    const auto after = std::upper_bound(changes.begin(), changes.end(), move);
    const Toolpath& path = trial.toolpath;
    if (path.steps.empty() || path.moves.empty()) return std::nullopt;
    const auto setIn = [&](std::size_t step) -> std::optional<ModalOrigin> {
        const BlockId id = path.steps[step].block;
        const Word* word = setterIn(trial, trial.program.blocks[id], field);
        if (word == nullptr) return std::nullopt;
        return ModalOrigin{id, trial.program.span(id, *word), std::string(trial.program.textOf(*word))};
    };
    if (after == changes.begin()) {
        // Never another than at the start: then the last word that says so all the same.
        const std::vector<std::uint32_t>& said = said_[static_cast<std::size_t>(field)];
        const auto behind = std::upper_bound(said.begin(), said.end(), stepOf(path, static_cast<std::uint32_t>(move)));
        return behind == said.begin() ? std::nullopt : setIn(*std::prev(behind));
    }
    const std::uint32_t since = *std::prev(after);
    const std::size_t last = stepOf(path, since), first = since == 0 ? 0 : stepOf(path, since - 1);
    for (std::size_t step = last + 1; step-- > first && last - step < kMostBlocks;) {
        if (const auto origin = setIn(step)) return origin;
    }
    return std::nullopt;
}

}  // namespace firstoff
