#include "sim/setup/wanted_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "sim/base/contour_geometry.h"
#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/drawing/dxf_reader.h"
#include "sim/setup/half_section.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

namespace {

// A part thinner than this share of its bar is drawn in another unit: an inch taken for a mm makes it 1/25.
constexpr double kFarTooThin = 1.0 / 8;
// Drawn sizes are rounded; more than this above the bar does not fit into it.
constexpr double kFitsMm = 0.05;
constexpr double kChordMm = 0.01;

Contour turnedOver(const Contour& contour) {
    Contour result;
    for (std::size_t i = contour.size(); i > 0; --i) {
        result.push_back({edgeEnd(contour, i - 1), -contour[i - 1].bulge});
    }
    return result;
}

bool isInside(Point p, const std::vector<Point>& loop) {
    bool inside = false;
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const Point a = loop[i], b = loop[(i + 1) % loop.size()];
        if ((a.r <= p.r) == (b.r <= p.r)) continue;
        if (a.z + (p.r - a.r) / (b.r - a.r) * (b.z - a.z) > p.z) inside = !inside;
    }
    return inside;
}

// Where an edge meets the axis, as shares of its chord or of its turn; ends that lie on it are none.
std::vector<double> crossingsOfAxis(Point from, Point to, double bulge) {
    std::vector<double> shares;
    const auto arc = arcOf(from, to, bulge);
    if (!arc) {
        if ((from.r > 0) != (to.r > 0)) shares.push_back(from.r / (from.r - to.r));
    } else if (std::abs(arc->centre.r) < arc->radius) {
        const double across = std::asin(-arc->centre.r / arc->radius);
        const double start = std::atan2(from.r - arc->centre.r, from.z - arc->centre.z);
        for (double angle : {across, kPi - across}) {
            double ahead = std::fmod((angle - start) * (arc->turn > 0 ? 1 : -1), 2 * kPi);
            if (ahead < 0) ahead += 2 * kPi;
            if (ahead < std::abs(arc->turn)) shares.push_back(ahead / std::abs(arc->turn));
        }
        std::sort(shares.begin(), shares.end());
    }
    constexpr double kEnd = 1e-9;
    std::erase_if(shares, [](double share) { return share < kEnd || share > 1 - kEnd; });
    return shares;
}

// The same contour with a corner wherever it crosses the axis.
Contour splitAtAxis(const Contour& contour) {
    Contour result;
    for (std::size_t i = 0; i < contour.size(); ++i) {
        const Point from = contour[i].at, to = edgeEnd(contour, i);
        const auto arc = arcOf(from, to, contour[i].bulge);
        double before = 0;
        Point at = from;
        std::vector<double> shares = crossingsOfAxis(from, to, contour[i].bulge);
        shares.push_back(1);
        for (double share : shares) {
            const double bulge = arc ? bulgeOf((share - before) * arc->turn) : 0;
            result.push_back({at, bulge});
            if (share == 1) break;
            if (arc) {
                const double angle = share * arc->turn;
                const Point start = from - arc->centre;
                at = arc->centre + std::cos(angle) * start + std::sin(angle) * leftOf(start);
            } else {
                at = from + share * (to - from);
            }
            at.r = 0;
            before = share;
        }
    }
    return result;
}

class WantedDrawing {
public:
    explicit WantedDrawing(Setup& setup) : setup_(setup), w_(setup.wanted) {}

    void run(std::string_view text) {
        const Drawing drawing = readDxf(text, {w_.layer, drawingUnitNamed(w_.unit)});
        for (const DrawingFault& fault : drawing.faults) tell(fault);
        for (const DrawnPath& path : drawing.paths) layers_.push_back(path.layer);
        ChainedContours chained = chainHalfSection(drawing.paths);
        for (const DrawingFault& fault : chained.faults) tell(fault);
        std::vector<Contour> contours = std::move(chained.contours);
        if (contours.empty() || !onOneSide(contours) || !oneSection(contours) || !fitsBar(contours)) return;
        shiftInZ(contours, w_.originZ);
        w_.outline = std::move(contours);
    }

private:
    bool onOneSide(std::vector<Contour>& contours) {
        const Box drawn = boundingBox(contours);
        if (drawn.rMin >= -kChainMm) {
            for (Contour& contour : contours) {
                for (ContourCorner& corner : contour) corner.at.r = std::max(0.0, corner.at.r);
            }
            return true;
        }
        std::vector<Contour> halves;
        if (!alikeBelow(contours) || !upperHalves(contours, halves)) {
            stop("setup-drawing-below-axis",
                 say("{} reaches {:.4g} mm below the axis and is not the same on both sides of it; a "
                     "half-section stays on one side, with y as the radius.",
                     w_.file, -drawn.rMin),
                 tr("Draw, or name the layer of, one half only, the axis at y 0."));
            return false;
        }
        contours = std::move(halves);
        Finding finding = setupStop("setup-drawing-both-sides", w_.span,
                                    say("{} is drawn on both sides of the axis; its upper half was taken.", w_.file),
                                    tr("Nothing, if both halves are alike."));
        finding.severity = Severity::Note;
        setup_.findings.push_back(std::move(finding));
        return true;
    }

    // Every corner has one opposite.
    static bool alikeBelow(const std::vector<Contour>& contours) {
        std::vector<Point> corners;
        for (const Contour& contour : contours) {
            for (const ContourCorner& corner : contour) corners.push_back(corner.at);
        }
        return std::all_of(corners.begin(), corners.end(), [&](Point p) {
            return std::any_of(corners.begin(), corners.end(), [&](Point q) {
                return distance({p.z, -p.r}, q) <= 2 * kChainMm;
            });
        });
    }

