#include "sim/output/finish_plot.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/cutting/profile_plot.h"
#include "sim/output/finish_table.h"
#include "sim/output/table_figures.h"
#include "sim/output/xml_text.h"

namespace firstoff {

namespace {

// The sheet, mm.
constexpr double kSheet = 210, kMargin = 12;
constexpr double kPlotLeft = 26, kPlotWidth = 140, kPlotHeight = 50;  // at most
constexpr double kRoom = 3;                                           // between the profile and the frame of the plot
constexpr double kLine = 4.6;                                         // of text
constexpr double kDimensionRow = 6;                                   // above the plot
constexpr double kLeastTick = 9;                                      // between marks of a scale
constexpr int kColumns = 1400;                                        // a tenth of a millimetre each
constexpr std::size_t kLettersALine = 112;
constexpr std::size_t kMostBlocks = 4;  // whose text is given

constexpr const char* kHead =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0}mm\" height=\"{1}mm\" "
    "viewBox=\"0 0 {0} {1}\" font-family=\"DejaVu Sans, Verdana, sans-serif\" font-size=\"3.1\" "
    "stroke-linejoin=\"round\">\n"
    "<title>{2}</title>\n"
    "<rect width=\"{0}\" height=\"{1}\" fill=\"white\"/>\n";

// Broken at spaces.
std::vector<std::string> broken(const std::string& text) {
    std::vector<std::string> lines;
    std::size_t from = 0;
    while (text.size() - from > kLettersALine) {
        std::size_t to = text.rfind(' ', from + kLettersALine);
        if (to == std::string::npos || to <= from) break;
        lines.push_back(text.substr(from, to - from));
        from = to + 1;
    }
    lines.push_back(text.substr(from));
    return lines;
}

// One surface after another, from the top of the sheet.
class Sheet {
public:
    explicit Sheet(const Trial& trial) : trial_(trial) {}

    std::string run(const std::vector<FinishReport>& reports) {
        for (std::size_t i = 0; i < reports.size(); ++i) {
            add("<g id=\"surface-{}\">\n", i + 1);
            surface(reports[i], i + 1);
            body_ += "</g>\n";
            down_ += 1.5 * kLine;
        }
        for (const std::string& line : broken(std::string(finishCaution()))) writeLine(line, "");
        const std::string title = say("Finish, {}", trial_.program.name);
        return fmt::format(fmt::runtime(kHead), tableFigure(kSheet), tableFigure(down_ + kMargin - kLine),
                           xmlText(title)) +
               body_ + "</svg>\n";
    }

private:
    template <typename... Args>
    void add(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(body_), format, std::forward<Args>(args)...);
    }

    void text(double x, double y, const std::string& words, const char* more) {
        add("<text x=\"{}\" y=\"{}\"{}>{}</text>\n", tableFigure(x), tableFigure(y), more, xmlText(words));
    }
    void writeLine(const std::string& words, const char* more) {
        text(kMargin, down_, words, more);
        down_ += kLine;
    }
    void stroke(double x0, double y0, double x1, double y1, const char* style) {
        add("<path d=\"M{} {}L{} {}\" {}/>\n", tableFigure(x0), tableFigure(y0), tableFigure(x1), tableFigure(y1),
            style);
    }

    void surface(const FinishReport& report, std::size_t number) {
        const std::string heading = fmt::format("{}. {}", number, surfaceInWords(trial_, report));
        writeLine(heading, " font-size=\"3.8\" font-weight=\"bold\"");
        if (!report.trouble.empty()) {
            for (const std::string& line : broken(say("No figures: {}.", report.trouble))) writeLine(line, "");
            return;
        }
        writeLine(say("Cut by {}", cutByInWords(trial_, report)), "");
        tools(report);
        blocks(report);
        figures(report);
        plot(report);
        for (const std::string& note : report.notes) {
            for (const std::string& line : broken(note)) writeLine(line, "");
        }
    }

    void tools(const FinishReport& report) {
        for (const Tool& tool : trial_.setup.tools) {
            const auto& used = report.stations;
            if (std::find(used.begin(), used.end(), tool.station) == used.end() || tool.name.empty()) continue;
            writeLine(fmt::format("T{}: {}", tool.station, tool.name), "");
        }
    }

    void blocks(const FinishReport& report) {
        const std::size_t shown = std::min(report.blocks.size(), kMostBlocks);
        for (std::size_t i = 0; i < shown; ++i) {
            const BlockId block = report.blocks[i];
            if (block >= trial_.program.blocks.size()) continue;
            const std::string words(trial_.program.textOf(trial_.program.blocks[block]));
            writeLine(trial_.program.lineName(block) + ":  " + words, " font-family=\"DejaVu Sans Mono, monospace\"");
        }
        if (shown < report.blocks.size()) writeLine(say("and {} more", report.blocks.size() - shown), "");
    }

