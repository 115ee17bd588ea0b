#include "sim/output/finish_overview.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/finish_table.h"
#include "sim/output/table_figures.h"
#include "sim/output/tables.h"

namespace firstoff {

namespace {

// Diameters nearer than this are told as one.
constexpr double kSameDiameterMm = 5e-4;

// µm; nothing where there is none.
std::string micron(bool known, double mm) {
    return known ? fmt::format("{:.2f}", 1e3 * mm) : "-";
}

std::string toolOf(const FinishReport& report) {
    std::string text;
    for (int station : report.stations) text += fmt::format("{}T{}", text.empty() ? "" : " ", station);
    return text.empty() ? "-" : text;
}

std::string lineOf(const Trial& trial, const FinishReport& report) {
    return report.leftBy == kNoBlock ? std::string() : trial.program.lineName(report.leftBy);
}

std::string whereOf(const Trial& trial, const FinishReport& report) {
    const bool bar = report.piece == 0 && !trial.stock->severances().empty();
    const std::string held = bar ? tr(" (what is held)") : "";
    if (report.span.isFace()) return surfaceInWords(trial, report) + held;
    const double from = 2 * report.rTo, to = 2 * report.rFrom;
    const std::string diameters =
        std::abs(from - to) < kSameDiameterMm ? fmt::format(" Ø{:.3f}", from) : say(" Ø{:.3f} to Ø{:.3f}", from, to);
    return surfaceInWords(trial, report, diameters) + held;
}

std::string feedOf(const FinishReport& report) {
    const FeedMarks& marks = report.marks;
    if (!report.trouble.empty()) return "-";
    const std::string most = fmt::format("{:.3g}", marks.feedMax), least = fmt::format("{:.3g}", marks.feedMin);
    return least == most ? most : least + "-" + most;
}

std::string noseOf(const FinishReport& report) {
    return report.trouble.empty() && report.marks.noseRadius > 0 ? fmt::format("{:.3g}", report.marks.noseRadius) : "-";
}

bool hasFigures(const FinishReport& report) {
    return report.trouble.empty() && !report.noMarks;
}

// What to know of a surface. Of one without marks nothing but that.
std::vector<std::string> remarksOf(const FinishReport& report) {
    if (!report.trouble.empty()) return {say("No figures: {}.", report.trouble)};
    return report.noMarks ? std::vector<std::string>{report.notes.back()} : report.notes;
}

class Overview {
public:
    Overview(const Trial& trial, const std::vector<FinishReport>& reports) : trial_(trial), reports_(reports) {}

    std::string run() {
        if (reports_.empty()) return tr("No move at feed left a surface on this part.\n");
        for (const FinishReport& report : reports_) {
            width_ = std::max(width_, widthOf(whereOf(trial_, report)));
            lineWidth_ = std::max(lineWidth_, widthOf(lineOf(trial_, report)));
        }
        text_ +=
            say("  {}  by formula, µm   simulated, µm\n", std::string(4 + width_ + 2 + 5 + 2 + lineWidth_ + 22, ' '));
        add("  no  {}  {:<5}  {}  {:>11}  {:>5}  {:>7}  {:>6}  {:>7}  {:>6}\n", padded(tr("surface"), width_),
            tr("tool"), padded(tr("line"), lineWidth_), tr("feed mm/rev"), tr("nose"), "Rz", "Ra", "Rz", "Ra");
        for (std::size_t i = 0; i < reports_.size(); ++i) row(i + 1, reports_[i]);
        remarks();
        text_ +=
            say("\n  Rz f²/8r and Ra 4 Rz / 9 sqrt(3), where one nose and one feed made the whole profile.\n  {}\n",
                finishCaution());
        return std::move(text_);
    }

private:
    template <typename... Args>
    void add(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(text_), format, std::forward<Args>(args)...);
    }

