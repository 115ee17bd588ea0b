#include "sim/output/gauge_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/inspection/correction_words.h"
#include "sim/inspection/size_limits.h"
#include "sim/output/table_figures.h"
#include "sim/output/tables.h"

namespace firstoff {

namespace {

using Kind = WantedDimension::Kind;
using State = GaugedDimension::State;

// Less is not told: sizes have three places.
constexpr double kToldLeast = 0.0005;

bool isAngle(const GaugedDimension& d) {
    return d.wanted.kind == Kind::Taper;
}

double shown(const GaugedDimension& d, double value) {
    return isAngle(d) ? degrees(value) : value;
}

const char* inWords(State state) {
    switch (state) {
        case State::Within:
            return tr("within");
        case State::TooSmall:
            return tr("TOO SMALL");
        case State::TooLarge:
            return tr("TOO LARGE");
        case State::NotFound:
            return tr("not gauged");
    }
    return "";
}

std::string stationOf(const Trial& trial, const GaugedDimension& d) {
    if (d.toolIndex < 0) return {};
    return fmt::format("T{}", trial.setup.tools[static_cast<std::size_t>(d.toolIndex)].station);
}

std::string lineOf(const Trial& trial, const GaugedDimension& d) {
    if (d.block == kNoBlock) return {};
    return trial.program.lineName(d.block);
}

std::string inQuotes(std::string_view text) {
    std::string result;
    for (char c : text) {
        if (c == '"') result.push_back('"');
        result.push_back(c);
    }
    return fmt::format("\"{}\"", result);
}

// A drawing or a finishing cycle was named for the outline, whatever came of it.
bool outlineWanted(const Trial& trial) {
    return !trial.setup.wanted.file.empty() || trial.setup.wanted.line.has_value();
}

class Table {
public:
    explicit Table(const Trial& trial) : trial_(trial), g_(trial.gauged) {}

    std::string run() {
        if (!trial_.setup.wanted.given()) {
            return tr("The set-up gives no drawing: add [drawing] or [[dimension]], see assets/set-up-keys.md.\n");
        }
        if (!g_.dimensions.empty()) dimensions();
        corrections();
        outline();
        for (const std::string& entry : g_.assumed) add("  {}\n", entry);
        return std::move(text_);
    }

private:
    template <typename... Args>
    void add(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(text_), format, std::forward<Args>(args)...);
    }

    void dimensions() {
        std::size_t width = 9;
        for (const GaugedDimension& d : g_.dimensions) width = std::max(width, widthOf(d.name));
        for (const GaugedDimension& d : g_.dimensions)
            bendingWidth_ = std::max(bendingWidth_, widthOf(bendingInWords(d)));
        add("  no  {}  {:>10}  {:>10}  {:>10}  {:>{}}  {:>10}  {:<10}  {:<9}  {:<4}  {}\n",
            padded(tr("dimension"), width), tr("least"), tr("most"), tr("by path"), tr("bending"), bendingWidth_,
            tr("expected"), "", tr("line"), tr("tool"), tr("alone it wants"));
        for (std::size_t i = 0; i < g_.dimensions.size(); ++i) row(i + 1, g_.dimensions[i], width);
        text_ += '\n';
    }

    void figure(const std::string& text, std::size_t width) {
        add("{:{}}{}  ", "", width - std::min<std::size_t>(width, widthOf(text)), text);
    }

    void row(std::size_t number, const GaugedDimension& d, std::size_t width) {
        add("  {:>2}  {}  ", number, padded(d.name, width));
        for (double value : {d.least, d.most}) figure(d.limited ? sizeInWords(d, value) : "-", 10);
        if (d.state == State::NotFound) {
            text_ += say("not gauged: {}\n", d.trouble);
            return;
        }
        figure(sizeInWords(d, d.measured), 10);
        figure(bendingInWords(d), bendingWidth_);
        figure(sizeInWords(d, d.expected()), 10);
        add("{:<10}  {:<9}  {:<4}  {}\n", inWords(d.state), lineOf(trial_, d), stationOf(trial_, d), wish(d));
        const std::string indent(6 + width + 2, ' ');
        if (const std::string ends = endsInWords(trial_, d); !ends.empty()) add("{}{}\n", indent, ends);
        if (!d.bendingNote.empty() && g_.bendingKnown)
            text_ += say("{}bending not counted: {}\n", indent, d.bendingNote);
    }

    static std::string wish(const GaugedDimension& d) {
        if (!d.wish) return d.state == State::Within ? std::string() : d.noCorrection;
        return say("{:+.3f} in {} of offset {}", d.wish->amountMm, d.wish->inX ? 'X' : 'Z', d.wish->offset);
    }

    void corrections() {
        if (g_.dimensions.empty()) return;
        if (g_.corrections.empty()) {
            text_ += tr("  Key in: nothing.\n");
            return;
        }
        text_ += tr("  Key in, X on diameter, once for each offset and axis:\n");
        for (const OffsetCorrection& c : g_.corrections) {
            add("    {}\n", correctionInWords(g_, c));
            const std::string also = alsoMovedInWords(g_, c, sectionDatum(trial_));
            if (!also.empty()) add("      {}\n", also);
        }
        text_ += '\n';
    }

