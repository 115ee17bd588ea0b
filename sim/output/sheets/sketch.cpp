#include "sim/output/sheets/sketch.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include <fmt/format.h>

namespace firstoff {

namespace {

// Widths of the characters 32 to 126 in thousandths of the type size, DejaVu Sans 2.37 (from its font file).
constexpr std::array<int, 95> kWidths = {
    318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361,  318, 337, 636, 636, 636,
    636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 531, 1000, 684, 686, 698, 770, 632,
    575, 775, 752, 295, 295, 656, 557, 863, 748, 787, 603, 787, 695, 635,  611, 732, 684, 989, 685,
    611, 685, 390, 337, 390, 838, 500, 500, 613, 635, 550, 635, 615, 352,  635, 634, 278, 278, 579,
    278, 974, 634, 612, 635, 635, 411, 521, 392, 634, 592, 818, 592, 592,  525, 636, 337, 636, 838};

constexpr int kLatinWidth = 800, kFurtherWidth = 1000;

}  // namespace

double widthOf(LineKind kind) {
    if (kind == LineKind::None) return 0;
    if (kind == LineKind::Fine) return kFineLineMm;
    return kind == LineKind::Wide || kind == LineKind::Broken ? kWideLineMm : kNarrowLineMm;
}

// In widths of the line, ISO 128-2: dashes of 12 with gaps of 3, long dashes of 24 with gaps of 3, dots of 0.5 (from
// memory).
std::vector<double> dashesOf(LineKind kind) {
    const double d = widthOf(kind);
    switch (kind) {
        case LineKind::Hidden:
        case LineKind::Broken:
            return {12 * d * 0.5, 3 * d};
        case LineKind::Centre:
            return {24 * d, 3 * d, d, 3 * d};
        case LineKind::Phantom:
            return {24 * d * 0.6, 3 * d, d, 3 * d, d, 3 * d};
        case LineKind::None:
        case LineKind::Wide:
        case LineKind::Narrow:
        case LineKind::Fine:
            break;
    }
    return {};
}

double greyOf(Shade shade) {
    switch (shade) {
        case Shade::Paper:
            return 1;
        case Shade::Light:
            return 0.92;
        case Shade::Middle:
            return 0.75;
        case Shade::Ink:
            return 0;
        case Shade::None:
            break;
    }
    assert(false);
    return 1;
}

double letteringWidth(std::string_view text, double heightMm) {
    double thousandths = 0;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte >= 0x20 && byte < 0x7f) {
            thousandths += kWidths[byte - 0x20];
        } else if (byte >= 0xc0) {  // begins a character of several bytes
            thousandths += byte < 0xc4 ? kLatinWidth : kFurtherWidth;
        }
    }
    return thousandths / 1000 * heightMm / kCapitalsPerSize;
}

std::vector<PaperPoint> PaperView::at(const std::vector<Point>& points) const {
    std::vector<PaperPoint> result;
    result.reserve(points.size());
    for (Point p : points) result.push_back(at(p));
    return result;
}

double standardScale(double lengthMm, double roomMm) {
    constexpr std::array<double, 11> kScales = {10, 5, 2, 1, 0.5, 0.4, 0.2, 0.1, 0.05, 0.02, 0.01};
    const auto fits =
        std::find_if(kScales.begin(), kScales.end(), [&](double scale) { return scale * lengthMm <= roomMm; });
    return fits == kScales.end() ? kScales.back() : *fits;
}

std::string scaleInWords(double scale) {
    if (scale >= 1) return fmt::format("{}:1", std::lround(scale));
    return fmt::format("1:{}", std::round(1 / scale * 10) / 10);
}

}  // namespace firstoff
