#include "sim/plain_words/block_explained.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/base/told_apart.h"
#include "sim/base/units.h"
#include "sim/control/codes.h"
#include "sim/control/tool_word.h"
#include "sim/control/word_roles.h"

namespace firstoff {

namespace {

constexpr double kMmPerFoot = 12 * kMmPerInch;

// At least so many decimals as are needed, at most three.
std::string figureOf(double value) {
    std::string text = fmt::format("{:.3f}", value);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text == "-0" ? "0" : text;
}

// "1,459": whole, in groups of three.
std::string whole(double value) {
    const std::string plain = fmt::format("{:.0f}", value);
    std::string text;
    for (std::size_t i = 0; i < plain.size(); ++i) {
        const std::size_t left = plain.size() - i;
        if (i > 0 && left % 3 == 0 && plain[i - 1] != '-') text += afterBar(tr("between thousands|,"));
        text += plain[i];
    }
    return text;
}

std::uint32_t bit(char letter) {
    return std::uint32_t{1} << (letter - 'A');
}

class Explaining {
public:
    Explaining(const Trial& trial, BlockId block, std::optional<std::size_t> step)
        : t_(trial), id_(block), block_(trial.program.blocks[block]) {
        findMoves(step);
        findOrder();
    }

    std::vector<WordExplained> run() const {
        std::vector<WordExplained> all;
        if (block_.kind != Block::Kind::Words) return all;
        for (const Word* word = t_.program.begin(block_); word != t_.program.end(block_); ++word) {
            all.push_back({t_.program.span(id_, *word), std::string(t_.program.textOf(*word)), textOf(*word)});
        }
        return all;
    }

private:
    void findMoves(std::optional<std::size_t> step) {
        const std::vector<Step>& steps = t_.toolpath.steps;
        std::size_t at = step.value_or(steps.size());
        if (!step) {
            at = static_cast<std::size_t>(
                std::find_if(steps.begin(), steps.end(), [&](const Step& s) { return s.block == id_; }) -
                steps.begin());
        }
        if (at >= steps.size()) return;
        first_ = steps[at].firstMove;
        end_ = at + 1 < steps.size() ? steps[at + 1].firstMove : t_.toolpath.moves.size();
        const std::size_t moves = t_.toolpath.moves.size();
        // A block that moves nothing leaves its modal state to the next move.
        if (first_ < moves) modal_ = &t_.toolpath.modals[t_.toolpath.moves[first_].modal];
    }

    // The code that says what the words of the block mean.
    void findOrder() {
        std::uint32_t letters = 0;
        for (const Word* word = t_.program.begin(block_); word != t_.program.end(block_); ++word) {
            if (word->letter >= 'A' && word->letter <= 'Z' && !word->comma) letters |= bit(word->letter);
            if (word->form != Word::Form::Number || (word->letter != 'G' && word->letter != 'M')) continue;
            const CodeEntry* entry = entryOf(*word);
            if (entry == nullptr) continue;
            const bool takesWords = entry->group == CodeGroup::OneShot || entry->group == CodeGroup::Motion ||
                                    entry->order == Order::FurtherWorkOffset || entry->order == Order::SubprogramCall;
            if (takesWords) order_ = entry->order;
        }
        if (order_ == Order::Unknown && modal_ != nullptr) {
            const CodeEntry* entry = codeEntry('G', 10 * modal_->motion, CodeSystem::A);
            if (entry != nullptr) order_ = entry->order;
        }
        cycleBlock_ = cycleBlockOf(order_, letters);
    }

    const CodeEntry* entryOf(const Word& word) const {
        return codeEntry(word.letter, static_cast<int>(std::lround(10 * word.value)), t_.setup.control.codeSystem);
    }

    std::string textOf(const Word& word) const {
        if (word.form == Word::Form::Missing) return tr("A letter without a number: it orders nothing.");
        if (word.comma) return ofCorner(word);
        switch (word.letter) {
            case 'N':
                return tr("The number of this block: cycles, jumps and the search of the control find it by that.");
            case 'O':
                return tr("The number under which the control keeps this program.");
            case 'G':
            case 'M':
                return ofCode(word);
            default:
                break;
        }
        if (const WordRole* role = wordRole(order_, cycleBlock_, word.letter)) return ofRole(word, *role);
        switch (word.letter) {
            case 'X':
                return ofX(word);
            case 'Z':
                return ofZ(word);
            case 'U':
            case 'W':
                return ofDistance(word);
            case 'F':
                return ofFeed(word);
            case 'S':
                return ofSpeed(word);
            case 'T':
                return ofTool(word);
            case 'A':
                return tr("The angle of the line, in degrees from +Z, anticlockwise.");
            default:
                return tr("What this word means here is not known: see the machine's manual.");
        }
    }

