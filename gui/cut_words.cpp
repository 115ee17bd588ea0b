#include "gui/cut_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/say.h"

namespace firstoff::gui {

std::vector<std::string> loadWords(const Trial& trial, const LoadSample& load, Measures measures) {
    std::vector<std::string> words;
    if (trial.loads.forcesKnown) {
        words.push_back(say("power at the cut {:.2f} kW, torque {:.1f} N\u00b7m", load.powerKw, load.torqueNm));
        words.push_back(say("cutting force {:.0f} N", load.cuttingN));
    }
    words.push_back(
        say("chip {}, {} thick", told(measures.chipArea(load.chipAreaMm2)), told(measures.length(load.thicknessMm))));
    words.push_back(told(measures.removalRate(load.removalMm3PerS)));
    if (!trial.loads.forcesKnown) words.push_back(tr("forces: the material is not known"));
    return words;
}

std::vector<std::string> gripWords(const Trial& trial, double share) {
    const double standing = trial.setup.chuck.gripForceN / 1000;
    std::vector<std::string> words;
    if (share > kMostGripShare) {
        words.push_back(say("this cut asks for many times the grip of {:.1f} kN", standing));
    } else {
        words.push_back(say("grip asked for, standing still, safety included: {:.1f} kN", share * standing));
        words.push_back(say("grip of the set-up {:.1f} kN: {:.0f} % of it", standing, 100 * share));
    }
    words.push_back(tr("an estimate: the chuck maker\'s chart decides"));
    return words;
}

std::vector<std::string> bendingWords(const BendingSample& bend, Measures measures) {
    std::vector<std::string> words;
    if (std::isnan(bend.diameterErrorMm)) return {tr("how far it gives way is not known here")};
    words.push_back(say("diameter error from giving way {}", told(measures.smallLength(bend.diameterErrorMm))));
    words.push_back(say("part {}", told(measures.smallLength(bend.partMm))));
    if (bend.barMm != 0) words.push_back(say("bar {}", told(measures.smallLength(bend.barMm))));
    return words;
}

std::string callTitle(const Trial& trial, std::uint32_t call) {
    const ToolCall& c = trial.toolpath.calls[call];
    std::string title = toolWord(c);
    if (c.toolIndex >= 0) title += " " + trial.setup.tools[static_cast<std::size_t>(c.toolIndex)].name;
    return title;
}

}  // namespace firstoff::gui