    void figures(const FinishReport& report) {
        const Roughness& r = report.roughness;
        down_ += 0.5 * kLine;
        writeLine(fmt::format("{0}a {1:.3f} µm   {0}z {2:.3f} µm   {0}t {3:.3f} µm", r.filtered() ? 'R' : 'P',
                              1e3 * r.ra, 1e3 * r.rz, 1e3 * r.rt),
                  " class=\"figures\" font-size=\"4.2\" font-weight=\"bold\" xml:space=\"preserve\"");
        if (r.filtered()) {
            writeLine(r.sections == 1 ? say("Gaussian filter, cut-off {:.4g} mm, {} sampling length ({:.4g} mm)",
                                            r.cutOff, r.sections, r.to - r.from)
                                      : say("Gaussian filter, cut-off {:.4g} mm, {} sampling lengths ({:.4g} mm)",
                                            r.cutOff, r.sections, r.to - r.from),
                      "");
        }
        if (report.theory) {
            writeLine(say("A nose alone would leave: Rt {:.3f} µm (f²/8r), {:.3f} µm (circle), Ra {:.3f} µm",
                          1e3 * report.theory->rtParabola, 1e3 * report.theory->rtCircle, 1e3 * report.theory->ra),
                      "");
        }
    }

    // --- The plot ---------------------------------------------------------------------------------------------------

    struct Frame {
        PlotScale scale;
        double left = 0, right = 0, top = 0, bottom = 0;  // on the sheet
        double lowest = 0;                                // height at `bottom`, less the room there
        double from = 0;                                  // along the surface, where the profile begins

        double x(double along) const { return left + along * scale.length; }  // along the profile
        double y(double height) const { return bottom - kRoom - (height - lowest) * scale.height(); }
    };

    void plot(const FinishReport& report) {
        ProfilePlot plot = profilePlot(report.marks.profile, report.roughness, kColumns);
        if (report.theory) plot.highest = std::max(plot.highest, report.theory->rtParabola);
        Frame f;
        f.scale = plotScale(plot, kPlotWidth, kPlotHeight);
        f.from = report.from;
        f.lowest = plot.lowest;
        f.left = kPlotLeft;
        f.right = f.left + plot.length * f.scale.length;
        f.top = down_ + 2 * kDimensionRow;
        f.bottom = f.top + (plot.highest - plot.lowest) * f.scale.height() + 2 * kRoom;
        metal(plot, f);
        scales(plot, f);
        sections(report.roughness, plot, f);
        curve("profile", plot.line, f, "stroke=\"black\" stroke-width=\"0.35\"");
        curve("mean-line", plot.meanLine, f, "stroke=\"#0072B2\" stroke-width=\"0.35\" stroke-dasharray=\"4 1 0.7 1\"");
        if (report.theory) theory(report.theory->rtParabola, f);
        down_ = f.bottom + 5 + kLine;
        text((f.left + f.right) / 2, down_, tr("Length along the surface, mm"), " text-anchor=\"middle\"");
        down_ += 1.4 * kLine;
        key(f);
        writeLine(say("Scale: length {}:1, height {}:1 (heights magnified {} times)", tableFigure(f.scale.length),
                      tableFigure(f.scale.height()), tableFigure(f.scale.magnified)),
                  " class=\"scale\"");
    }

    void appendPlaces(const std::vector<PlotPoint>& points, const Frame& f) {
        for (std::size_t i = 0; i < points.size(); ++i) {
            body_ += i == 0 ? 'M' : 'L';
            appendTableFigure(body_, f.x(points[i].along));
            body_ += ' ';
            appendTableFigure(body_, f.y(points[i].height));
        }
    }

    void curve(const char* name, const std::vector<PlotPoint>& points, const Frame& f, const char* style) {
        if (points.empty()) return;
        add("<path class=\"{}\" fill=\"none\" {} d=\"", name, style);
        appendPlaces(points, f);
        body_ += "\"/>\n";
    }

    void metal(const ProfilePlot& plot, const Frame& f) {
        body_ += "<path class=\"metal\" fill=\"#e2e2e2\" d=\"";
        appendPlaces(plot.line, f);
        add("L{0} {1}L{2} {1}Z\"/>\n", tableFigure(f.right), tableFigure(f.bottom), tableFigure(f.left));
    }