    std::string ofCorner(const Word& word) const {
        if (word.letter == 'C') return tr("A chamfer at the end of this move, so long along both of its sides.");
        if (word.letter == 'R') return tr("A rounding of this radius at the end of this move.");
        return tr("The angle of the line, in degrees from +Z, anticlockwise.");
    }

    std::string ofCode(const Word& word) const {
        if (word.form != Word::Form::Number) return tr("A code that the program works out as it runs.");
        const CodeEntry* entry = entryOf(word);
        if (entry != nullptr) {
            std::string text = tr(entry->meaning);
            if (entry->group == CodeGroup::Unknown) text += tr(" It is not carried out here.");
            return text;
        }
        if (word.letter == 'M') {
            const auto own = std::find_if(
                t_.setup.machineCodes.begin(), t_.setup.machineCodes.end(),
                [&](const MachineCode& c) { return c.number == std::lround(word.value) && !c.meaning.empty(); });
            if (own != t_.setup.machineCodes.end()) {
                return say("An M code of this machine's own; the set-up says: {}.", own->meaning);
            }
            return tr(
                "An M code of this machine's own: the set-up may say what it does, the machine's manual decides.");
        }
        return tr("A code that is not known here: nothing of it was carried out, and the trial is not proven.");
    }

    const char* unit() const { return inches() ? tr("inch") : "mm"; }
    bool inches() const { return modal_ != nullptr && modal_->inches; }
    double perUnit() const { return inches() ? kMmPerInch : 1; }

    std::string ofRole(const Word& word, const WordRole& role) const {
        std::string text = tr(role.meaning);
        text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
        if (word.form != Word::Form::Number) return text + tr("; the program works it out.");
        switch (role.measure) {
            case WordMeasure::Number:
                return text + ".";
            case WordMeasure::Length:
                return fmt::format("{}: {} {}.", text, figureOf(lengthOf(word)), unit());
            case WordMeasure::Diameter:
                if (t_.setup.control.radiusProgramming) {
                    return fmt::format("{}: {} {}.", text, figureOf(lengthOf(word)), unit());
                }
                return say("{}: {} {}, so {} a side.", text, figureOf(lengthOf(word)), unit(),
                           figureOf(lengthOf(word) / 2));
            case WordMeasure::Increments: {
                const double increment = inches() ? 0.0001 : 0.001;
                return word.hasPoint ? say("{}; written with a point, which controls take differently.", text)
                                     : say("{}: {} least increments, {} {}.", text, figureOf(word.value),
                                           figureOf(word.value * increment), unit());
            }
            case WordMeasure::Angle:
                return fmt::format("{}: {}°.", text, figureOf(word.value));
            case WordMeasure::Seconds:
                return fmt::format("{}: {} s.", text, figureOf(word.value));
            case WordMeasure::Milliseconds:
                return fmt::format("{}: {} s.", text, figureOf(word.value / 1000));
        }
        return text;
    }

    // In the unit of the program. A length without a point may count least increments; the set-up says so.
    double lengthOf(const Word& word) const {
        const bool increments =
            !word.hasPoint && t_.setup.control.wholeNumbers == ControlOptions::WholeNumbers::Increments;
        return increments ? word.value * (inches() ? 0.0001 : 0.001) : word.value;
    }

    // Where the last move of the block ends, work frame, mm; nothing where it moves nothing.
    std::optional<Point> end() const {
        for (std::size_t i = end_; i-- > first_;) {
            const Move& move = t_.toolpath.moves[i];
            const bool moves = move.kind != MoveKind::Dwell && move.kind != MoveKind::Index;
            if (moves) return move.to + t_.toolpath.programmedShift(move);
        }
        return std::nullopt;
    }
    std::optional<Point> start() const {
        if (first_ >= end_) return std::nullopt;
        const Move& move = t_.toolpath.moves[first_];
        return move.from + t_.toolpath.programmedShift(move);
    }

    // Where an X or Z word sends the tip, mm (X: on radius); nothing where the program works it out.
    std::optional<double> target(const Word& word) const {
        if (word.form != Word::Form::Number) return std::nullopt;
        const double per = word.letter == 'X' && !t_.setup.control.radiusProgramming ? 2 : 1;
        return lengthOf(word) * perUnit() / per;
    }

    // Under compensation the imaginary tip runs beside the path.
    std::string besideThePath(char axis, double wanted, double really) const {
        constexpr double kSame = 5e-4;
        if (modal_ == nullptr || modal_->compensation == Compensation::Off || std::abs(wanted - really) < kSame)
            return {};
        const double shown = (axis == 'X' ? 2 : 1) * really / perUnit();
        return say(" Nose-radius compensation puts the tip at {}{} for it.", axis, figureOf(shown));
    }

