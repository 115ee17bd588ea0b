#include "sim/output/load_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <map>
#include <vector>

#include "sim/base/say.h"
#include "sim/output/clearance_report.h"
#include "sim/output/table_figures.h"
#include "sim/setup/material_table.h"

namespace firstoff {

namespace {

std::string nameOf(const Trial& trial, const ToolLoad& load) {
    const ToolCall& call = trial.toolpath.calls[load.call];
    return toolWord(call);
}

std::string atLine(const Trial& trial, const LoadPeak& peak) {
    if (peak.value <= 0) return "-";
    const std::uint32_t line = lineOfMove(trial, peak.timedMove);
    return line > 0 ? fmt::format("{}", line) : "-";
}

// cm3/min, as turners reckon it.
double perMinute(float mm3PerS) {
    return double{mm3PerS} * 60 / 1000;
}

std::string materialInWords(const Material& m) {
    return say("{}, kc1.1 {:g} N/mm², mc {:g}", m.name.empty() ? tr("material of the set-up") : m.name, m.kc11, m.mc);
}

double timeOf(const Trial& trial, std::uint32_t timedMove, double fraction) {
    const TimedMove& timed = trial.timeline.moves[timedMove];
    double before = timed.t0, after = timed.t1;
    for (int i = 0; i < 40; ++i) {
        const double middle = (before + after) / 2;
        (fractionAt(timed, trial.toolpath, trial.setup, middle) < fraction ? before : after) = middle;
    }
    return (before + after) / 2;
}

class SampleRows {
public:
    explicit SampleRows(const Trial& trial) : trial_(trial) {}

    std::string run() {
        text_ =
            "line,tool,time_s,x_mm,z_mm,chip_area_mm2,width_mm,depth_mm,thickness_mm,force_n,force_most_n,force_z_n,"
            "force_x_n,torque_nm,power_kw,removal_mm3_per_s,mean\n";
        for (const LoadRun& load : trial_.loads.runs) {
            for (std::uint32_t i = 0; i < load.count; ++i) row(load, trial_.loads.samples[load.first + i]);
        }
        return std::move(text_);
    }

private:
    void row(const LoadRun& load, const LoadSample& s) {
        const Move& move = trial_.toolpath.moves[trial_.timeline.moves[load.timedMove].move];
        const Point datum = trial_.toolpath.datumOf(move);
        const std::uint32_t line = lineOfMove(trial_, load.timedMove);
        text_ += line > 0 ? fmt::format("{},", line) : ",";
        text_ += fmt::format("{}", trial_.toolpath.calls[move.call].station);
        cells({timeOf(trial_, load.timedMove, double{s.fraction}), 2 * (double{s.atR} - datum.r),
               double{s.atZ} - datum.z, double{s.chipAreaMm2}, double{s.widthMm}, double{s.depthMm},
               double{s.thicknessMm}});
        if (trial_.loads.forcesKnown) {
            cells({double{s.cuttingN}, double{s.cuttingMostN}, double{s.forceZN}, double{s.forceRN}, double{s.torqueNm},
                   double{s.powerKw}});
        } else {
            text_ += ",,,,,,";
        }
        cells({double{s.removalMm3PerS}});
        text_ += load.mean ? ",1\n" : ",0\n";
    }

    void cells(std::initializer_list<double> values) {
        for (double value : values) {
            text_ += ',';
            appendTableFigure(text_, value);
        }
    }

