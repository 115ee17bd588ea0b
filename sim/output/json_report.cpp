#include "sim/output/json_report.h"

#include <fmt/format.h>
#include <cmath>

#include <nlohmann/json.hpp>

#include "sim/base/units.h"
#include "sim/inspection/correction_words.h"
#include "sim/inspection/size_limits.h"
#include "sim/output/clearance_report.h"
#include "sim/output/gauge_report.h"
#include "sim/output/holding_report.h"
#include "sim/output/tables.h"
#include "sim/output/time_report.h"

namespace firstoff {

namespace {

using Json = nlohmann::ordered_json;

// Figures to a millionth: what lies below is rounding and would only make two reports look different.
Json rounded(double value) {
    if (!std::isfinite(value)) return nullptr;
    const double result = std::round(value * 1e6) / 1e6;
    return result == 0 ? 0.0 : result;
}

Json placeOf(const SourceSpan& span, std::uint32_t number) {
    return span.line == 0 ? Json(nullptr) : Json(number);
}

// The name of the file for one that the program calls.
Json fileOf(const Finding& finding, const Program& program) {
    if (finding.span.file == SourceSpan::File::Setup) return "setup";
    return finding.span.part == 0 ? "program" : program.parts[finding.span.part].name;
}

Json findingObject(const Finding& finding, const Program& program) {
    Json object;
    object["severity"] = name(finding.severity);
    object["code"] = finding.code;
    object["line"] = placeOf(finding.span, finding.span.line);
    object["column"] = placeOf(finding.span, finding.span.column);
    object["time_s"] = finding.timeS ? rounded(*finding.timeS) : Json(nullptr);
    object["message"] = finding.message;
    object["values"] = Json::object();
    for (const auto& [key, value] : finding.values) object["values"][key] = rounded(value);
    object["remedy"] = finding.remedy;
    object["file"] = fileOf(finding, program);
    object["unproven"] = finding.unproven;
    return object;
}

const std::string& bodyName(const Trial& trial, std::uint16_t body) {
    return trial.clearance.bodies->bodies[body].englishName;
}

// Null where nothing is met up to the limit.
Json marginObject(const Trial& trial, const Margin& margin) {
    if (margin.mm >= kMarginLimit) return nullptr;
    Json object;
    object["mm"] = rounded(margin.mm);
    object["line"] = lineOfMove(trial, margin.timedMove);
    object["body"] = bodyName(trial, margin.body);
    object["other"] = bodyName(trial, margin.other);
    return object;
}

Json marginsObject(const Trial& trial) {
    const Margins& margins = trial.clearance.margins;
    Json object;
    object["limit_mm"] = kMarginLimit;
    object["tools"] = Json::array();
    for (const ToolMargins& t : margins.tools) {
        object["tools"].push_back({{"station", t.station},
                                   {"x_out_radius", marginObject(trial, t.xLarger)},
                                   {"x_in_radius", marginObject(trial, t.xSmaller)},
                                   {"z_away", marginObject(trial, t.zAway)},
                                   {"z_toward", marginObject(trial, t.zToward)},
                                   {"overhang_less", marginObject(trial, t.overhangLess)},
                                   {"overhang_more", marginObject(trial, t.overhangMore)}});
    }
    object["stick_out_more"] = marginObject(trial, margins.setup.stickOutMore);
    object["stick_out_less"] = marginObject(trial, margins.setup.stickOutLess);
    object["datum_away"] = marginObject(trial, margins.setup.datumAway);
    object["datum_toward"] = marginObject(trial, margins.setup.datumToward);
    return object;
}

Json clearanceObject(const Trial& trial) {
    const ClearanceResult& c = trial.clearance;
    Json object;
    object["error_bound_mm"] = rounded(c.errorMm);
    object["encounters"] = Json::array();
    for (const Encounter& e : c.encounters) {
        object["encounters"].push_back({{"code", e.code},
                                        {"line", lineOfMove(trial, e.timedMove)},
                                        {"time_s", rounded(e.timeS)},
                                        {"body", bodyName(trial, e.body)},
                                        {"other", bodyName(trial, e.other)},
                                        {"gap_mm", rounded(e.gapMm)}});
    }
    object["margins"] = marginsObject(trial);
    object["pairs_checked"] = Json::array();
    for (const PairChecked& pair : c.pairs) {
        object["pairs_checked"].push_back({{"body", bodyName(trial, pair.body)},
                                           {"other", bodyName(trial, pair.other)},
                                           {"smallest_gap_mm", rounded(double{pair.gapMm})},
                                           {"exact", pair.exact},
                                           {"line", lineOfMove(trial, pair.timedMove)}});
    }
    object["not_modelled"] = c.notModelled;
    return object;
}

Json shareObject(const TimeShare& share) {
    Json object;
    for (std::size_t i = 0; i < kTimeKinds; ++i) {
        const auto kind = static_cast<TimeKind>(i);
        object[fmt::format("{}_s", name(kind))] = rounded(share.of(kind));
    }
    object["total_s"] = rounded(share.total());
    return object;
}

Json blockLine(const Trial& trial, BlockId block) {
    return block == kNoBlock ? Json(nullptr) : Json(trial.program.lineOf(block));
}

Json rowsObject(const Trial& trial, const std::vector<TimeRow>& rows) {
    Json list = Json::array();
    for (const TimeRow& row : rows) {
        Json object;
        object["name"] = row.plainName;
        object["line"] = blockLine(trial, row.block);
        object["station"] = row.station;
        object["seconds"] = shareObject(row.share);
        list.push_back(std::move(object));
    }
    return list;
}

Json timesObject(const Trial& trial) {
    Json object;
    object["cycle"] = shareObject(trial.time.whole);
    const auto parts = partsPerHour(trial);
    object["parts_per_hour"] = parts ? rounded(*parts) : Json(nullptr);
    object["tools"] = rowsObject(trial, trial.time.tools);
    object["operations"] = rowsObject(trial, trial.time.operations);
    object["could_be_saved"] = Json::array();
    for (const TimeWaste& waste : trial.time.wastes) {
        object["could_be_saved"].push_back(
            {{"kind", waste.kind == TimeWaste::Kind::AirCut ? "feed-in-air" : "long-retract"},
             {"line", blockLine(trial, waste.block)},
             {"seconds", rounded(waste.seconds)},
             {"way_mm", rounded(waste.lengthMm)},
             {"times", waste.times}});
    }
    object["taken"] = trial.time.assumed;
    return object;
}

// Angles in degrees, everything else in mm.
Json dimensionObject(const Trial& trial, const GaugedDimension& d) {
    const bool angle = d.wanted.kind == WantedDimension::Kind::Taper;
    const bool found = d.state != GaugedDimension::State::NotFound;
    const auto figure = [&](double v) { return found ? rounded(angle ? degrees(v) : v) : Json(nullptr); };
    Json object;
    object["name"] = nameOf(d.wanted, later);
    object["kind"] = name(d.wanted.kind);
    object["unit"] = angle ? "deg" : "mm";
    const auto limit = [&](double v) { return d.limited ? rounded(angle ? degrees(v) : v) : Json(nullptr); };
    object["least"] = limit(d.least);
    object["most"] = limit(d.most);
    object["simulated"] = figure(d.measured);
    object["bending"] = std::isnan(d.bending) ? Json(nullptr) : figure(d.bending);
    object["bending_note"] = d.bendingNote;
    object["expected"] = figure(d.expected());
    for (const auto& [key, at] : {std::pair("smallest", &d.smallest), std::pair("largest", &d.largest)}) {
        object[key] = nullptr;
        if (found) object[key] = {{"size", figure(at->size)}, {"z_mm", rounded(at->place.z - sectionDatum(trial).z)}};
    }
    object["state"] = name(d.state);
    object["line"] = d.block == kNoBlock ? Json(nullptr) : Json(trial.program.lineOf(d.block));
    object["station"] =
        d.toolIndex < 0 ? Json(nullptr) : Json(trial.setup.tools[static_cast<std::size_t>(d.toolIndex)].station);
    object["correction"] = nullptr;
    if (d.wish) {
        object["correction"] = {
            {"offset", d.wish->offset}, {"axis", d.wish->inX ? "X" : "Z"}, {"amount_mm", rounded(d.wish->amountMm)}};
    }
    object["why"] = found ? d.noCorrection : d.trouble;
    return object;
}

// Numbers of dimensions count from 1, as on the papers.
Json correctionObject(const Trial& trial, const OffsetCorrection& c) {
    Json object;
    object["offset"] = c.offset;
    object["axis"] = c.inX ? "X" : "Z";
    object["possible"] = c.possible;
    object["amount_mm"] = c.possible ? rounded(c.amountMm) : Json(nullptr);
    object["least_mm"] = rounded(c.leastMm);
    object["most_mm"] = rounded(c.mostMm);
    object["dimensions"] = Json::array();
    for (const OffsetCorrection::Suits& s : c.suits) {
        object["dimensions"].push_back(
            {{"number", s.dimension + 1}, {"least_mm", rounded(s.leastMm)}, {"most_mm", rounded(s.mostMm)}});
    }
    object["also_moves"] = Json::array();
    for (const std::size_t i : c.alsoMoves) object["also_moves"].push_back(i + 1);
    object["in_words"] = correctionInWords(trial.gauged, c);
    return object;
}

// Null where the set-up gives no drawing. Places in work coordinates, X as diameter.
Json gaugeObject(const Trial& trial) {
    const GaugedPart& g = trial.gauged;
    if (!trial.setup.wanted.given()) return nullptr;
    const double datumZ = sectionDatum(trial).z;
    Json object;
    object["piece"] = g.piece;
    object["dimensions"] = Json::array();
    for (const GaugedDimension& d : g.dimensions) object["dimensions"].push_back(dimensionObject(trial, d));
    object["bending_known"] = g.bendingKnown;
    object["corrections"] = Json::array();
    for (const OffsetCorrection& c : g.corrections) object["corrections"].push_back(correctionObject(trial, c));
    object["outline_compared"] = !g.outline.empty();
    object["band_mm"] = rounded(g.deviationBandMm);
    object["deviations"] = Json::array();
    for (const ContourDeviation& d : g.deviations) {
        object["deviations"].push_back(
            {{"amount_mm", rounded(d.amountMm)},
             {"x_mm", rounded(2 * d.place.r)},
             {"z_mm", rounded(d.place.z - datumZ)},
             {"line", d.block == kNoBlock ? Json(nullptr) : Json(trial.program.lineOf(d.block))}});
    }
    object["assumed"] = g.assumed;
    return object;
}

// Null where there is none: of forces, where the material is not known.
Json peakObject(const Trial& trial, const LoadPeak& peak, bool known) {
    if (!known || peak.value <= 0) return nullptr;
    const TimedMove& timed = trial.timeline.moves[peak.timedMove];
    Json object;
    object["value"] = rounded(double{peak.value});
    object["line"] = lineOfMove(trial, peak.timedMove);
    object["move_from_s"] = rounded(timed.t0);
    object["move_to_s"] = rounded(timed.t1);
    return object;
}

Json loadsObject(const Trial& trial) {
    const LoadResult& loads = trial.loads;
    Json object;
    object["forces_known"] = loads.forcesKnown;
    const Material& m = trial.setup.material;
    object["material"] =
        loads.forcesKnown
            ? Json({{"name", m.name}, {"kc11_n_per_mm2", rounded(m.kc11)}, {"mc", rounded(m.mc)}, {"source", m.source}})
            : Json(nullptr);
    object["tools"] = Json::array();
    for (const ToolLoad& t : loads.tools) {
        const ToolCall& call = trial.toolpath.calls[t.call];
        const bool known = loads.forcesKnown;
        Json tool;
        tool["station"] = call.station;
        tool["offset"] = call.offset;
        tool["removed_mm3"] = rounded(t.removedMm3);
        tool["energy_j"] = known ? rounded(t.energyJ) : Json(nullptr);
        tool["peaks"] = {{"cutting_force_n", peakObject(trial, t.cuttingN, known)},
                         {"torque_nm", peakObject(trial, t.torqueNm, known)},
                         {"power_kw", peakObject(trial, t.powerKw, known)},
                         {"chip_thickness_mm", peakObject(trial, t.thicknessMm, true)},
                         {"chip_area_mm2", peakObject(trial, t.chipAreaMm2, true)},
                         {"removal_mm3_per_s", peakObject(trial, t.removalMm3PerS, true)}};
        object["tools"].push_back(std::move(tool));
    }
    object["assumed"] = loads.assumed;
    object["not_reckoned"] = loads.notReckoned;
    return object;
}

Json reportObject(const Trial& trial) {
    Json object;
    object["format"] = "firstoff-report";
    object["version"] = 1;
    object["program"] = trial.program.name;
    object["setup"] = trial.setup.name;
    object["verdict"] = name(trial.verdict);
    object["cycle_time_s"] = rounded(trial.timeline.cycleTimeS);
    object["cutting_time_s"] = rounded(trial.cuttingTimeS);
    object["stock_volume_mm3"] = rounded(trial.stockVolumeMm3);
    object["removed_volume_mm3"] = rounded(trial.removedVolumeMm3);
    object["moves"] = trial.toolpath.moves.size();
    object["findings"] = Json::array();
    for (const Finding& finding : trial.findings) object["findings"].push_back(findingObject(finding, trial.program));
    object["not_checked"] = trial.notChecked;
    object["clearance"] = clearanceObject(trial);
    object["loads"] = loadsObject(trial);
    object["times"] = timesObject(trial);
    object["holding"] = holdingObject(trial);
    object["bending"] = bendingObject(trial);
    object["edges"] = edgesObject(trial);
    object["gauge"] = gaugeObject(trial);
    // The same in every build and for any number of threads; compare two builds with it.
    object["billet_hash"] = trial.stock ? Json(fmt::format("{:016x}", trial.stock->hash())) : Json();
    return object;
}

}  // namespace

std::string jsonReport(const std::vector<const Trial*>& trials) {
    Json report = Json::array();
    for (const Trial* trial : trials) report.push_back(reportObject(*trial));
    if (trials.size() == 1) report = Json(report.front());
    // Bytes of a program that are no UTF-8 are replaced rather than refused.
    return report.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace firstoff
