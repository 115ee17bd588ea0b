#include "gui/cut_words.h"

#include <fmt/format.h>

namespace firstoff::gui {

std::vector<std::string> loadWords(const Trial& trial, const LoadSample& load) {
    constexpr double kCm3PerMin = 60.0 / 1000;
    std::vector<std::string> words;
    if (trial.loads.forcesKnown) {
        words.push_back(fmt::format("power at the cut {:.2f} kW, torque {:.1f} N\u00b7m", load.powerKw, load.torqueNm));
        words.push_back(fmt::format("cutting force {:.0f} N", load.cuttingN));
    }
    words.push_back(fmt::format("chip {:.3f} mm\u00b2, {:.3f} mm thick", load.chipAreaMm2, load.thicknessMm));
    words.push_back(fmt::format("{:.1f} cm\u00b3/min", load.removalMm3PerS * kCm3PerMin));
    if (!trial.loads.forcesKnown) words.push_back("forces: the material is not known");
    return words;
}

std::string callTitle(const Trial& trial, std::uint32_t call) {
    const ToolCall& c = trial.toolpath.calls[call];
    std::string title = toolWord(c);
    if (c.toolIndex >= 0) title += " " + trial.setup.tools[static_cast<std::size_t>(c.toolIndex)].name;
    return title;
}

}  // namespace firstoff::gui
