#include "gui/colour_vision.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace firstoff::gui {

namespace {

using Row = std::array<double, 3>;
using Matrix = std::array<Row, 3>;

constexpr Matrix kCommon{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
// The paper's matrices at severity 1.0, as its authors publish them; from memory. Each row adds up to 1: greys stay
// grey.
constexpr Matrix kWithoutRed{
    {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}};
constexpr Matrix kWithoutGreen{
    {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}};
constexpr Matrix kWithoutBlue{
    {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}};
// Linear sRGB to CIE XYZ (IEC 61966-2-1).
constexpr Matrix kToXyz{
    {{0.4124564, 0.3575761, 0.1804375}, {0.2126729, 0.7151522, 0.0721750}, {0.0193339, 0.1191920, 0.9503041}}};
constexpr Row kWhite{0.95047, 1, 1.08883};

const Matrix& matrixOf(ColourVision vision) {
    switch (vision) {
        case ColourVision::WithoutRed:
            return kWithoutRed;
        case ColourVision::WithoutGreen:
            return kWithoutGreen;
        case ColourVision::WithoutBlue:
            return kWithoutBlue;
        case ColourVision::Common:
            break;
    }
    return kCommon;
}

Row times(const Matrix& m, const Row& x) {
    Row result{};
    for (std::size_t i = 0; i < 3; ++i) result[i] = m[i][0] * x[0] + m[i][1] * x[1] + m[i][2] * x[2];
    return result;
}

double linearOf(std::uint8_t channel) {
    const double c = channel / 255.0;
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

double lightness(double share) {
    constexpr double kDark = 216.0 / 24389, kSlope = 24389.0 / 27;
    return share > kDark ? std::cbrt(share) : (kSlope * share + 16) / 116;
}

double degreesOf(double radians) {
    const double d = radians * 180 / std::numbers::pi;
    return d < 0 ? d + 360 : d;
}
double cosine(double degrees) {
    return std::cos(degrees * std::numbers::pi / 180);
}
double sine(double degrees) {
    return std::sin(degrees * std::numbers::pi / 180);
}

// What the formula calls G and R_C share.
double strong(double chroma) {
    const double c7 = std::pow(chroma, 7);
    return std::sqrt(c7 / (c7 + std::pow(25.0, 7)));
}

struct HueSteps {
    double apart = 0, middle = 0;  // degrees
};
HueSteps huesOf(double h1, double h2, bool grey) {
    if (grey) return {0, h1 + h2};
    HueSteps steps{h2 - h1, 0.5 * (h1 + h2)};
    if (steps.apart > 180) steps.apart -= 360;
    if (steps.apart < -180) steps.apart += 360;
    if (std::abs(h1 - h2) > 180) steps.middle += h1 + h2 < 360 ? 180 : -180;
    return steps;
}

}  // namespace

const char* name(ColourVision vision) {
    static constexpr std::array<const char*, 4> kNames{"common", "without red", "without green", "without blue"};
    return kNames[static_cast<std::size_t>(vision)];
}

Lab seenBy(ColourVision vision, Colour colour) {
    Row seen = times(matrixOf(vision), {linearOf(colour.r), linearOf(colour.g), linearOf(colour.b)});
    for (double& channel : seen) channel = std::clamp(channel, 0.0, 1.0);
    const Row xyz = times(kToXyz, seen);
    const double x = lightness(xyz[0] / kWhite[0]), y = lightness(xyz[1]), z = lightness(xyz[2] / kWhite[2]);
    return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
}

// Names as in the paper: primes are `1` and `2` after a is stretched by G.
double differenceOf(Lab p, Lab q) {
    const double stretch = 1 + 0.5 * (1 - strong(0.5 * (std::hypot(p.a, p.b) + std::hypot(q.a, q.b))));
    const double c1 = std::hypot(stretch * p.a, p.b), c2 = std::hypot(stretch * q.a, q.b);
    const HueSteps hue =
        huesOf(degreesOf(std::atan2(p.b, stretch * p.a)), degreesOf(std::atan2(q.b, stretch * q.a)), c1 * c2 == 0);
    const double middleL = 0.5 * (p.l + q.l), middleC = 0.5 * (c1 + c2);
    const double t = 1 - 0.17 * cosine(hue.middle - 30) + 0.24 * cosine(2 * hue.middle) +
                     0.32 * cosine(3 * hue.middle + 6) - 0.20 * cosine(4 * hue.middle - 63);
    const double off = (middleL - 50) * (middleL - 50);
    const double dl = (q.l - p.l) / (1 + 0.015 * off / std::sqrt(20 + off));
    const double dc = (c2 - c1) / (1 + 0.045 * middleC);
    const double dh = 2 * std::sqrt(c1 * c2) * sine(0.5 * hue.apart) / (1 + 0.015 * middleC * t);
    const double blue = (hue.middle - 275) / 25;
    const double turn = -sine(60 * std::exp(-blue * blue)) * 2 * strong(middleC);
    return std::sqrt(dl * dl + dc * dc + dh * dh + turn * dc * dh);
}

}  // namespace firstoff::gui
