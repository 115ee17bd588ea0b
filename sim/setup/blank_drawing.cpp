#include "sim/setup/blank_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "sim/base/contour_geometry.h"
#include "sim/base/say.h"
#include "sim/drawing/dxf_reader.h"
#include "sim/drawing/section_table.h"
#include "sim/setup/blank_check.h"
#include "sim/setup/half_section.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

namespace {

// As the keys of [stock] allow for other blanks.
constexpr double kThinnestMm = 0.1;
constexpr double kThickestMm = 2000;
constexpr double kLongestMm = 10000;

bool endsInCsv(std::string name) {
    for (char& c : name) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return name.ends_with(".csv");
}

class BlankDrawing {
public:
    explicit BlankDrawing(Setup& setup) : setup_(setup), s_(setup.stock) {}

    void run(std::string_view text) {
        std::vector<DrawnPath> paths = endsInCsv(s_.drawingFile) ? fromTable(text) : fromDxf(text);
        ChainedContours chained =
            s_.shape == Stock::Shape::HalfSection ? chainHalfSection(std::move(paths)) : chainContours(paths);
        for (const DrawingFault& fault : chained.faults) tell(fault);
        if (chained.contours.empty()) return;
        if (s_.shape == Stock::Shape::HalfSection) {
            takeHalf(std::move(chained.contours));
        } else {
            takeCross(std::move(chained.contours));
        }
    }

private:
    std::vector<DrawnPath> fromTable(std::string_view text) {
        if (s_.shape == Stock::Shape::CrossSection) {
            contradiction(tr("A table of z and r is no cross-section."),
                          tr("Write shape = \"half-section\", or draw it as DXF."));
            return {};
        }
        if (!s_.drawingLayer.empty() || !s_.drawingUnit.empty()) {
            contradiction(tr("A section table has no layers, and its unit is mm."),
                          tr("Take drawing_layer and drawing_unit out."));
        }
        return paths(readSectionTable(text, s_.piece));
    }

    std::vector<DrawnPath> fromDxf(std::string_view text) {
        if (s_.piece != 0) contradiction(tr("A DXF drawing has no numbered pieces."), tr("Take piece out."));
        return paths(readDxf(text, {s_.drawingLayer, drawingUnitNamed(s_.drawingUnit)}));
    }

    std::vector<DrawnPath> paths(Drawing drawing) {
        for (const DrawingFault& fault : drawing.faults) tell(fault);
        return std::move(drawing.paths);
    }

    void takeHalf(std::vector<Contour> contours) {
        const Box drawn = boundingBox(contours);
        if (drawn.rMin < -kChainMm) {
            return stop("setup-drawing-below-axis",
                        say("{} reaches {:.4g} mm below the axis; a half-section stays "
                            "on one side, with y as the radius.",
                            s_.drawingFile, -drawn.rMin),
                        tr("Draw or name the layer of one half only, the axis at y 0."));
        }
        if (!fits(drawn.zMax - drawn.zMin, kLongestMm, tr("long")) || !fits(2 * drawn.rMax, kThickestMm, tr("thick")))
            return;
        for (Contour& contour : contours) {
            if (s_.turnedRound) contour = mirroredInZ(contour, drawn.zMin + drawn.zMax);
            for (ContourCorner& corner : contour) corner.at.r = std::max(0.0, corner.at.r);
        }
        shiftInZ(contours, s_.frontZ - drawn.zMax);
        s_.backZ = s_.frontZ - (drawn.zMax - drawn.zMin);
        s_.outerRadius = drawn.rMax;
        s_.halfSection = std::move(contours);
    }

    void takeCross(std::vector<Contour> contours) {
        const double farthest = farthestFromOrigin(contours);
        if (!fits(2 * farthest, kThickestMm, tr("thick, over all as it turns")) || s_.backZ >= s_.frontZ) return;
        s_.outerRadius = farthest;
        s_.crossSection = std::move(contours);
    }

    bool fits(double size, double most, const char* what) {
        if (size >= kThinnestMm && size <= most) return true;
        stop("setup-out-of-range",
             say("{} shows a blank {:.4g} mm {}; it must lie between {:g} and {:g}.", s_.drawingFile, size, what,
                 kThinnestMm, most),
             tr("Correct the drawing, or say its unit with drawing_unit."));
        return false;
    }

    void contradiction(std::string message, std::string remedy) {
        stop("setup-stock-contradiction", std::move(message), std::move(remedy));
    }

    void stop(std::string_view code, std::string message, std::string remedy) {
        setup_.findings.push_back(setupStop(code, s_.sizeSpan, std::move(message), std::move(remedy)));
    }

    void tell(const DrawingFault& fault) {
        const std::string line = fault.line > 0 ? say(", line {}", fault.line) : std::string();
        Finding finding = setupStop(fault.code, s_.sizeSpan,
                                    fmt::format("{}{}: {}", s_.drawingFile, line, fault.message), fault.remedy);
        finding.severity = fault.severity;
        finding.unproven = fault.unproven;
        if (fault.line > 0) finding.values.emplace_back("drawing_line", static_cast<double>(fault.line));
        setup_.findings.push_back(std::move(finding));
    }

    Setup& setup_;
    Stock& s_;
};

}  // namespace

bool wantsDrawing(const Stock& stock) {
    const bool drawn = stock.shape == Stock::Shape::CrossSection || stock.shape == Stock::Shape::HalfSection;
    return drawn && !stock.drawingFile.empty();
}

Setup withDrawing(Setup setup, std::string_view text) {
    if (!wantsDrawing(setup.stock)) return setup;
    BlankDrawing(setup).run(text);
    checkBlankInChuck(setup);
    sortByPlace(setup.findings);
    return setup;
}

Setup withoutDrawing(Setup setup, std::string_view reason) {
    Finding finding = setupStop("setup-drawing-not-usable", setup.stock.sizeSpan, std::string(reason),
                                tr("Put the drawing beside the set-up file, or correct its name."));
    finding.unproven = true;
    setup.findings.push_back(std::move(finding));
    sortByPlace(setup.findings);
    return setup;
}

}  // namespace firstoff
