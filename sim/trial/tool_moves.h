// What findings about tools ask of a timed move. Inside sim/trial only.
#pragma once

#include <cmath>
#include <string>

#include "sim/base/tolerances.h"
#include "sim/trial/machining_findings.h"

namespace firstoff {

inline const Move& moveAt(const Machining& m, std::size_t i) {
    return m.toolpath.moves[m.timeline.moves[i].move];
}

// Nothing for a station without a tool.
inline const Tool* toolAt(const Machining& m, std::size_t i) {
    const int tool = m.toolpath.calls[moveAt(m, i).call].toolIndex;
    return tool < 0 ? nullptr : &m.setup.tools[static_cast<std::size_t>(tool)];
}

inline bool takesMetal(const Machining& m, std::size_t i) {
    return m.stock->cuts()[i].deepestMm > tolerance::kTouchMm;
}

// The true tip at both ends, lathe frame.
inline Point tipFrom(const Machining& m, std::size_t i) {
    return m.timeline.moves[i].from + m.toolpath.tipShift(moveAt(m, i));
}
inline Point tipTo(const Machining& m, std::size_t i) {
    return m.timeline.moves[i].to + m.toolpath.tipShift(moveAt(m, i));
}

inline bool mostlyAlongZ(Point way) {
    return std::abs(way.z) > std::abs(way.r);
}

// "T0101".
std::string toolWord(const Machining& m, std::size_t i);

// A finding about a move, placed and timed at its end.
Finding findingAt(const Machining& m, std::size_t i, Severity severity, const char* code);

// The height of the edge above the axis on the side from which the metal comes: an edge for M04 is mounted with its
// face the other way up.
inline double heightAgainstTheMetal(const Tool& tool) {
    return tool.needs == SpindleDirection::Reverse ? tool.centreHeight : -tool.centreHeight;
}

}  // namespace firstoff
