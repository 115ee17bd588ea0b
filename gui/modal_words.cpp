#include "gui/modal_words.h"

#include <fmt/format.h>

#include "gui/block_words.h"
#include "sim/base/say.h"
#include "sim/control/codes.h"

namespace firstoff::gui {

namespace {

// The code as the program writes it, in its code system.
std::string codeOf(Order order, CodeSystem system) {
    for (const CodeEntry& entry : codeTable()) {
        const int tenths = entry.number[static_cast<std::size_t>(system)];
        if (entry.order == order && tenths >= 0) return fmt::format("{}{:02}", entry.letter, tenths / 10);
    }
    return "";
}

const char* motionWord(Order order) {
    switch (order) {
        case Order::Rapid:
            return tr("rapid");
        case Order::Feed:
            return tr("straight");
        case Order::ArcClockwise:
            return tr("arc, clockwise");
        case Order::ArcAnticlockwise:
            return tr("arc, anticlockwise");
        case Order::Thread:
            return tr("thread");
        case Order::ThreadOfVariableLead:
            return tr("thread of variable lead");
        case Order::FinishingCycle:
            return tr("finishing");
        case Order::RoughingAlong:
            return tr("roughing along Z");
        case Order::RoughingAcross:
            return tr("roughing along X");
        case Order::PatternRepeat:
            return tr("pattern");
        case Order::FacePeck:
            return tr("pecks along Z");
        case Order::GroovePeck:
            return tr("pecks along X");
        case Order::ThreadingCycle:
            return tr("threading cycle");
        case Order::TurningPass:
            return tr("turning pass");
        case Order::ThreadingPass:
            return tr("threading pass");
        case Order::FacingPass:
            return tr("facing pass");
        case Order::Drill:
        case Order::DrillWithDwell:
            return tr("drilling");
        case Order::PeckDrill:
            return tr("drilling in pecks");
        case Order::Tap:
            return tr("tapping");
        case Order::Bore:
            return tr("boring");
        default:
            return "";
    }
}

// `motion` as the modal state holds it: the number in code system A.
std::string motionWord(int motion, CodeSystem system) {
    const CodeEntry* entry = codeEntry('G', 10 * motion, CodeSystem::A);
    if (entry == nullptr) return fmt::format("G{:02}", motion);
    return codeOf(entry->order, system) + " " + motionWord(entry->order);
}

std::string speedWord(const ModalState& modal, Measures measures) {
    if (modal.constantSurfaceSpeed && measures.inches())
        return say("G96 surface {}", told(measures.surfaceSpeed(modal.speed)));
    if (modal.constantSurfaceSpeed) return say("G96 surface {:g} m/min", modal.speed);
    return say("G97 fixed {:g} rev/min", modal.speed);
}

std::string feedWord(const ModalState& modal, const std::string& code, Measures measures) {
    if (measures.inches()) {
        const Figure feed = modal.feedPerRev ? measures.feedPerRev(modal.feed) : measures.feedPerMinute(modal.feed);
        return fmt::format("{} {}", code, told(feed));
    }
    return modal.feedPerRev ? say("{} {:g} mm/rev", code, modal.feed) : say("{} {:g} mm/min", code, modal.feed);
}

std::string spindleWord(SpindleDirection direction) {
    switch (direction) {
        case SpindleDirection::Stopped:
            return tr("M05 stopped");
        case SpindleDirection::Forward:
            return tr("M03 forward");
        case SpindleDirection::Reverse:
            return tr("M04 reverse");
    }
    return "";
}

std::string compensationWord(Compensation side) {
    switch (side) {
        case Compensation::Off:
            return tr("G40 off");
        case Compensation::Left:
            return tr("G41 left of the path");
        case Compensation::Right:
            return tr("G42 right of the path");
    }
    return "";
}

// The word that called the tool; tool calls know their block.
std::optional<ModalOrigin> toolOrigin(const Trial& trial, const ToolCall& call) {
    if (call.block == kNoBlock) return std::nullopt;
    const Program& program = trial.program;
    const Block& block = program.blocks[call.block];
    for (const Word* word = program.begin(block); word != program.end(block); ++word) {
        if (word->letter == 'T')
            return ModalOrigin{call.block, program.span(call.block, *word), std::string(program.textOf(*word))};
    }
    return std::nullopt;
}

}  // namespace

std::vector<ModalWord> modalWords(const Trial& trial, const Instant& instant, const ModalOrigins& origins,
                                  Measures measures) {
    const ModalState& modal = *instant.modal;
    const CodeSystem system = trial.setup.control.codeSystem;
    const std::uint16_t call = instant.move ? instant.move->call : std::uint16_t{0};
    std::string tool = toolTitle(trial, call);
    if (instant.call->offset > 0) tool += say(", offset {}", instant.call->offset);
    const auto from = [&](ModalField field) -> std::optional<ModalOrigin> {
        if (!instant.hasMoves) return std::nullopt;
        return origins.of(trial, field, trial.timeline.moves[instant.timed].move);
    };
    const std::string clamp = codeOf(Order::CoordinateSetting, system);
    const std::string feed = codeOf(modal.feedPerRev ? Order::FeedPerRev : Order::FeedPerMinute, system);
    const std::string written = codeOf(modal.inches ? Order::Inches : Order::Millimetres, system);
    return {
        {tr("Tool"), tool, toolOrigin(trial, *instant.call)},
        {tr("Motion"), motionWord(modal.motion, system), from(ModalField::Motion)},
        {tr("Spindle"), spindleWord(modal.spindle), from(ModalField::Spindle)},
        {tr("Speed"), speedWord(modal, measures), from(ModalField::Speed)},
        {tr("Clamp"),
         modal.clampRevPerMin > 0 ? say("{} at most {:g} rev/min", clamp, modal.clampRevPerMin) : tr("none given"),
         from(ModalField::Clamp)},
        {tr("Feed"), feedWord(modal, feed, measures), from(ModalField::Feed)},
        {tr("Nose comp"), compensationWord(modal.compensation), from(ModalField::Compensation)},
        {tr("Datum"), workOffsetName(modal.workOffset), from(ModalField::WorkOffset)},
        {tr("Coolant"), modal.coolant ? tr("M08 on") : tr("M09 off"), from(ModalField::Coolant)},
        {tr("Units"), modal.inches ? say("{} inch", written) : say("{} millimetre", written), from(ModalField::Units)},
    };
}

}  // namespace firstoff::gui