    std::string ofX(const Word& word) const {
        if (order_ == Order::CoordinateSetting) return tr("From here on the tip counts as standing at this X.");
        if (order_ == Order::Reference) return tr("By way of this diameter.");
        const std::optional<Point> to = simple() ? end() : std::nullopt, from = simple() ? start() : std::nullopt;
        if (!to || !from) {
            return t_.setup.control.radiusProgramming ? tr("To this radius.")
                                                      : tr("To this diameter: X counts across the axis.");
        }
        const double target_ = target(word).value_or(to->r);
        const double r = target_ / perUnit(), before = from->r / perUnit();
        std::string text =
            say("To the diameter {} {}: {} from the axis", figureOf(2 * std::abs(r)), unit(), figureOf(std::abs(r)));
        if (r < 0) text += tr(", beyond it");
        const double way = std::abs(r) - std::abs(before);
        constexpr double kStays = 5e-4;
        text += std::abs(way) < kStays ? std::string(tr(", where the tip stood already."))
                : way < 0              ? say(", {} nearer than the tip stood.", figureOf(std::abs(way)))
                                       : say(", {} farther out than the tip stood.", figureOf(std::abs(way)));
        return text + besideThePath('X', target_, to->r) + speedAt(std::abs(target_));
    }

    std::string ofZ(const Word& word) const {
        if (order_ == Order::CoordinateSetting) return tr("From here on the tip counts as standing at this Z.");
        if (order_ == Order::Reference) return tr("By way of this Z.");
        if (!simple()) return tr("To this Z: it counts away from the chuck.");
        const std::optional<Point> to = end(), from = start();
        if (!to || !from) return tr("To this Z: it counts away from the chuck.");
        const double target_ = target(word).value_or(to->z);
        const double z = target_ / perUnit(), way = z - from->z / perUnit();
        const std::string where = std::abs(z) < 5e-4 ? std::string(tr("To Z0 of the part"))
                                  : z < 0            ? say("To {} {} behind Z0", figureOf(-z), unit())
                                                     : say("To {} {} in front of Z0", figureOf(z), unit());
        std::string text = std::abs(way) < 5e-4
                               ? where + tr(", where the tip stood already.")
                               : fmt::format("{}: {} {} {}.", where, figureOf(std::abs(way)), unit(),
                                             way < 0 ? tr("towards the chuck") : tr("away from the chuck"));
        return text + besideThePath('Z', target_, to->z);
    }

    std::string ofDistance(const Word& word) const {
        if (word.form != Word::Form::Number) return tr("A distance that the program works out.");
        const double way = lengthOf(word);
        if (order_ == Order::Reference && way == 0) return tr("By way of where the tip stands in this axis.");
        if (way == 0) return tr("No distance: it stays where it is in this axis.");
        if (word.letter == 'W') {
            return say("{} {} along Z from where it stands, {}.", figureOf(std::abs(way)), unit(),
                       way < 0 ? tr("towards the chuck") : tr("away from the chuck"));
        }
        const bool radius = t_.setup.control.radiusProgramming;
        const std::string change = figureOf((radius ? 2 : 1) * std::abs(way));
        return way < 0 ? say("The diameter becomes {} {} smaller than where it stands.", change, unit())
                       : say("The diameter becomes {} {} larger than where it stands.", change, unit());
    }

    // One plain move, whose end its own words say.
    bool simple() const {
        return order_ == Order::Rapid || order_ == Order::Feed || order_ == Order::ArcClockwise ||
               order_ == Order::ArcAnticlockwise || order_ == Order::Thread || order_ == Order::Unknown;
    }

    // What surface speed makes of the spindle at a radius, mm.
    std::string speedAt(double radius) const {
        if (modal_ == nullptr || !modal_->constantSurfaceSpeed || modal_->speed <= 0 || radius <= 0) return {};
        const double clamp = clampRevPerMin(), vMm = modal_->speed * (inches() ? kMmPerFoot : 1000);
        const double wanted = vMm / (2 * kPi * radius);
        const std::string speed = fmt::format("{} {}", figureOf(modal_->speed), inches() ? "ft/min" : "m/min");
        if (clamp > 0 && wanted > clamp) {
            return say(" The {} would be {} rev/min here; the clamp holds it at {}.", speed, whole(wanted),
                       whole(clamp));
        }
        std::string text = say(" At this diameter the {} are {} rev/min", speed, whole(wanted));
        if (clamp > 0) {
            text += say("; from X{} down the clamp holds it at {}",
                        fmt::format("{:.1f}", vMm / (kPi * clamp) / perUnit()), whole(clamp));
        }
        return text + ".";
    }

