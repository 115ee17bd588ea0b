#include "sim/output/holding_report.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "sim/base/say.h"
#include "sim/output/clearance_report.h"
#include "sim/output/table_figures.h"

namespace firstoff {

namespace {

using Json = nlohmann::ordered_json;

Json rounded(double value) {
    if (!std::isfinite(value)) return nullptr;
    const double result = std::round(value * 1e6) / 1e6;
    return result == 0 ? 0.0 : result;
}

double kilo(double n) {
    return n / 1000;
}

std::string toolWord(const Trial& trial, std::uint32_t timedMove) {
    const ToolCall& call = trial.toolpath.calls[trial.toolpath.moves[trial.timeline.moves[timedMove].move].call];
    return firstoff::toolWord(call);
}

double workZ(const Trial& trial, const BentPlace& place) {
    return place.z - trial.toolpath.datumOf(trial.toolpath.moves[trial.timeline.moves[place.timedMove].move]).z;
}

void gripLines(const Trial& trial, std::vector<std::string>& lines) {
    const HoldingResult& h = trial.holding;
    if (h.grip) {
        lines.push_back(reportLabel(tr("grip")) + gripCutInWords(trial));
        for (const GripFigure& f : gripFigures(trial)) {
            lines.push_back(reportLabel("") + fmt::format("{} {} {}", f.label, f.value, f.unit));
        }
    }
    if (h.speed) {
        lines.push_back(reportLabel(tr("grip at speed")) +
                        say("{:.0f} % lost at the highest speed of {:.0f} rev/min; 67 % would be at "
                            "{:.0f} rev/min",
                            100 * h.speed->lossShare, h.speed->revPerMin, h.speed->permittedRevPerMin));
    }
    if (h.centre) {
        lines.push_back(reportLabel(tr("centre")) + say("pushed with {:.0f} N at most, by {} at line {}",
                                                        h.centre->pushN(), toolWord(trial, h.centre->timedMove),
                                                        lineOfMove(trial, h.centre->timedMove)));
    }
    if (h.grip || h.speed || h.centre) lines.emplace_back(reportLabel("") + tr(kGripCaution));
}

constexpr double kToldMm = 0.001;  // less is not told; + is larger

std::string errorInWords(double mm) {
    return fmt::format("{:+.3f}", std::abs(mm) < kToldMm / 2 ? 0.0 : mm);
}

void bendingLines(const Trial& trial, std::vector<std::string>& lines) {
    bool first = true;
    for (const ToolBending& b : trial.bending.tools) {
        if (!b.finishes) continue;
        const std::string lead = reportLabel(first ? tr("gives way") : "");
        const std::string tool = toolWord(trial, b.greatest.timedMove);
        if (std::abs(b.greatest.errorMm) < kToldMm) {
            lines.push_back(lead + say("{} leaves diameters off by less than 0.001 mm for that", tool));
        } else {
            lines.push_back(
                lead + say("{} leaves diameters {} mm off at Z{:.3f} (line {}), {} mm at Z{:.3f}{}", tool,
                           errorInWords(b.greatest.errorMm), workZ(trial, b.greatest),
                           lineOfMove(trial, b.greatest.timedMove), errorInWords(b.least.errorMm),
                           workZ(trial, b.least),
                           b.barShare > 0.5 ? say("; {:.0f} % of it by the bar", 100 * b.barShare) : std::string()));
        }
        first = false;
    }
}

void edgeLines(const Trial& trial, std::vector<std::string>& lines) {
    bool without = false, first = true;
    for (const EdgeUse& use : trial.edges) {
        const Tool& tool = trial.setup.tools[static_cast<std::size_t>(use.toolIndex)];
        if (!use.partsPerEdge) {
            without = true;
            continue;
        }
        std::string line = reportLabel(first ? tr("edges") : "") +
                           say("station {}: {:.2g} % of an edge, {:.0f} parts an edge", tool.station,
                               100 * use.share.value_or(0), std::floor(*use.partsPerEdge));
        if (use.partsPerInsert) line += say(", {:.0f} an insert", std::floor(*use.partsPerInsert));
        lines.push_back(line + say(" ({} in metal)", durationInWords(use.cuttingS)));
        first = false;
    }
    if (without && !first)
        lines.emplace_back(reportLabel("") + tr("the others: no taylor_n and taylor_c_m_per_min in the set-up"));
}

void assumedLines(const std::vector<std::string>& assumed, bool& first, std::vector<std::string>& lines) {
    for (const std::string& text : assumed) {
        lines.push_back(reportLabel(first ? tr("assumed") : "") + text);
        first = false;
    }
}

Json textList(const std::vector<std::string>& texts) {
    return texts;
}

Json gripObject(const Trial& trial, const GripEstimate& g) {
    return {{"tool", toolWord(trial, g.timedMove)},
            {"line", lineOfMove(trial, g.timedMove)},
            {"rev_per_min", rounded(g.revPerMin)},
            {"grip_diameter_mm", rounded(g.gripDiameterMm)},
            {"turning_n", rounded(g.turningN)},
            {"axial_push_n", rounded(g.axialPushN)},
            {"held_n", rounded(g.heldN)},
            {"friction", rounded(g.friction)},
            {"force_safety", rounded(g.forceSafety)},
            {"speed_safety", rounded(g.speedSafety)},
            {"needed_n", rounded(g.neededN)},
            {"lost_n", rounded(g.lostN)},
            {"left_n", rounded(g.leftN)},
            {"standing_n", rounded(g.standingN)},
            {"needed_standing_n", rounded(g.neededStandingN)},
            {"permitted_rev_per_min", g.permittedRevPerMin > 0 ? rounded(g.permittedRevPerMin) : Json()},
            {"holds", g.holds()}};
}

Json placeObject(const Trial& trial, const BentPlace& place) {
    return {{"error_mm", rounded(place.errorMm)},
            {"z_mm", rounded(workZ(trial, place))},
            {"line", lineOfMove(trial, place.timedMove)}};
}

}  // namespace

std::vector<GripFigure> gripFigures(const Trial& trial) {
    if (!trial.holding.grip) return {};
    const GripEstimate& g = *trial.holding.grip;
    const auto force = [](double n) { return fmt::format("{:.1f}", kilo(n)); };
    std::vector<GripFigure> figures = {{tr("Grip set, standing"), force(g.standingN), "kN"},
                                       {tr("Grip asked for, standing"), force(g.neededStandingN), "kN"},
                                       {tr("Grip left at that speed"), force(g.leftN), "kN"},
                                       {tr("Grip needed at that speed"), force(g.neededN), "kN"}};
    if (g.permittedRevPerMin > 0) {
        figures.push_back(
            {tr("Speed up to which it would hold"), fmt::format("{:.0f}", g.permittedRevPerMin), tr("rev/min")});
    }
    return figures;
}

std::string gripCutInWords(const Trial& trial) {
    if (!trial.holding.grip) return {};
    const GripEstimate& g = *trial.holding.grip;
    return say(
        "Asked most by {} in line {}, at {:.0f} rev/min: {:.0f} N to hold at Ø{:.2f}; friction {:.2f}, factors {:.1f} "
        "against the force and {:.1f} against the speed.",
        toolWord(trial, g.timedMove), lineOfMove(trial, g.timedMove), g.revPerMin, g.heldN, g.gripDiameterMm,
        g.friction, g.forceSafety, g.speedSafety);
}

std::vector<std::string> holdingLines(const Trial& trial) {
    std::vector<std::string> lines;
    gripLines(trial, lines);
    bendingLines(trial, lines);
    edgeLines(trial, lines);
    bool first = true;
    assumedLines(trial.holding.assumed, first, lines);
    if (trial.bending.known) assumedLines(trial.bending.assumed, first, lines);
    return lines;
}

Json holdingObject(const Trial& trial) {
    const HoldingResult& h = trial.holding;
    Json object;
    object["grip"] = h.grip ? gripObject(trial, *h.grip) : Json();
    object["tools"] = Json::array();
    for (const GripEstimate& g : h.byTool) object["tools"].push_back(gripObject(trial, g));
    object["speed"] = Json();
    if (h.speed) {
        object["speed"] = {{"rev_per_min", rounded(h.speed->revPerMin)},
                           {"loss_share", rounded(h.speed->lossShare)},
                           {"permitted_rev_per_min", rounded(h.speed->permittedRevPerMin)},
                           {"line", lineOfMove(trial, h.speed->timedMove)}};
    }
    object["centre"] = Json();
    if (h.centre) {
        object["centre"] = {{"push_n", rounded(h.centre->pushN())},
                            {"axial_n", rounded(h.centre->axialN)},
                            {"wedge_n", rounded(h.centre->wedgeN)},
                            {"line", lineOfMove(trial, h.centre->timedMove)}};
    }
    object["missing"] = textList(h.missing);
    object["assumed"] = textList(h.assumed);
    object["caution"] = tr(kGripCaution);
    return object;
}

Json bendingObject(const Trial& trial) {
    Json object;
    object["known"] = trial.bending.known;
    object["tools"] = Json::array();
    for (const ToolBending& b : trial.bending.tools) {
        const ToolCall& call = trial.toolpath.calls[b.call];
        object["tools"].push_back(
            {{"tool", firstoff::toolWord(call)},
             {"greatest", b.finishes ? placeObject(trial, b.greatest) : Json()},
             {"least", b.finishes ? placeObject(trial, b.least) : Json()},
             {"bar_share", b.finishes ? rounded(b.barShare) : Json()},
             {"bar_overhang_by_diameter", b.overhangRatio > 0 ? rounded(b.overhangRatio) : Json()}});
    }
    object["missing"] = textList(trial.bending.missing);
    object["assumed"] = textList(trial.bending.assumed);
    return object;
}

Json edgesObject(const Trial& trial) {
    const auto known = [](const std::optional<double>& value) { return value ? rounded(*value) : Json(); };
    Json list = Json::array();
    for (const EdgeUse& use : trial.edges) {
        list.push_back({{"station", trial.setup.tools[static_cast<std::size_t>(use.toolIndex)].station},
                        {"cutting_s", rounded(use.cuttingS)},
                        {"length_m", rounded(use.lengthM)},
                        {"greatest_m_per_min", rounded(use.greatestMPerMin)},
                        {"share", known(use.share)},
                        {"parts_per_edge", known(use.partsPerEdge)},
                        {"parts_per_insert", known(use.partsPerInsert)}});
    }
    return list;
}

}  // namespace firstoff
