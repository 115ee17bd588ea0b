#include "gui/modal_words.h"

#include <fmt/format.h>

#include "gui/block_words.h"

namespace firstoff::gui {

namespace {

std::string motionWord(int code) {
    switch (code) {
        case 0:
            return "G00 rapid";
        case 1:
            return "G01 straight";
        case 2:
            return "G02 arc, clockwise";
        case 3:
            return "G03 arc, anticlockwise";
        case 32:
            return "G32 thread";
        case 34:
            return "G34 thread of variable lead";
        case 76:
            return "G76 threading cycle";
        case 84:
            return "G84 tapping";
        case 92:
            return "G92 threading pass";
        default:
            return fmt::format("G{:02}", code);
    }
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
    const std::uint16_t call = instant.move ? instant.move->call : std::uint16_t{0};
    std::string tool = toolTitle(trial, call);
    if (instant.call->offset > 0) tool += fmt::format(", offset {}", instant.call->offset);
    return {
        {"Tool", tool},
        {"Motion", motionWord(modal.motion)},
        {"Spindle", spindleWord(modal.spindle)},
        {"Speed", speedWord(modal)},
        {"Clamp",
         modal.clampRevPerMin > 0 ? fmt::format("G50 at most {:g} rev/min", modal.clampRevPerMin) : "none given"},
        {"Feed", fmt::format("{} {:g} {}", modal.feedPerRev ? "G99" : "G98", modal.feed,
                             modal.feedPerRev ? "mm/rev" : "mm/min")},
        {"Nose comp", compensationWord(modal.compensation)},
        {"Datum", workOffsetName(modal.workOffset)},
        {"Coolant", modal.coolant ? "M08 on" : "M09 off"},
        {"Units", modal.inches ? "G20 inch" : "G21 millimetre"},
    };
}

}  // namespace firstoff::gui