    // False where an outline crosses the axis more than twice.
    static bool upperHalves(const std::vector<Contour>& contours, std::vector<Contour>& halves) {
        for (const Contour& whole : contours) {
            const Contour split = splitAtAxis(whole);
            const auto above = [&](std::size_t i) {
                const Box box = edgeBox(split[i].at, edgeEnd(split, i), split[i].bulge);
                return box.rMax > kChainMm;
            };
            std::size_t first = 0, runs = 0;
            for (std::size_t i = 0; i < split.size(); ++i) {
                if (!above(i) || above((i + split.size() - 1) % split.size())) continue;
                first = i;
                ++runs;
            }
            if (runs > 1) return false;
            Contour half;
            for (std::size_t k = 0; k < split.size(); ++k) {
                const std::size_t i = (first + k) % split.size();
                if (!above(i)) {
                    if (k > 0) half.push_back({split[i].at, 0});
                    break;
                }
                half.push_back(split[i]);
            }
            if (half.size() > 1) halves.push_back(std::move(half));
        }
        return !halves.empty();
    }

    // Gives each outline its sense. False where two lie side by side.
    bool oneSection(std::vector<Contour>& contours) {
        std::vector<std::vector<Point>> loops;
        for (const Contour& contour : contours) loops.push_back(polyline(contour, kChordMm));
        std::vector<std::size_t> outer;
        for (std::size_t i = 0; i < contours.size(); ++i) {
            int around = 0;
            for (std::size_t k = 0; k < loops.size(); ++k) {
                if (k != i && isInside(loops[i].front(), loops[k])) ++around;
            }
            if (around == 0) outer.push_back(i);
            if ((areaOf(contours[i]) > 0) != (around % 2 == 0)) contours[i] = turnedOver(contours[i]);
        }
        if (outer.size() == 1) return true;
        const auto said = [&](std::size_t i) {
            const Box box = boundingBox({contours[i]});
            return say("one from x {:.4g} to {:.4g}, y {:.4g} to {:.4g}", box.zMin, box.zMax, box.rMin, box.rMax);
        };
        stop("setup-drawing-two-outlines",
             say("{} shows {} closed outlines side by side ({}; {}), and which is the section is not said.", w_.file,
                 outer.size(), said(outer[0]), said(outer[1])),
             w_.layer.empty() && layersDiffer() ? tr("Name the layer of the section with layer.")
                                                : tr("Leave only the half-section on that layer."));
        return false;
    }

    bool layersDiffer() const {
        return std::any_of(layers_.begin(), layers_.end(), [&](const std::string& l) { return l != layers_.front(); });
    }

    bool fitsBar(const std::vector<Contour>& contours) {
        const Stock& bar = setup_.stock;
        if (bar.outerRadius <= 0) return true;  // nothing to compare with, said elsewhere
        const Box drawn = boundingBox(contours);
        const double length = drawn.zMax - drawn.zMin;
        const double barLength = bar.frontZ - bar.backZ;
        const bool thick = drawn.rMax > bar.outerRadius + kFitsMm, isLong = length > barLength + kFitsMm;
        const bool thin = drawn.rMax < kFarTooThin * bar.outerRadius;
        if (!thick && !isLong && !thin) return true;
        stop("setup-drawing-size",
             thin ? say("{} shows a part {:.5g} mm in diameter and {:.5g} mm long, the bar is {:.5g} mm in diameter "
                        "and {:.5g} mm long: far too small for it.",
                        w_.file, 2 * drawn.rMax, length, 2 * bar.outerRadius, barLength)
                  : say("{} shows a part {:.5g} mm in diameter and {:.5g} mm long, the bar is {:.5g} mm in diameter "
                        "and {:.5g} mm long: it does not fit into it.",
                        w_.file, 2 * drawn.rMax, length, 2 * bar.outerRadius, barLength),
             tr("Say the unit of the drawing with unit, or correct the drawing or the bar."));
        return false;
    }

    void stop(std::string_view code, std::string message, std::string remedy) {
        setup_.findings.push_back(setupStop(code, w_.span, std::move(message), std::move(remedy)));
        setup_.findings.back().unproven = true;
    }

    void tell(const DrawingFault& fault) {
        const std::string line = fault.line > 0 ? say(", line {}", fault.line) : std::string();
        Finding finding =
            setupStop(fault.code, w_.span, fmt::format("{}{}: {}", w_.file, line, fault.message), fault.remedy);
        finding.severity = fault.severity;
        finding.unproven = fault.unproven;
        if (fault.line > 0) finding.values.emplace_back("drawing_line", static_cast<double>(fault.line));
        setup_.findings.push_back(std::move(finding));
    }

    Setup& setup_;
    WantedPart& w_;
    std::vector<std::string> layers_;
};

}  // namespace

Setup withWantedDrawing(Setup setup, std::string_view text) {
    if (setup.wanted.file.empty()) return setup;
    setup.wanted.fileRead = true;
    WantedDrawing(setup).run(text);
    sortByPlace(setup.findings);
    return setup;
}

Setup withoutWantedDrawing(Setup setup, std::string_view reason) {
    setup.wanted.fileRead = true;
    Finding finding = setupStop("setup-drawing-not-usable", setup.wanted.span, std::string(reason),
                                tr("Put the drawing beside the set-up file, or correct its name."));
    finding.unproven = true;
    setup.findings.push_back(std::move(finding));
    sortByPlace(setup.findings);
    return setup;
}

}  // namespace firstoff