    const Trial& trial_;
    std::string text_;
};

// Words set into lines of a terminal.
void appendSentences(std::string& text, const char* heading, const std::vector<std::string>& sentences) {
    constexpr std::size_t kWidth = 96;
    if (sentences.empty()) return;
    text += fmt::format("\n{}\n", heading);
    for (const std::string& sentence : sentences) {
        std::string line = "  -";
        for (std::size_t begin = 0; begin < sentence.size();) {
            const std::size_t end = std::min(sentence.find(' ', begin), sentence.size());
            const std::string word = sentence.substr(begin, end - begin);
            if (line.size() + 1 + word.size() > kWidth) {
                text += line + '\n';
                line = "   ";
            }
            line += ' ' + word;
            begin = end + 1;
        }
        text += line + '\n';
    }
}

}  // namespace

std::string loadSummary(const Trial& trial) {
    const LoadResult& loads = trial.loads;
    if (loads.tools.empty()) return {};
    std::string text = tr("\n  Load at the cut, the greatest of each tool");
    if (!loads.forcesKnown) {
        text += tr(" (no forces: what the bar is made of is not known):\n");
        text += tr("    tool    chip area   thickness   removal       metal       line\n");
        for (const ToolLoad& t : loads.tools) {
            text += fmt::format("    {:<6}  {:>5.3f} mm²  {:>6.3f} mm  {:>6.1f} cm³/min  {:>7.2f} cm³  {:>4}\n",
                                nameOf(trial, t), t.chipAreaMm2.value, t.thicknessMm.value,
                                perMinute(t.removalMm3PerS.value), t.removedMm3 / 1000, atLine(trial, t.chipAreaMm2));
        }
        return text;
    }
    text += fmt::format(" ({}):\n", materialInWords(trial.setup.material));
    text += tr("    tool    force     torque      power     chip       removal       energy    line of most power\n");
    for (const ToolLoad& t : loads.tools) {
        text += fmt::format(
            "    {:<6}  {:>5.0f} N  {:>6.1f} N m  {:>5.2f} kW  {:>5.3f} mm  {:>6.1f} cm³/min  {:>6.1f} kJ  {:>4}\n",
            nameOf(trial, t), t.cuttingN.value, t.torqueNm.value, t.powerKw.value, t.thicknessMm.value,
            perMinute(t.removalMm3PerS.value), t.energyJ / 1000, atLine(trial, t.powerKw));
    }
    text += tr("    Estimates of sharp edges; `firstoff loads` says what was taken for granted.\n");
    return text;
}

std::string loadTable(const Trial& trial) {
    const LoadResult& loads = trial.loads;
    std::string text = say("{} on {}: load at the cut, the greatest of each tool and the line it is at\n",
                           trial.program.name, trial.setup.name);
    if (loads.tools.empty()) text += tr("\nNothing was cut at feed.\n");
    if (loads.forcesKnown)
        text += fmt::format("{} ({})\n", materialInWords(trial.setup.material), trial.setup.material.source);
    for (const ToolLoad& t : loads.tools) {
        const std::string& tool = trial.setup.tools[static_cast<std::size_t>(t.toolIndex)].name;
        text += fmt::format("\n{} {}\n", nameOf(trial, t), tool);
        const auto row = [&](const char* what, double value, const char* unit, const LoadPeak& peak) {
            text += fmt::format("  {:<18}{:>10} {:<8} {}\n", what, tableFigure(value), unit,
                                say("line {}", atLine(trial, peak)));
        };
        const auto to = [](double value, double step) { return std::round(value / step) * step; };
        if (loads.forcesKnown) {
            row(tr("cutting force"), to(double{t.cuttingN.value}, 1), "N", t.cuttingN);
            row(tr("torque"), to(double{t.torqueNm.value}, 0.1), "N m", t.torqueNm);
            row(tr("power at the cut"), to(double{t.powerKw.value}, 0.01), "kW", t.powerKw);
        }
        row(tr("chip area"), to(double{t.chipAreaMm2.value}, 0.001), "mm²", t.chipAreaMm2);
        row(tr("chip thickness"), to(double{t.thicknessMm.value}, 0.001), "mm", t.thicknessMm);
        row(tr("removal rate"), to(perMinute(t.removalMm3PerS.value), 0.1), "cm³/min", t.removalMm3PerS);
        text += fmt::format("  {:<18}{:>10} cm³\n", tr("metal"), tableFigure(to(t.removedMm3 / 1000, 0.001)));
        if (loads.forcesKnown)
            text += fmt::format("  {:<18}{:>10} kJ\n", tr("energy"), tableFigure(to(t.energyJ / 1000, 0.1)));
    }
    appendSentences(text, tr("Taken for granted:"), loads.assumed);
    appendSentences(text, tr("Not reckoned:"), loads.notReckoned);
    return text;
}

std::string loadSamples(const Trial& trial) {
    return SampleRows(trial).run();
}

std::string materialList() {
    std::string text =
        tr("Materials that [stock] material may name, capitals aside. kc = kc1.1 h^-mc (Kienzle), h in mm. What is "
           "marked\n"
           "`memory` was not opened at its source; *_mapping: the figures were, that they hold for this name was "
           "not.\n\n");
    text += fmt::format("{:<38} {:<4} {:>6} {:>5} {:>6} {:>6}  {}\n", tr("name"), "ISO", "kc1.1", "mc", "E GPa",
                        "kg/dm3", tr("status; what; other names"));
    std::map<std::string, int> sources;
    std::vector<std::string> listed;
    const auto numberOf = [&](const std::string& source) {
        const auto [at, isNew] = sources.emplace(source, static_cast<int>(sources.size()) + 1);
        if (isNew) listed.push_back(source);
        return at->second;
    };
    for (const MaterialRow& row : materialTable()) {
        const Material& m = row.material;
        std::string more = row.status;
        if (row.lacksExponent) more += tr(", no exponent: not usable alone");
        for (const std::string& part : {row.what, row.condition}) {
            if (!part.empty() && part != m.name) more += "; " + part;
        }
        if (!row.hardness.empty()) more += fmt::format(", {} HB", row.hardness);
        std::string names;
        for (const std::string& other : row.otherNames) names += names.empty() ? other : ", " + other;
        if (!names.empty()) more += "; " + names;
        more += fmt::format(" [{}", numberOf(sourceInWords(row)));
        if (!m.youngSource.empty()) more += fmt::format(", E {}", numberOf(m.youngSource));
        if (!row.densitySource.empty()) more += say(", density {}", numberOf(row.densitySource));
        more += ']';
        const auto figure = [](double value) { return value > 0 ? tableFigure(value) : std::string("-"); };
        text += fmt::format("{:<38} {:<4} {:>6} {:>5} {:>6} {:>6}  {}\n", m.name, m.group, figure(m.kc11), figure(m.mc),
                            figure(m.youngGPa), figure(m.densityKgPerDm3), more);
        if (!row.note.empty() && !row.note.starts_with("VDI 3323 group") && !row.note.starts_with("classic table")) {
            text += fmt::format("{:<38} {}\n", "", row.note);
        }
    }
    text += tr("\nSources:\n");
    for (std::size_t i = 0; i < listed.size(); ++i) text += fmt::format("[{}] {}\n", i + 1, listed[i]);
    return text;
}

}  // namespace firstoff