    void row(std::size_t number, const FinishReport& r) {
        const bool known = hasFigures(r);
        const bool formula = known && r.theory.has_value();
        const NoseTheory theory = r.theory.value_or(NoseTheory{});
        add("  {:>2}  {}  {:<5}  {}  {:>11}  {:>5}  {:>7}  {:>6}  {:>7}  {:>6}{}\n", number,
            padded(whereOf(trial_, r), width_), toolOf(r), padded(lineOf(trial_, r), lineWidth_), feedOf(r), noseOf(r),
            micron(formula, theory.rtParabola), micron(formula, theory.ra), micron(known, r.roughness.rz),
            micron(known, r.roughness.ra), known && !r.roughness.filtered() ? "  P" : "");
    }

    // Each remark once, with the numbers of the rows it is about.
    void remarks() {
        std::vector<std::pair<std::string, std::string>> said;
        for (std::size_t i = 0; i < reports_.size(); ++i) {
            for (const std::string& note : remarksOf(reports_[i])) {
                auto entry = std::find_if(said.begin(), said.end(), [&](const auto& s) { return s.first == note; });
                if (entry == said.end()) {
                    said.emplace_back(note, std::to_string(i + 1));
                } else {
                    entry->second += fmt::format(", {}", i + 1);
                }
            }
        }
        if (!said.empty()) text_ += '\n';
        for (const auto& [note, rows] : said) add("  {}: {}\n", rows, note);
    }

    const Trial& trial_;
    const std::vector<FinishReport>& reports_;
    std::size_t width_ = 7, lineWidth_ = 4;
    std::string text_;
};

const char* kindOf(SurfaceSpan::Side side) {
    constexpr const char* kNames[] = {"outside", "inside", "face", "back-face"};
    return kNames[static_cast<std::size_t>(side)];
}

std::string inQuotes(const std::string& text) {
    std::string result = "\"";
    for (char c : text) result += c == '"' ? std::string("\"\"") : std::string(1, c);
    return result + '"';
}

}  // namespace

std::string finishOverview(const Trial& trial, const std::vector<FinishReport>& reports) {
    return Overview(trial, reports).run();
}

std::string finishRows(const Trial& trial, const std::vector<FinishReport>& reports) {
    std::string text =
        "surface,piece,kind,z_from_mm,z_to_mm,x_from_mm,x_to_mm,line,tool,feed_mm_per_rev,nose_radius_mm,"
        "formula_rz_um,formula_ra_um,rz_um,ra_um,filtered,said\n";
    const double datumZ = sectionDatum(trial).z;
    for (std::size_t i = 0; i < reports.size(); ++i) {
        const FinishReport& r = reports[i];
        const bool known = r.trouble.empty(), figures = hasFigures(r);
        const bool face = r.span.isFace();
        text += fmt::format("{},{},{}", i + 1, r.piece, kindOf(r.span.side));
        const auto figure = [&](bool given, double value) {
            text += ',';
            if (given) appendTableFigure(text, value);
        };
        figure(true, (face ? r.span.z : r.span.to) - datumZ);
        figure(true, (face ? r.span.z : r.span.from) - datumZ);
        figure(true, 2 * (face ? r.rFrom : r.rTo));
        figure(true, 2 * (face ? r.rTo : r.rFrom));
        text += fmt::format(",{},{}", r.leftBy == kNoBlock ? "" : std::to_string(trial.program.lineOf(r.leftBy)),
                            known ? toolOf(r) : "");
        figure(known, r.marks.feedMax);
        figure(known && r.marks.noseRadius > 0, r.marks.noseRadius);
        figure(known && r.theory, r.theory ? 1e3 * r.theory->rtParabola : 0);
        figure(known && r.theory, r.theory ? 1e3 * r.theory->ra : 0);
        figure(figures, 1e3 * r.roughness.rz);
        figure(figures, 1e3 * r.roughness.ra);
        std::string said;
        for (const std::string& note : remarksOf(r)) said += (said.empty() ? "" : " ") + note;
        text += fmt::format(",{},{}\n", !figures ? "" : r.roughness.filtered() ? "yes" : "no", inQuotes(said));
    }
    return text;
}

}  // namespace firstoff
