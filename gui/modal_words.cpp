#include "gui/modal_words.h"

#include <fmt/format.h>

#include "gui/block_words.h"
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
            return "rapid";
        case Order::Feed:
            return "straight";
        case Order::ArcClockwise:
            return "arc, clockwise";
        case Order::ArcAnticlockwise:
            return "arc, anticlockwise";
        case Order::Thread:
            return "thread";
        case Order::ThreadOfVariableLead:
            return "thread of variable lead";
        case Order::FinishingCycle:
            return "finishing";
        case Order::RoughingAlong:
            return "roughing along Z";
        case Order::RoughingAcross:
            return "roughing along X";
        case Order::PatternRepeat:
            return "pattern";
        case Order::FacePeck:
            return "pecks along Z";
        case Order::GroovePeck:
            return "pecks along X";
        case Order::ThreadingCycle:
            return "threading cycle";
        case Order::TurningPass:
            return "turning pass";
        case Order::ThreadingPass:
            return "threading pass";
        case Order::FacingPass:
            return "facing pass";
        case Order::Drill:
        case Order::DrillWithDwell:
            return "drilling";
        case Order::PeckDrill:
            return "drilling in pecks";
        case Order::Tap:
            return "tapping";
        case Order::Bore:
            return "boring";
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

std::string speedWord(const ModalState& modal) {
    if (modal.constantSurfaceSpeed) return fmt::format("G96 surface {:g} m/min", modal.speed);
    return fmt::format("G97 fixed {:g} rev/min", modal.speed);
}

std::string spindleWord(SpindleDirection direction) {
    switch (direction) {
        case SpindleDirection::Stopped:
            return "M05 stopped";
        case SpindleDirection::Forward:
            return "M03 forward";
        case SpindleDirection::Reverse:
            return "M04 reverse";
    }
    return "";
}

std::string compensationWord(Compensation side) {
    switch (side) {
        case Compensation::Off:
            return "G40 off";
        case Compensation::Left:
            return "G41 left of the path";
        case Compensation::Right:
            return "G42 right of the path";
    }
    return "";
}

}  // namespace

std::vector<ModalWord> modalWords(const Trial& trial, const Instant& instant) {
    const ModalState& modal = *instant.modal;
    const CodeSystem system = trial.setup.control.codeSystem;
    const std::uint16_t call = instant.move ? instant.move->call : std::uint16_t{0};
    std::string tool = toolTitle(trial, call);
    if (instant.call->offset > 0) tool += fmt::format(", offset {}", instant.call->offset);
    return {
        {"Tool", tool},
        {"Motion", motionWord(modal.motion, system)},
        {"Spindle", spindleWord(modal.spindle)},
        {"Speed", speedWord(modal)},
        {"Clamp", modal.clampRevPerMin > 0 ? fmt::format("{} at most {:g} rev/min",
                                                         codeOf(Order::CoordinateSetting, system), modal.clampRevPerMin)
                                           : "none given"},
        {"Feed", fmt::format("{} {:g} {}", codeOf(modal.feedPerRev ? Order::FeedPerRev : Order::FeedPerMinute, system),
                             modal.feed, modal.feedPerRev ? "mm/rev" : "mm/min")},
        {"Nose comp", compensationWord(modal.compensation)},
        {"Datum", workOffsetName(modal.workOffset)},
        {"Coolant", modal.coolant ? "M08 on" : "M09 off"},
        {"Units",
         codeOf(modal.inches ? Order::Inches : Order::Millimetres, system) + (modal.inches ? " inch" : " millimetre")},
    };
}

}  // namespace firstoff::gui