    void scales(const ProfilePlot& plot, const Frame& f) {
        constexpr const char* kFrame = "stroke=\"black\" stroke-width=\"0.18\"";
        stroke(f.left, f.top, f.left, f.bottom, kFrame);
        stroke(f.left, f.bottom, f.right, f.bottom, kFrame);
        const double along = tickStep(kLeastTick * 1.4 / f.scale.length);
        for (double k = std::ceil(f.from / along - 1e-9); k * along <= f.from + plot.length + 1e-9; ++k) {
            const double x = f.x(k * along - f.from);
            stroke(x, f.bottom, x, f.bottom + 1.5, kFrame);
            text(x, f.bottom + 5, tableFigure(k * along), " text-anchor=\"middle\"");
        }
        const double up = tickStep(kLeastTick / f.scale.height());
        const double room = kRoom / f.scale.height();
        for (double k = std::ceil((plot.lowest - room) / up); k * up <= plot.highest + room; ++k) {
            const double y = f.y(k * up);
            stroke(f.left - 1.5, y, f.left, y, kFrame);
            text(f.left - 2.2, y + 1.1, tableFigure(1e3 * k * up), " text-anchor=\"end\"");
        }
        const double middle = (f.top + f.bottom) / 2;
        add("<text x=\"{0}\" y=\"{1}\" text-anchor=\"middle\" transform=\"rotate(-90 {0} {1})\">{2}</text>\n",
            tableFigure(kMargin + 1), tableFigure(middle), xmlText(tr("Height, µm")));
    }

    // A length with its ends marked, as a dimension is drawn.
    void dimension(double x0, double x1, double y, const std::string& words) {
        constexpr const char* kThin = "fill=\"none\" stroke=\"black\" stroke-width=\"0.18\"";
        const std::string a = tableFigure(x0), b = tableFigure(x1), at = tableFigure(y);
        add("<path d=\"M{0} {2}L{1} {2}M{0} {2}l2 0.6v-1.2zM{1} {2}l-2 0.6v-1.2z\" {3}/>\n", a, b, at, kThin);
        text(x1 + 1.5, y + 1.1, words, "");
    }

    void sections(const Roughness& r, const ProfilePlot& plot, const Frame& f) {
        const double whole = f.top - 1.5 * kDimensionRow + 1, one = f.top - 0.5 * kDimensionRow + 1;
        for (std::size_t i = 0; i < plot.sections.size(); ++i) {
            const bool end = i == 0 || i + 1 == plot.sections.size();
            const double top = end ? whole : i == 1 ? one : f.top;
            const double x = f.x(plot.sections[i]);
            stroke(x, top < f.top ? top - 1 : top, x, f.bottom,
                   "class=\"section\" stroke=\"#555555\" stroke-width=\"0.18\" stroke-dasharray=\"1.2 1\"");
        }
        const double from = f.x(plot.sections.front()), to = f.x(plot.sections.back());
        dimension(from, to, whole, say("evaluation length {:.4g} mm", r.to - r.from));
        if (!r.filtered()) return;
        dimension(from, f.x(plot.sections[1]), one,
                  say("cut-off {:.4g} mm = sampling length, {} of them", r.cutOff, r.sections));
    }

    void theory(double height, const Frame& f) {
        const double x = f.right + 4, y0 = f.y(0), y1 = f.y(height);
        add("<path class=\"theory\" fill=\"none\" stroke=\"#D55E00\" stroke-width=\"0.5\" "
            "d=\"M{0} {1}h3M{0} {2}h3M{3} {1}V{2}\"/>\n",
            tableFigure(x), tableFigure(y0), tableFigure(y1), tableFigure(x + 1.5));
        const double middle = (y0 + y1) / 2;
        text(x + 4, middle, "f²/8r", "");
        text(x + 4, middle + 4, fmt::format("{:.3f} µm", 1e3 * height), "");
    }

    void key(const Frame& f) {
        const double y = down_ - 1.1;
        stroke(f.left, y, f.left + 9, y, "stroke=\"black\" stroke-width=\"0.35\"");
        text(f.left + 11, down_, tr("profile as cut"), "");
        stroke(f.left + 42, y, f.left + 53, y,
               "stroke=\"#0072B2\" stroke-width=\"0.35\" stroke-dasharray=\"4 1 0.7 1\"");
        text(f.left + 55, down_, tr("mean line"), "");
        stroke(f.left + 80, y, f.left + 89, y, "stroke=\"#555555\" stroke-width=\"0.18\" stroke-dasharray=\"1.2 1\"");
        text(f.left + 91, down_, tr("ends of the sampling lengths"), "");
        down_ += 1.2 * kLine;
    }

    const Trial& trial_;
    std::string body_;
    double down_ = kMargin + 2;  // base of the next line of text
};

}  // namespace

std::optional<FinishFileKind> finishFileKind(const std::filesystem::path& path) {
    std::string ending = path.extension().string();
    for (char& c : ending) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    if (ending == ".csv") return FinishFileKind::Csv;
    if (ending == ".svg") return FinishFileKind::Svg;
    return std::nullopt;
}

std::string_view finishFileEndings() {
    return "csv, svg";
}

std::string finishPlot(const Trial& trial, const std::vector<FinishReport>& reports) {
    return Sheet(trial).run(reports);
}

}  // namespace firstoff