    // The lower of what the program and the machine allow; 0: neither says.
    double clampRevPerMin() const {
        const double own = modal_->clampRevPerMin, machine = t_.setup.machine.maxRevPerMin;
        if (own > 0 && machine > 0) return std::min(own, machine);
        return std::max(own, machine);
    }

    std::string ofFeed(const Word& word) const {
        if (word.form != Word::Form::Number) return tr("A feed that the program works out.");
        if (modal_ == nullptr) return tr("The feed.");
        if (!modal_->feedPerRev) return say("Feed: {} {} in a minute.", figureOf(word.value), unit());
        std::string text = say("Feed: {} {} for each revolution", figureOf(word.value), unit());
        const double rpm = revPerMinHere();
        if (rpm <= 0) return text + ".";
        return text + say("; at {} rev/min that is {} {} in a minute.", whole(rpm), whole(word.value * rpm), unit());
    }

    // Of the spindle where the block ends.
    double revPerMinHere() const {
        if (modal_ == nullptr || modal_->spindle == SpindleDirection::Stopped) return 0;
        if (!modal_->constantSurfaceSpeed) return modal_->speed;
        const std::optional<Point> to = end();
        if (!to || to->r == 0) return 0;
        const double wanted = modal_->speed * (inches() ? kMmPerFoot : 1000) / (2 * kPi * std::abs(to->r));
        return clampRevPerMin() > 0 ? std::min(wanted, clampRevPerMin()) : wanted;
    }

    std::string ofSpeed(const Word& word) const {
        if (word.form != Word::Form::Number) return tr("A speed that the program works out.");
        if (order_ == Order::CoordinateSetting) {
            return say("The spindle turns no faster than {} rev/min, whatever the surface speed asks for.",
                       whole(word.value));
        }
        if (modal_ == nullptr) return tr("The speed.");
        if (modal_->constantSurfaceSpeed) {
            return say(
                "Surface speed: {} {} past the edge; the spindle turns faster as the diameter gets "
                "smaller.",
                figureOf(word.value), inches() ? "ft/min" : "m/min");
        }
        std::string text = say("Spindle speed: {} rev/min", whole(word.value));
        const std::optional<Point> at = end();
        if (!at || at->r == 0) return text + tr(", whatever the diameter.");
        return text + say("; at the diameter {} {} that is {} m/min.", figureOf(2 * std::abs(at->r) / perUnit()),
                          unit(), figureOf(std::round(2 * kPi * std::abs(at->r) * word.value / 1000)));
    }

    std::string ofTool(const Word& word) const {
        const auto call = std::find_if(t_.toolpath.calls.begin(), t_.toolpath.calls.end(),
                                       [&](const ToolCall& c) { return c.block == id_; });
        if (word.form != Word::Form::Number || call == t_.toolpath.calls.end())
            return tr("Calls a tool and its offset.");
        std::string text = say("Station {}", call->station);
        if (call->toolIndex >= 0) {
            text += say(" comes up: {}", t_.setup.tools[static_cast<std::size_t>(call->toolIndex)].name);
        } else if (call->station > 0) {
            text += tr(", which is empty in the set-up");
        }
        if (call->offset == 0) return text + tr(". No offset is in force.");
        text += say(". Offset {} says where its tip is", call->offset);
        const auto offset = std::find_if(t_.setup.offsets.begin(), t_.setup.offsets.end(),
                                         [&](const Offset& o) { return o.number == call->offset; });
        if (offset == t_.setup.offsets.end())
            return text + tr("; the set-up takes it as the tool is measured, without wear.");
        if (offset->wear.r != 0 || offset->wear.z != 0) {
            text += say("; its wear is X{:+.3f} Z{:+.3f}", 2 * offset->wear.r, offset->wear.z);
        }
        return text + ".";
    }

    const Trial& t_;
    BlockId id_;
    const Block& block_;
    std::size_t first_ = 0, end_ = 0;  // moves of the block
    const ModalState* modal_ = nullptr;
    Order order_ = Order::Unknown;
    CycleBlock cycleBlock_ = CycleBlock::Only;
};

}  // namespace

std::vector<WordExplained> explainBlock(const Trial& trial, BlockId block, std::optional<std::size_t> step) {
    if (block >= trial.program.blocks.size()) return {};
    return Explaining(trial, block, step).run();
}

std::vector<std::size_t> firstSteps(const Trial& trial) {
    const std::vector<Step>& steps = trial.toolpath.steps;
    std::vector<std::size_t> first(trial.program.blocks.size(), steps.size());
    for (std::size_t i = steps.size(); i-- > 0;) {
        if (steps[i].block < first.size()) first[steps[i].block] = i;
    }
    return first;
}

}  // namespace firstoff
