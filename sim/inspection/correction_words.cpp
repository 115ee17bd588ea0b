#include "sim/inspection/correction_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/say.h"

namespace firstoff {

namespace {

using State = GaugedDimension::State;
using Suits = OffsetCorrection::Suits;

constexpr std::size_t kMostSurfacesTold = 3;

// Ends of what suits, to a thousandth inwards, so that every figure told suits; to a ten-thousandth where there is
// nothing between them.
std::string rangeInWords(double least, double most) {
    constexpr double kSteps = 1000, kRounding = 1e-6;
    const double a = std::ceil(least * kSteps - kRounding) / kSteps, b = std::floor(most * kSteps + kRounding) / kSteps;
    if (a > b) return say("{:+.4f} to {:+.4f}", least, most);
    // + 0.0: no "-0.000".
    return say("{:+.3f} to {:+.3f}", a + 0.0, b + 0.0);
}

char axisOf(const OffsetCorrection& c) {
    return c.inX ? 'X' : 'Z';
}

std::vector<std::size_t> dimensionsOf(const OffsetCorrection& c) {
    std::vector<std::size_t> all;
    for (const Suits& suits : c.suits) all.push_back(suits.dimension);
    return all;
}

// Why nothing suits: one that no amount brings within, or the two that want most apart.
std::string conflictInWords(const GaugedPart& part, const OffsetCorrection& c) {
    const auto nameOf = [&](const Suits& s) { return part.dimensions[s.dimension].name; };
    for (const Suits& s : c.suits) {
        if (s.leastMm <= s.mostMm) continue;
        const GaugedDimension& d = part.dimensions[s.dimension];
        return say("{} differs by {:.3f} mm along its surface, and its limits are {:.3f} mm apart", nameOf(s),
                   d.largest.size - d.smallest.size, d.most - d.least);
    }
    const auto low =
        std::min_element(c.suits.begin(), c.suits.end(), [](auto& a, auto& b) { return a.mostMm < b.mostMm; });
    const auto high =
        std::max_element(c.suits.begin(), c.suits.end(), [](auto& a, auto& b) { return a.leastMm < b.leastMm; });
    if (low == high || low->mostMm >= high->leastMm) {
        return say("what would do lies between {}, less than the offset page can be keyed to",
                   rangeInWords(c.leastMm, c.mostMm));
    }
    return say("{} wants {}, {} wants {}", nameOf(*low), rangeInWords(low->leastMm, low->mostMm), nameOf(*high),
               rangeInWords(high->leastMm, high->mostMm));
}

std::string keyedIn(const OffsetCorrection& c) {
    return say("put {:+.3f} in {} of offset {}, added to what stands there", c.amountMm, axisOf(c), c.offset);
}

std::string impossible(const GaugedPart& part, const OffsetCorrection& c) {
    return c.suits.size() == 1 ? say("offset {} cannot meet its dimension in {}: {}. Correct the program.", c.offset,
                                     axisOf(c), conflictInWords(part, c))
                               : say("offset {} cannot meet all its dimensions in {}: {}. Correct the program.",
                                     c.offset, axisOf(c), conflictInWords(part, c));
}

std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

}  // namespace

std::string numbersInWords(const std::vector<std::size_t>& dimensions) {
    std::string text;
    for (std::size_t i = 0; i < dimensions.size(); ++i) {
        const std::string number = std::to_string(dimensions[i] + 1);
        const bool last = i + 1 == dimensions.size();
        text = i == 0 ? number : last ? say("{} and {}", text, number) : fmt::format("{}, {}", text, number);
    }
    return text;
}

std::string correctionInWords(const GaugedPart& part, const OffsetCorrection& c) {
    if (!c.possible) return capital(impossible(part, c));
    const bool one = c.suits.size() == 1;
    const bool out = std::any_of(c.suits.begin(), c.suits.end(),
                                 [&](const Suits& s) { return part.dimensions[s.dimension].state != State::Within; });
    const std::string numbers = numbersInWords(dimensionsOf(c));
    if (!out) {
        return say("Nothing of offset {} is out in {}. {:+.3f} brings No. {} nearest to the middle.", c.offset,
                   axisOf(c), c.amountMm, numbers);
    }
    const std::string range = rangeInWords(c.leastMm, c.mostMm);
    return capital(one ? say("{}: No. {} is then within its limits ({} does it).", keyedIn(c), numbers, range)
                       : say("{}: No. {} are then within their limits ({} does it).", keyedIn(c), numbers, range));
}

// Dimensions that path and tool make, cut by a tool of that offset: where another one cut beside them, they change.
std::vector<std::size_t> mayChange(const GaugedPart& part, const OffsetCorrection& c) {
    std::vector<std::size_t> result;
    for (std::size_t i = 0; i < part.dimensions.size(); ++i) {
        const GaugedDimension& d = part.dimensions[i];
        const bool byPath = d.wanted.kind == WantedDimension::Kind::Chamfer ||
                            d.wanted.kind == WantedDimension::Kind::Radius ||
                            d.wanted.kind == WantedDimension::Kind::Taper;
        if (!byPath || d.toolIndex < 0 || d.state == State::NotFound) continue;
        if (std::any_of(c.suits.begin(), c.suits.end(),
                        [&](const Suits& s) { return part.dimensions[s.dimension].toolIndex == d.toolIndex; })) {
            result.push_back(i);
        }
    }
    return result;
}

std::string alsoMovedInWords(const GaugedPart& part, const OffsetCorrection& c, Point datum) {
    std::string text;
    if (!c.alsoMoves.empty()) text = say("No. {}, reckoned with", numbersInWords(c.alsoMoves));
    for (std::size_t i = 0; i < std::min(c.without.size(), kMostSurfacesTold); ++i) {
        const Point a = c.without[i].from - datum, b = c.without[i].to - datum;
        text += text.empty() ? tr("without a dimension ") : i == 0 ? tr("; without a dimension ") : ", ";
        if (!c.inX) {
            text += say("the face at Z{:.3f}", a.z);
        } else if (std::abs(a.r - b.r) < 0.0005) {
            text += say("Ø{:.3f} from Z{:.3f} to Z{:.3f}", 2 * a.r, std::max(a.z, b.z), std::min(a.z, b.z));
        } else {
            text += say("the cone from Z{:.3f} to Z{:.3f}", std::max(a.z, b.z), std::min(a.z, b.z));
        }
    }
    if (c.without.size() > kMostSurfacesTold) {
        text += say(" and {} more", c.without.size() - kMostSurfacesTold);
    }
    if (!text.empty()) text = say("Moves as well: {}.", text);
    if (const auto others = mayChange(part, c); !others.empty()) {
        if (!text.empty()) text += ' ';
        text += others.size() == 1
                    ? say("No. {} is cut by the same tool and may change: gauge again.", numbersInWords(others))
                    : say("No. {} are cut by the same tool and may change: gauge again.", numbersInWords(others));
    }
    return text;
}

std::string correctionInWords(const GaugedPart& part, const GaugedDimension& d) {
    if (d.state == State::NotFound) return {};
    if (!d.noCorrection.empty()) return say("No offset for {}: {}.", d.name, d.noCorrection);
    if (d.moves.empty()) return {};
    const OffsetMove& move = d.moves.front();
    for (const OffsetCorrection& c : part.corrections) {
        if (c.offset != move.offset || c.inX != move.inX) continue;
        if (!c.possible) return capital(impossible(part, c));
        if (c.suits.size() == 1) {
            return say("To bring {} to the middle of its limits, {}.", d.name, keyedIn(c));
        }
        return say("{}: that suits all {} dimensions that hang on it.", capital(keyedIn(c)), c.suits.size());
    }
    return {};
}

}  // namespace firstoff
