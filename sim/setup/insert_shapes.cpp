#include "sim/setup/insert_shapes.h"

#include <array>
#include <cmath>
#include <numbers>
#include <string>

#include "sim/base/characters.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

// Angles as makers' charts of ISO 1832 give them; tests/reference/inserts_iso1832.csv holds the rows and their sources.
constexpr std::array<InsertShape, 17> kShapes{{{'A', 85},
                                               {'B', 82},
                                               {'C', 80},
                                               {'D', 55},
                                               {'E', 75},
                                               {'F', 50},
                                               {'H', 120},
                                               {'K', 55},
                                               {'L', 90},
                                               {'M', 86},
                                               {'O', 135},
                                               {'P', 108},
                                               {'R', 0},
                                               {'S', 90},
                                               {'T', 60},
                                               {'V', 35},
                                               {'W', 80}}};

// Diameters of inscribed circles, mm, inch based, largest first: where two of them share a code, the smaller one is
// written with a letter code (CS4, WS3), which is not read here.
constexpr std::array kInscribedCirclesMm{31.75, 25.4, 19.05, 15.875, 12.7, 9.525, 7.94, 6.35, 5.56, 4.76, 3.97};

// A size code is the edge length cut to whole mm. The chart's triangles just below a whole millimetre go by the next
// (21.997 mm is 22) but for one (54.993 mm is 54), so both are let pass.
bool hasCode(double edgeMm, int code) {
    return static_cast<int>(edgeMm) == code || static_cast<int>(edgeMm + 0.01) == code;
}

struct Thickness {
    std::string_view code;
    double mm;
};
// T1 from memory, the others as in tests/reference/inserts_iso1832.csv.
constexpr std::array<Thickness, 10> kThicknesses{{{"01", 1.59},
                                                  {"T1", 1.98},
                                                  {"02", 2.38},
                                                  {"03", 3.18},
                                                  {"T3", 3.97},
                                                  {"04", 4.76},
                                                  {"05", 5.56},
                                                  {"06", 6.35},
                                                  {"07", 7.94},
                                                  {"09", 9.52}}};

double thicknessMm(std::string_view code) {
    for (const Thickness& row : kThicknesses) {
        if (row.code == code) return row.mm;
    }
    return 0;
}

std::optional<double> clearanceDeg(char letter) {
    constexpr std::string_view kLetters = "ABCDEFGNP";
    constexpr std::array<double, 9> kDegrees{3, 5, 7, 15, 20, 25, 30, 0, 11};
    const std::size_t at = kLetters.find(letter);
    return at == std::string_view::npos ? std::nullopt : std::optional(kDegrees[at]);
}

bool isRegular(char letter) {
    return letter == 'P' || letter == 'H' || letter == 'O';
}

bool isUpper(char c) {
    return c >= 'A' && c <= 'Z';
}
int twoDigits(std::string_view text) {
    return (text[0] - '0') * 10 + (text[1] - '0');
}

std::string packed(std::string_view text) {
    std::string result;
    for (char c : text) {
        if (c == ' ') continue;
        result.push_back(c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c);
    }
    return result;
}

std::optional<double> edgeOfSize(const InsertShape& shape, int code) {
    for (double circle : kInscribedCirclesMm) {
        const double edge = edgeLengthMm(shape, circle);
        if (hasCode(edge, code)) return edge;
    }
    // Their edges do not follow from the circle; the code is at most 1 mm short of the edge.
    return hasTwoEdges(shape) && code > 0 ? std::optional<double>(code) : std::nullopt;
}

}  // namespace

std::span<const InsertShape> insertShapes() {
    return kShapes;
}

std::optional<InsertShape> insertShape(char letter) {
    for (const InsertShape& shape : kShapes) {
        if (shape.letter == letter) return shape;
    }
    return std::nullopt;
}

double edgeLengthMm(const InsertShape& shape, double inscribedCircleMm) {
    switch (shape.letter) {
        case 'R':
        case 'S':
        case 'L':
            return inscribedCircleMm;
        case 'T':
            return inscribedCircleMm * std::numbers::sqrt3;
        // From the circle's tangent point to a corner of angle a it is (IC/2) / tan(a/2).
        case 'W':
            return inscribedCircleMm / 2 * (1 / std::tan(radians(40)) + 1 / std::tan(radians(80)));
        case 'P':
        case 'H':
        case 'O':
            return inscribedCircleMm / std::tan(radians(shape.angleDeg) / 2);
        default:
            return inscribedCircleMm / std::sin(radians(shape.angleDeg));
    }
}

// A corner of angle a rounded with r uses r / tan(a/2) of each of its edges.
double largestNoseRadiusMm(const InsertShape& shape, double edgeLengthMm) {
    if (shape.letter == 'R') return edgeLengthMm / 2;
    const double here = radians(shape.angleDeg) / 2;
    double next = kPi / 2 - here;  // rhombic: the corners add up to 180°
    if (shape.letter == 'T' || isRegular(shape.letter)) next = here;
    if (shape.letter == 'W') next = radians(80);
    return edgeLengthMm / (1 / std::tan(here) + 1 / std::tan(next));
}

bool hasTwoEdges(const InsertShape& shape) {
    return std::string_view("ABKL").find(shape.letter) != std::string_view::npos;
}

std::optional<InsertDesignation> readInsertDesignation(std::string_view text) {
    const std::string code = packed(text);
    if (code.size() < 10) return std::nullopt;
    for (std::size_t i = 0; i < 4; ++i) {
        if (!isUpper(code[i])) return std::nullopt;
    }
    const std::optional<InsertShape> shape = insertShape(code[0]);
    const std::string_view size = std::string_view(code).substr(4, 2);
    const std::string_view corner = std::string_view(code).substr(8, 2);
    if (!shape || !isDigit(size[0]) || !isDigit(size[1])) return std::nullopt;
    InsertDesignation result{*shape, 0, 0, clearanceDeg(code[1]), thicknessMm(std::string_view(code).substr(6, 2))};
    if (shape->letter == 'R' && corner == "M0") {
        result.edgeLengthMm = twoDigits(size);
        result.noseRadiusMm = result.edgeLengthMm / 2;
        return result.edgeLengthMm > 0 ? std::optional(result) : std::nullopt;
    }
    const std::optional<double> edge = edgeOfSize(*shape, twoDigits(size));
    if (!edge || !isDigit(corner[0]) || !isDigit(corner[1])) return std::nullopt;
    result.edgeLengthMm = *edge;
    result.noseRadiusMm = shape->letter == 'R' ? *edge / 2 : twoDigits(corner) / 10.0;
    return result;
}

}  // namespace firstoff
