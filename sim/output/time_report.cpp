#include "sim/output/time_report.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/table_figures.h"

namespace firstoff {

namespace {

constexpr std::size_t kNameWidth = 30;
constexpr std::size_t kMostWastes = 10;

std::array<TimeKind, kTimeKinds> kinds() {
    return {TimeKind::Cutting, TimeKind::Air,   TimeKind::Rapid, TimeKind::Index,
            TimeKind::Spindle, TimeKind::Dwell, TimeKind::Other};
}

// Of what a program or set-up has as text, what a terminal can show; cut off at a width counted in characters.
std::string shownName(const std::string& name) {
    std::string shown;
    std::size_t characters = 0;
    for (char c : name) {
        const auto byte = static_cast<unsigned char>(c);
        const bool continues = (byte & 0xC0u) == 0x80u;
        if (!continues && characters == kNameWidth) break;
        characters += continues ? 0 : 1;
        shown += byte < 0x20 || byte == 0x7f ? '?' : c;
    }
    return shown + std::string(kNameWidth - std::min(kNameWidth, characters), ' ');
}

// Of each kind of time, by its name in the language in use.
std::size_t columnWidth(TimeKind kind) {
    return std::max<std::size_t>(9, widthOf(tr(name(kind))) + 2);
}

std::string seconds(double value, std::size_t width) {
    return value == 0 ? fmt::format("{:>{}}", "-", width) : fmt::format("{:{}.1f}", value, width);
}

std::string textRow(const std::string& name, const TimeShare& share, double cycle) {
    std::string row = "  " + shownName(name);
    for (TimeKind kind : kinds()) row += seconds(share.of(kind), columnWidth(kind));
    return row + fmt::format("{:9.1f}{:8.1f} %\n", share.total(), cycle > 0 ? 100 * share.total() / cycle : 0);
}

std::string heading(const char* what) {
    std::string row = fmt::format("\n  {:<{}}", what, kNameWidth);
    for (TimeKind kind : kinds()) row += fmt::format("{:>{}}", tr(name(kind)), columnWidth(kind));
    return row + fmt::format("{:>9}{:>10}\n", tr("total"), tr("share"));
}

std::string quoted(const std::string& text) {
    if (text.find_first_of(",\"\n\r") == std::string::npos) return text;
    std::string result = "\"";
    for (char c : text) result += c == '"' ? std::string("\"\"") : std::string(1, c);
    return result + '"';
}

void appendTableRow(std::string& text, const Trial& trial, const char* part, const std::string& name, BlockId block,
                    const TimeShare& share) {
    text += fmt::format("{},{},{}", part, quoted(name),
                        block == kNoBlock ? std::string() : std::to_string(trial.program.lineOf(block)));
    for (TimeKind kind : kinds()) text += ',' + tableFigure(share.of(kind));
    const double whole = trial.time.whole.total();
    text += ',' + tableFigure(share.total()) + ',' + tableFigure(whole > 0 ? 100 * share.total() / whole : 0) + '\n';
}

std::string wasteInWords(const Trial& trial, const TimeWaste& waste) {
    const std::string where =
        waste.block == kNoBlock ? std::string() : say(" at {}", trial.program.lineName(waste.block));
    const std::string times = waste.times > 1 ? say(", {} places in all", waste.times) : std::string();
    const std::string way = fmt::format("{:.{}f}", waste.lengthMm, waste.lengthMm < 10 ? 1 : 0);
    return fmt::format("  {:6.1f} s  {}{}{}\n", waste.seconds,
                       waste.kind == TimeWaste::Kind::AirCut ? say("feed where there is no metal, {} mm", way)
                                                             : say("retract longer by {} mm", way),
                       where, times);
}

}  // namespace

std::optional<double> partsPerHour(const Trial& trial) {
    const double change = trial.setup.machine.times.changePartS;
    const double each = trial.timeline.cycleTimeS + change;
    if (change <= 0 || trial.timeline.cycleTimeS <= 0) return std::nullopt;
    return 3600 / each;
}

std::string timeSummary(const Trial& trial) {
    std::string text;
    for (TimeKind kind : kinds()) {
        const double share = trial.time.whole.of(kind);
        if (share <= 0) continue;
        text += fmt::format("{}{} {}", text.empty() ? "" : ", ", tr(name(kind)), durationInWords(share));
    }
    return text.empty() ? text : "  " + reportLabel(tr("of that")) + text + "\n";
}

std::string timeReport(const Trial& trial) {
    const TimeAccount& time = trial.time;
    const double cycle = time.whole.total();
    std::string text = say("Cycle time {}\n", durationInWords(cycle));
    if (const auto parts = partsPerHour(trial)) {
        text += say("With {} to change the part: {:.1f} parts an hour\n",
                    durationInWords(trial.setup.machine.times.changePartS), *parts);
    } else {
        text += tr("Parts an hour: give change_part_s in [times] of the set-up\n");
    }
    text += heading(tr("seconds"));
    text += textRow(tr("whole cycle"), time.whole, cycle);
    text += heading(tr("by tool"));
    for (const TimeRow& row : time.tools) text += textRow(row.name, row.share, cycle);
    text += heading(tr("by operation"));
    for (const TimeRow& row : time.operations) text += textRow(row.name, row.share, cycle);
    if (!time.wastes.empty()) {
        text += tr("\n  Could be saved\n");
        const std::size_t shown = std::min(time.wastes.size(), kMostWastes);
        for (std::size_t i = 0; i < shown; ++i) text += wasteInWords(trial, time.wastes[i]);
        if (shown < time.wastes.size()) text += say("            and {} smaller ones\n", time.wastes.size() - shown);
    }
    text += tr("\n  Taken\n");
    for (const std::string& entry : time.assumed) text += "  - " + entry + '\n';
    return text;
}

std::string timeTable(const Trial& trial) {
    std::string text = "part,name,line";
    for (TimeKind kind : kinds()) text += fmt::format(",{}_s", name(kind));
    text += ",total_s,share_percent\n";
    appendTableRow(text, trial, "cycle", trial.program.name, kNoBlock, trial.time.whole);
    for (const TimeRow& row : trial.time.tools)
        appendTableRow(text, trial, "tool", row.plainName, row.block, row.share);
    for (const TimeRow& row : trial.time.operations) {
        appendTableRow(text, trial, "operation", row.plainName, row.block, row.share);
    }
    return text;
}

}  // namespace firstoff
