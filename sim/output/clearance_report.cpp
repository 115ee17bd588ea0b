#include "sim/output/clearance_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <utility>
#include <vector>

#include "sim/base/say.h"
#include "sim/base/told_apart.h"
#include "sim/output/table_figures.h"

namespace firstoff {

namespace {

const std::string& nameOf(const Trial& trial, std::uint16_t body) {
    return trial.clearance.bodies->bodies[body].name;
}

// In tables for spreadsheets.
const std::string& englishNameOf(const Trial& trial, std::uint16_t body) {
    return trial.clearance.bodies->bodies[body].englishName;
}

bool isLimited(const Margin& margin) {
    return margin.mm < kMarginLimit;
}

// Told on the safe side, to a hundredth.
double told(double mm) {
    return std::max(0.0, std::floor(mm * 100 + 1e-6) / 100);
}

std::string cell(const Margin& margin, bool onDiameter) {
    const double factor = onDiameter ? 2 : 1;
    if (!isLimited(margin)) return fmt::format(">{:.0f}", factor * kMarginLimit);
    return fmt::format("{:.2f}", told(factor * margin.mm));
}

struct Row {
    const char* way;  // in the table for spreadsheets, English
    const Margin* margin;
    bool onDiameter;
};

std::array<Row, 6> rowsOf(const ToolMargins& t) {
    return {{{"X offset larger", &t.xLarger, true},
             {"X offset smaller", &t.xSmaller, true},
             {"Z offset away from the chuck", &t.zAway, false},
             {"Z offset towards the chuck", &t.zToward, false},
             {"overhang shorter", &t.overhangLess, false},
             {"overhang longer", &t.overhangMore, false}}};
}

std::array<Row, 4> rowsOf(const SetupMargins& s) {
    return {{{"stick-out longer", &s.stickOutMore, false},
             {"stick-out shorter", &s.stickOutLess, false},
             {"datum away from the chuck", &s.datumAway, false},
             {"datum towards the chuck", &s.datumToward, false}}};
}

// A text cell of a table, quoted where it must be.
std::string quoted(const std::string& text) {
    if (text.find_first_of(",\"\n") == std::string::npos) return text;
    std::string result = "\"";
    for (char c : text) {
        if (c == '"') result += '"';
        result += c;
    }
    return result + '"';
}

void appendMarginRow(std::string& text, const Trial& trial, const std::string& subject, const Row& row) {
    const Margin& m = *row.margin;
    const double factor = row.onDiameter ? 2 : 1;
    text += fmt::format("{},{},{},{},", subject, row.way,
                        tableFigure(factor * (isLimited(m) ? told(m.mm) : kMarginLimit)), isLimited(m) ? 1 : 0);
    if (isLimited(m)) {
        text += fmt::format("{},{},{}", lineOfMove(trial, m.timedMove), quoted(englishNameOf(trial, m.body)),
                            quoted(englishNameOf(trial, m.other)));
    } else {
        text += ",,";
    }
    text += '\n';
}

// The nearest of all margins of a tool, in words.
const Margin* tightest(const ToolMargins& tool) {
    const Margin* least = nullptr;
    for (const Row& row : rowsOf(tool)) {
        if (isLimited(*row.margin) && (least == nullptr || row.margin->mm < least->mm)) least = row.margin;
    }
    return least;
}

void appendMargins(std::string& text, const Trial& trial) {
    const Margins& margins = trial.clearance.margins;
    if (margins.tools.empty()) return;
    text += tr("\n  How wrong may it be before the first contact, mm (X on diameter):\n");
    text += tr("    tool   X out   X in    Z away  Z toward  overhang less  more\n");
    for (const ToolMargins& t : margins.tools) {
        // What stands on the axis has no X but that one.
        const bool onAxis = worksOnTheAxis(trial.setup.tools[static_cast<std::size_t>(t.toolIndex)].kind);
        text += fmt::format("    T{:<4} {:>6}  {:>6}  {:>6}  {:>8}  {:>13}  {:>5}\n", t.station,
                            onAxis ? afterBar(tr("axis|centre")) : cell(t.xLarger, true),
                            onAxis ? afterBar(tr("axis|centre")) : cell(t.xSmaller, true), cell(t.zAway, false),
                            cell(t.zToward, false), cell(t.overhangLess, false), cell(t.overhangMore, false));
        if (const Margin* least = tightest(t)) {
            text += say("           first: {}\n", marginInWords(trial, *least));
        }
    }
    const SetupMargins& s = margins.setup;
    text += say("    bar further out {}, less far {}; datum away from the chuck {}, towards it {}\n",
                cell(s.stickOutMore, false), cell(s.stickOutLess, false), cell(s.datumAway, false),
                cell(s.datumToward, false));
    text += tr(
        "    Reckoned with the metal as the program leaves it; an edge counts against it at rapid, until it cuts.\n");
}

const char* severalOf(BodyKind kind) {
    switch (kind) {
        case BodyKind::Billet:
            return tr("billets");
        case BodyKind::ChuckBody:
            return tr("chuck bodies");
        case BodyKind::Jaws:
            return tr("jaws");
        case BodyKind::Centre:
            return tr("centres");
        case BodyKind::Quill:
            return tr("quills");
        case BodyKind::TailstockCasting:
            return tr("tailstock castings");
        case BodyKind::SecondChuckBody:
            return tr("second chuck bodies");
        case BodyKind::SecondJaws:
            return tr("second jaws");
        case BodyKind::SteadyRest:
            return tr("steady rests");
        case BodyKind::TurretHead:
            return tr("turret heads");
        case BodyKind::TurretDisc:
            return tr("turret discs");
        case BodyKind::Block:
            return tr("blocks");
        case BodyKind::Holder:
            return tr("holders");
        case BodyKind::Edge:
            return tr("edges");
        case BodyKind::Guard:
            return tr("guards");
        case BodyKind::Door:
            return tr("doors");
        case BodyKind::Other:
            return tr("others");
    }
    return "";
}

// What stands on one side of the pairs, in groups of a kind.
std::string kindsIn(const Trial& trial, bool movers) {
    std::vector<std::pair<BodyKind, int>> kinds;
    std::vector<bool> seen(trial.clearance.bodies->bodies.size());
    for (const PairChecked& pair : trial.clearance.pairs) {
        const std::uint16_t body = movers ? pair.body : pair.other;
        if (seen[body]) continue;
        seen[body] = true;
        const BodyKind kind = trial.clearance.bodies->bodies[body].kind;
        const auto found = std::find_if(kinds.begin(), kinds.end(), [&](const auto& k) { return k.first == kind; });
        if (found == kinds.end()) {
            kinds.emplace_back(kind, 1);
        } else {
            ++found->second;
        }
    }
    std::string text;
    for (const auto& [kind, count] : kinds) {
        text += text.empty() ? "" : ", ";
        text += count == 1 ? std::string(tr(name(kind))) : fmt::format("{} {}", count, severalOf(kind));
    }
    return text;
}

}  // namespace

std::uint32_t lineOfMove(const Trial& trial, std::size_t timedMove) {
    if (timedMove >= trial.timeline.moves.size()) return 0;
    const BlockId block = trial.shownBlock(trial.timeline.moves[timedMove].move);
    return block == kNoBlock ? 0 : trial.program.span(block).line;
}

std::string marginInWords(const Trial& trial, const Margin& margin) {
    if (!isLimited(margin)) return say("more than {:.0f} mm", kMarginLimit);
    const std::uint32_t line = lineOfMove(trial, margin.timedMove);
    return say("{:.2f} mm{}: {} meets {}", told(margin.mm), line > 0 ? say(", line {}", line) : "",
               nameOf(trial, margin.body), nameOf(trial, margin.other));
}

std::string clearanceSummary(const Trial& trial) {
    const ClearanceResult& c = trial.clearance;
    if (c.perMove.empty()) return {};
    std::string text;
    const auto least = std::min_element(c.perMove.begin(), c.perMove.end(),
                                        [](const Clearance& a, const Clearance& b) { return a.gapMm < b.gapMm; });
    if (std::isfinite(least->gapMm)) {
        const auto index = static_cast<std::size_t>(least - c.perMove.begin());
        text += "  " + reportLabel(tr("nearest")) +
                say("{:.2f} mm, line {}: {} / {}\n", double{least->gapMm}, lineOfMove(trial, index),
                    nameOf(trial, least->body), nameOf(trial, least->other));
    }
    text += "  " + reportLabel(tr("watched")) +
            say("{} pairs of bodies, gaps never told too large, too small by {:.3f} mm at most\n", c.pairs.size(),
                std::ceil(c.errorMm * 1000) / 1000);
    text +=
        say("                moving: {}\n                against: {}\n", kindsIn(trial, true), kindsIn(trial, false));
    appendMargins(text, trial);
    return text;
}

std::string marginTable(const Trial& trial) {
    std::string text = "subject,way,margin_mm,limited,line,body,other\n";
    for (const ToolMargins& tool : trial.clearance.margins.tools) {
        for (const Row& row : rowsOf(tool)) appendMarginRow(text, trial, fmt::format("T{}", tool.station), row);
    }
    for (const Row& row : rowsOf(trial.clearance.margins.setup)) appendMarginRow(text, trial, "set-up", row);
    return text;
}

std::string pairTable(const Trial& trial) {
    std::string text = "body,other,gap_at_least_mm,exact,line\n";
    for (const PairChecked& pair : trial.clearance.pairs) {
        const std::uint32_t line = lineOfMove(trial, pair.timedMove);
        text += fmt::format("{},{},{},{},{}\n", quoted(englishNameOf(trial, pair.body)),
                            quoted(englishNameOf(trial, pair.other)), tableFigure(pair.gapMm),
                            pair.exact && std::isfinite(pair.gapMm) ? 1 : 0, line > 0 ? std::to_string(line) : "");
    }
    return text;
}

}  // namespace firstoff
