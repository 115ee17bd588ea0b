// The finish of surfaces as a drawing.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/trial/finish.h"

namespace firstoff {

enum class FinishFileKind : std::uint8_t { Csv, Svg };

// By the ending of the name, large or small letters.
std::optional<FinishFileKind> finishFileKind(const std::filesystem::path& path);
std::string_view finishFileEndings();  // "csv, svg", for messages

// SVG 1.1, A4 wide, a user unit a millimetre; a plot a surface, one below another: height (µm) over length along the
// surface (mm) with the mean line, the sampling lengths and the cut-off, what cut it, Ra, Rz and Rt, and f²/8r beside
// them where it holds. Both scales are round and said. Line styles tell things apart, colours (of Okabe and Ito) only
// help. Where there are no figures the reason stands in the plot's place.
std::string finishPlot(const Trial& trial, const std::vector<FinishReport>& reports);

}  // namespace firstoff