    void outline() {
        if (g_.outline.empty()) {
            if (outlineWanted(trial_)) text_ += tr("  Outline: not compared; `firstoff check` says why.\n");
            return;
        }
        const double datumZ = sectionDatum(trial_).z;
        if (g_.deviations.empty()) {
            text_ += say("  Outline: the part lies on it, within {:g} mm.\n", g_.deviationBandMm);
        } else {
            text_ += g_.deviations.size() == 1
                         ? say("  Outline: {} stretch beyond {:g} mm:\n", g_.deviations.size(), g_.deviationBandMm)
                         : say("  Outline: {} stretches beyond {:g} mm:\n", g_.deviations.size(), g_.deviationBandMm);
        }
        for (const ContourDeviation& d : g_.deviations) {
            const double amount = std::abs(d.amountMm), x = 2 * d.place.r, z = d.place.z - datumZ;
            text_ += d.amountMm > 0 ? say("    {:.3f} mm left, most at X{:.3f} Z{:.3f}", amount, x, z)
                                    : say("    {:.3f} mm missing, most at X{:.3f} Z{:.3f}", amount, x, z);
            if (d.block != kNoBlock) text_ += ", " + trial_.program.lineName(d.block);
            text_ += '\n';
        }
    }

    const Trial& trial_;
    const GaugedPart& g_;
    std::size_t bendingWidth_ = 9;
    std::string text_;
};

}  // namespace

const char* name(State state) {
    switch (state) {
        case State::Within:
            return "within";
        case State::TooSmall:
            return "too-small";
        case State::TooLarge:
            return "too-large";
        case State::NotFound:
            return "not-found";
    }
    return "";
}

const char* stateInWords(State state) {
    switch (state) {
        case State::Within:
            return tr("within");
        case State::TooSmall:
            return tr("too small");
        case State::TooLarge:
            return tr("too large");
        case State::NotFound:
            return tr("not found");
    }
    return "";
}

std::string bendingInWords(const GaugedDimension& d) {
    if (std::isnan(d.bending)) return tr("not known");
    return std::abs(shown(d, d.bending)) < kToldLeast
               ? "0"
               : fmt::format("{:+.3f}{}", shown(d, d.bending), isAngle(d) ? "°" : "");
}

std::string endsInWords(const Trial& trial, const GaugedDimension& d) {
    if (d.state == State::NotFound || d.largest.size - d.smallest.size < kToldLeast) return {};
    const double datum = sectionDatum(trial).z;
    return say("from {} at Z{:.3f} to {} at Z{:.3f} along it", sizeInWords(d, d.smallest.size),
               d.smallest.place.z - datum, sizeInWords(d, d.largest.size), d.largest.place.z - datum);
}

std::string sizeInWords(const GaugedDimension& dimension, double size) {
    if (std::isnan(size)) return "-";
    return fmt::format("{:.3f}{}", shown(dimension, size), isAngle(dimension) ? "°" : "");
}

const char* name(Kind kind) {
    switch (kind) {
        case Kind::Diameter:
            return "diameter";
        case Kind::Length:
            return "length";
        case Kind::Taper:
            return "taper";
        case Kind::Radius:
            return "radius";
        case Kind::Chamfer:
            return "chamfer";
        case Kind::GrooveWidth:
            return "groove-width";
        case Kind::Thread:
            return "thread";
        case Kind::RunOut:
            return "run-out";
    }
    return "";
}

std::string gaugeTable(const Trial& trial) {
    return Table(trial).run();
}

std::string gaugeRows(const Trial& trial) {
    std::string text =
        "number,name,kind,least,most,simulated,bending,expected,unit,state,line,tool,"
        "alone_offset,alone_axis,alone_mm,why\n";
    for (std::size_t i = 0; i < trial.gauged.dimensions.size(); ++i) {
        const GaugedDimension& d = trial.gauged.dimensions[i];
        const bool found = d.state != State::NotFound;
        text += fmt::format("{},{},{},", i + 1, inQuotes(nameOf(d.wanted, later)), name(d.wanted.kind));
        for (double value : {d.least, d.most}) {
            if (d.limited) appendTableFigure(text, shown(d, value));
            text += ',';
        }
        for (double value : {d.measured, d.bending, d.expected()}) {
            if (found) appendTableFigure(text, shown(d, value));
            text += ',';
        }
        text += fmt::format("{},{},", isAngle(d) ? "deg" : "mm", name(d.state));
        if (d.block != kNoBlock) text += std::to_string(trial.program.lineOf(d.block));
        text += ',';
        if (d.toolIndex >= 0) {
            text += std::to_string(trial.setup.tools[static_cast<std::size_t>(d.toolIndex)].station);
        }
        if (d.wish) {
            text += fmt::format(",{},{},", d.wish->offset, d.wish->inX ? 'X' : 'Z');
            appendTableFigure(text, d.wish->amountMm);
        } else {
            text += ",,,";
        }
        const std::string& why = !found ? d.trouble : d.noCorrection.empty() ? d.bendingNote : d.noCorrection;
        text += fmt::format(",{}\n", why.empty() ? why : inQuotes(why));
    }
    return text;
}

std::string gaugeSummary(const Trial& trial) {
    const GaugedPart& g = trial.gauged;
    if (!trial.setup.wanted.given()) return {};
    const auto within = std::count_if(g.dimensions.begin(), g.dimensions.end(),
                                      [](const GaugedDimension& d) { return d.state == State::Within; });
    std::string text = "  " + reportLabel(tr("drawing"));
    if (!g.dimensions.empty()) {
        const std::size_t all = g.dimensions.size();
        text += g.bendingKnown ? say("{} of {} dimensions within their limits (bending counted)", within, all)
                               : say("{} of {} dimensions within their limits (bending not known)", within, all);
    }
    std::string outline;
    if (!g.outline.empty()) {
        outline = g.deviations.empty() ? say("outline met within {:g} mm", g.deviationBandMm)
                                       : say("outline not met at {} places", g.deviations.size());
    } else if (outlineWanted(trial)) {
        outline = tr("outline not compared");
    }
    if (!g.dimensions.empty() && !outline.empty()) text += ", ";
    return text + outline + tr("; `firstoff gauge` lists them\n");
}

}  // namespace firstoff
