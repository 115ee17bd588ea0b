// Drawing one line of a program: which stretch of it gets which colour.
#pragma once

#include <string_view>
#include <vector>

#include "gui/theme.h"

namespace firstoff::gui {

enum class WordKind : std::uint8_t { Plain, Motion, Axis, Feed, Tool, Misc, Other, Comment };

struct TextRun {
    std::size_t from = 0, to = 0;  // bytes of the line
    WordKind kind = WordKind::Plain;
};

// The line cut up into runs without gaps, by the same reading as a trial's. Runs of one kind that touch are one.
std::vector<TextRun> runsOf(std::string_view line);

Colour colourOf(const Palette& palette, WordKind kind);

}  // namespace firstoff::gui
