#include "sim/output/finish_table.h"

#include <iterator>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/table_figures.h"
#include "sim/output/tables.h"

namespace firstoff {

namespace {

constexpr const char* kCaution = later(
    "This is what the tool's shape and the feed leave; wear, vibration, a built-up edge and tearing come on top.");

const char* nameOf(SurfaceSpan::Side side) {
    switch (side) {
        case SurfaceSpan::Side::Outer:
            return tr("outside");
        case SurfaceSpan::Side::Inner:
            return tr("inside");
        case SurfaceSpan::Side::FrontFace:
            return tr("face");
        case SurfaceSpan::Side::BackFace:
            return tr("back face");
    }
    return "";
}

std::string placeOf(const SurfaceSpan& span, double datumZ, std::string_view diameters) {
    if (span.isFace()) {
        return say("{} at Z{:.3f}, X{:.3f} to X{:.3f}", nameOf(span.side), span.z - datumZ, 2 * span.from, 2 * span.to);
    }
    return say("{}{}, Z{:.3f} to Z{:.3f}", nameOf(span.side), diameters, span.to - datumZ, span.from - datumZ);
}

std::string listed(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
    return text;
}

class Table {
public:
    Table(const Trial& trial, const std::vector<FinishReport>& reports)
        : trial_(trial), reports_(reports), datumZ_(sectionDatum(trial).z) {}

    std::string run() {
        for (std::size_t i = 0; i < reports_.size(); ++i) {
            if (i > 0) text_ += '\n';
            add("{}. {}\n", i + 1, surfaceInWords(trial_, reports_[i]));
            surface(reports_[i]);
        }
        if (!reports_.empty()) add("\n{}\n", tr(kCaution));
        return std::move(text_);
    }

private:
    template <typename... Args>
    void add(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(text_), format, std::forward<Args>(args)...);
    }

    void surface(const FinishReport& report) {
        if (!report.trouble.empty()) {
            text_ += say("   no figures: {}\n", report.trouble);
            return;
        }
        text_ += say("   cut by   {}\n", cutByInWords(trial_, report));
        figures(report);
        if (report.theory) {
            text_ += say("   nose formulas      Ra {:.3f}  Rt {:.3f} (f²/8r)  {:.3f} (circle)  µm\n",
                         1e3 * report.theory->ra, 1e3 * report.theory->rtParabola, 1e3 * report.theory->rtCircle);
        }
        for (const std::string& note : report.notes) add("   {}\n", note);
    }

    void figures(const FinishReport& report) {
        const Roughness& r = report.roughness;
        const char letter = r.filtered() ? 'R' : 'P';
        add("   {0}a {1:.3f}  {0}q {2:.3f}  {0}z {3:.3f}  {0}t {4:.3f}  {0}p {5:.3f}  {0}v {6:.3f}  µm", letter,
            1e3 * r.ra, 1e3 * r.rq, 1e3 * r.rz, 1e3 * r.rt, 1e3 * r.rp, 1e3 * r.rv);
        if (r.rsm) text_ += fmt::format("  {}Sm {:.4f} mm", letter, *r.rsm);
        text_ += '\n';
        if (r.filtered()) {
            const double length = r.to - r.from, z = middle(report).z - datumZ_, x = 2 * middle(report).r;
            text_ += r.sections == 1
                         ? say("   Gaussian filter, cut-off {:.4g} mm, {} section ({:.4g} mm) about Z{:.3f} X{:.3f}\n",
                               r.cutOff, r.sections, length, z, x)
                         : say("   Gaussian filter, cut-off {:.4g} mm, {} sections ({:.4g} mm) about Z{:.3f} X{:.3f}\n",
                               r.cutOff, r.sections, length, z, x);
        }
    }

    static Point middle(const FinishReport& report) { return 0.5 * (report.ends.front() + report.ends.back()); }

    const Trial& trial_;
    const std::vector<FinishReport>& reports_;
    double datumZ_;
    std::string text_;
};

}  // namespace

std::string finishTable(const Trial& trial, const std::vector<FinishReport>& reports) {
    return Table(trial, reports).run();
}

std::string surfaceInWords(const Trial& trial, const FinishReport& report, std::string_view diameters) {
    const std::string piece = report.piece > 0 ? say(" (piece {})", report.piece) : "";
    return placeOf(report.span, sectionDatum(trial).z, diameters) + piece;
}

std::string cutByInWords(const Trial& trial, const FinishReport& report) {
    std::vector<std::string> lines, stations;
    for (BlockId block : report.blocks) lines.push_back(trial.program.lineName(block));
    for (int station : report.stations) stations.push_back(fmt::format("T{}", station));
    std::string text =
        say("{}; {}; feed {:.4g} mm per revolution", listed(stations), listed(lines), report.marks.feedMax);
    if (report.marks.noseRadius > 0) text += say("; nose radius {:.4g} mm", report.marks.noseRadius);
    return text;
}

std::string_view finishCaution() {
    return tr(kCaution);
}

std::string finishProfiles(const Trial& trial, const std::vector<FinishReport>& reports) {
    std::string text = "surface,along_mm,z_mm,r_mm,height_um\n";
    const double datumZ = sectionDatum(trial).z;
    for (std::size_t i = 0; i < reports.size(); ++i) {
        const FinishReport& report = reports[i];
        const SurfaceProfile& profile = report.marks.profile;
        for (std::size_t k = 0; k < report.places.size(); ++k) {
            fmt::format_to(std::back_inserter(text), "{}", i + 1);
            for (double value : {report.from + profile.step * static_cast<double>(k), report.places[k].z - datumZ,
                                 report.places[k].r, 1e3 * profile.heights[k]}) {
                text += ',';
                appendTableFigure(text, value);
            }
            text += '\n';
        }
    }
    return text;
}

}  // namespace firstoff
