#include "sim/inspection/iso_286.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstddef>

#include "sim/base/say.h"
#include "sim/inspection/iso_286_deviations.h"

namespace firstoff {

namespace {

constexpr int kLeastGrade = 5, kMostGrade = 18;
constexpr std::array<double, 14> kSteps = {1, 3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500};
constexpr std::size_t kUpTo18 = 3, kFrom315 = 11;

// The step that holds a size: the one that ends at kSteps[result + 1]. What is below 1 counts to the first.
std::optional<std::size_t> stepOf(double sizeMm) {
    if (!(sizeMm > 0)) return std::nullopt;
    for (std::size_t i = 0; i + 1 < kSteps.size(); ++i) {
        if (sizeMm <= kSteps[i + 1]) return i;
    }
    return std::nullopt;
}

double meanOf(std::size_t step) {
    return std::sqrt(kSteps[step] * kSteps[step + 1]);
}

double toMultiples(double value, double of) {
    return of * std::round(value / of);
}

// Where the table of the standard departs from what its formula gives by any of its rules of rounding.
struct Departure {
    std::size_t step;
    int grade;
    double um;
};
constexpr Departure kDepartures[] = {{1, 9, 30}, {1, 10, 48}, {11, 11, 360}, {12, 6, 40}, {12, 11, 400}};

double roundedTolerance(std::size_t step, int grade, double um) {
    for (const Departure& d : kDepartures) {
        if (d.step == step && d.grade == grade) return d.um;
    }
    if (grade == 11) return toMultiples(um, um < 100 ? 5 : 10);
    if (grade == 10 && um < 100) return toMultiples(um, 2);
    if (um >= 200) return toMultiples(um, 10);
    if (um >= 100) return toMultiples(um, 5);
    // The tables have IT6 and IT7 of small and of the largest sizes rounded up, all others to the nearest.
    const bool up = (grade == 6 || grade == 7) && (step <= kUpTo18 || step >= kFrom315);
    return up ? std::ceil(um) : std::round(um);
}

// µm.
double toleranceUm(std::size_t step, int grade) {
    double tens = 1;
    for (; grade > 11; grade -= 5) tens *= 10;
    constexpr double kUnits[] = {7, 10, 16, 25, 40, 64, 100};
    // Sizes up to 3 mm follow the series 1, 1.4, 2.5, 4, 6 and its tens instead.
    constexpr double kFirstStep[] = {4, 6, 10, 14, 25, 40, 60};
    const auto at = static_cast<std::size_t>(grade - kLeastGrade);
    if (step == 0) return tens * kFirstStep[at];
    const double d = meanOf(step);
    const double unit = 0.45 * std::cbrt(d) + 0.001 * d;
    return tens * roundedTolerance(step, grade, kUnits[at] * unit);
}

// IT4, which holes of grade 5 need; from memory (ISO 286-1, table 1).
constexpr double kIt4[] = {3, 4, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20};

// What a hole stands higher than the mirrored shaft: ITn - IT(n-1).
double raiseUm(std::size_t step, int grade) {
    return toleranceUm(step, grade) - (grade == kLeastGrade ? kIt4[step] : toleranceUm(step, grade - 1));
}

// Fundamental deviations of sizes up to 3 mm, which no formula gives.
std::optional<double> firstStep(char letter) {
    switch (letter) {
        case 'd':
            return -20;
        case 'e':
            return -14;
        case 'f':
            return -6;
        case 'g':
            return -2;
        case 'k':
            return 0;
        case 'm':
            return 2;
        case 'n':
            return 4;
        case 'p':
            return 6;
        default:
            return std::nullopt;
    }
}

double evenAbove45(double um) {
    return um > 45 ? toMultiples(um, 2) : std::round(um);
}

// What the standard adds to IT7 for p: "0 to 5".
double aboveIt7(std::size_t step) {
    constexpr double kMore[] = {0, 0, 0, 0, 1, 1, 2, 2, 3, 4, 4, 5, 5};
    return kMore[step];
}

// Of a shaft, µm: es for d to h, ei for k to p. Nothing for letters that no formula gives.
std::optional<double> byFormula(char letter, std::size_t step, int grade) {
    if (letter == 'h' || (letter == 'k' && grade > 7)) return 0;
    if (step == 0) return firstStep(letter);
    const double d = meanOf(step);
    switch (letter) {
        case 'd': {
            const double um = 16 * std::pow(d, 0.44);
            return -toMultiples(um, um < 200 ? 5 : 10);
        }
        case 'e': {
            const double um = 11 * std::pow(d, 0.41);
            if (step == kFrom315) return -125;  // the table departs from the formula, which gives 122.2
            return -(um > 80 ? toMultiples(um, 5) : evenAbove45(um));
        }
        case 'f':
            return -evenAbove45(5.5 * std::pow(d, 0.41));
        case 'g':
            return -std::round(2.5 * std::pow(d, 0.34));
        case 'k':
            return std::round(0.6 * std::cbrt(d));
        case 'm':
            return toleranceUm(step, 7) - toleranceUm(step, 6);
        case 'n':
            if (kSteps[step + 1] == 120) return 23;  // likewise, 23.8
            return std::round(5 * std::pow(d, 0.34));
        case 'p':
            return toleranceUm(step, 7) + aboveIt7(step);
        default:
            return std::nullopt;
    }
}

struct Class {
    std::string letters;  // small
    bool hole = false;
    int grade = 0;
};

std::optional<Class> parsed(std::string_view fit) {
    Class result;
    std::size_t at = 0;
    for (; at < fit.size() && (std::isalpha(static_cast<unsigned char>(fit[at])) != 0); ++at) {
        const bool capital = fit[at] >= 'A' && fit[at] <= 'Z';
        if (at > 0 && capital != result.hole) return std::nullopt;
        result.hole = capital;
        result.letters += static_cast<char>(std::tolower(static_cast<unsigned char>(fit[at])));
    }
    const std::size_t figures = fit.size() - at;
    if (at == 0 || at > 2 || figures == 0 || figures > 2) return std::nullopt;
    for (; at < fit.size(); ++at) {
        if (fit[at] < '0' || fit[at] > '9') return std::nullopt;
        result.grade = 10 * result.grade + (fit[at] - '0');
    }
    return result;
}

// The deviations that a class makes of a size, µm.
class Limits {
public:
    Limits(double sizeMm, std::size_t step, const Class& wanted) : sizeMm_(sizeMm), step_(step), class_(wanted) {}

    std::optional<Deviations> um() const {
        const double width = toleranceUm(step_, class_.grade);
        if (class_.letters == "js") return Deviations{-width / 2, width / 2};
        if (class_.letters == "j") return ofJ(width);
        const auto shaft = shaftDeviation();
        if (!shaft) return std::nullopt;
        if (!class_.hole) {
            return below() ? Deviations{shaft->um - width, shaft->um, shaft->fromMemory}
                           : Deviations{shaft->um, shaft->um + width, shaft->fromMemory};
        }
        if (below()) return Deviations{-shaft->um, -shaft->um + width, shaft->fromMemory};
        return hole(*shaft, width);
    }

private:
    // a to h lie below the size, as shafts.
    bool below() const { return class_.letters[0] <= 'h'; }

    std::optional<TabledDeviation> shaftDeviation() const {
        if (class_.letters.size() == 1) {
            // The shaft whose deviation a hole K mirrors is that of k up to IT7.
            const char letter = class_.letters[0];
            const auto um = byFormula(letter, step_, class_.hole && letter == 'k' ? 7 : class_.grade);
            if (um) return TabledDeviation{*um};
        }
        return tabledDeviation(class_.letters, sizeMm_);
    }

    std::optional<Deviations> ofJ(double width) const {
        if (class_.hole) {
            const auto upper = holeJ(sizeMm_, class_.grade);
            return upper ? std::optional(Deviations{*upper - width, *upper, true}) : std::nullopt;
        }
        const auto lower = shaftJ(sizeMm_, class_.grade);
        return lower ? std::optional(Deviations{*lower, *lower + width, true}) : std::nullopt;
    }

    // K and beyond.
    std::optional<Deviations> hole(const TabledDeviation& shaft, double width) const {
        const char letter = class_.letters[0];
        if (letter == 'k' && class_.grade > 8) return std::nullopt;
        double upper = letter == 'n' && class_.grade > 8 && step_ > 0 ? 0 : -shaft.um;
        const bool raised = class_.grade <= (letter >= 'p' ? 7 : 8) && step_ > 0;
        if (raised) upper += raiseUm(step_, class_.grade);
        constexpr std::size_t k250To315 = 10;
        if (letter == 'm' && class_.grade == 6 && step_ == k250To315) upper = -9;  // stated so in the standard
        return Deviations{upper - width, upper, shaft.fromMemory || (raised && class_.grade == kLeastGrade)};
    }

    double sizeMm_;
    std::size_t step_;
    const Class& class_;
};

}  // namespace

std::optional<double> standardTolerance(double sizeMm, int grade) {
    const auto step = stepOf(sizeMm);
    if (!step || grade < kLeastGrade || grade > kMostGrade) return std::nullopt;
    return toleranceUm(*step, grade) / 1000;
}

std::optional<Deviations> classDeviations(double sizeMm, std::string_view fit, std::string& why) {
    const auto wanted = parsed(fit);
    if (!wanted) {
        why = say("{} is no class of ISO 286, such as h7 or H7", fit);
        return std::nullopt;
    }
    if (wanted->grade < kLeastGrade || wanted->grade > kMostGrade) {
        why = say("of {}, grades {} to {} are reckoned", fit, kLeastGrade, kMostGrade);
        return std::nullopt;
    }
    const auto step = stepOf(sizeMm);
    if (!step) {
        why = say("{} is reckoned for sizes up to {:g} mm", fit, kSteps.back());
        return std::nullopt;
    }
    const std::optional<Deviations> um = Limits(sizeMm, *step, *wanted).um();
    if (!um) {
        why = say("{} of {:.6g} mm is not reckoned here: give the deviations above_mm and below_mm", fit, sizeMm);
        return std::nullopt;
    }
    return Deviations{um->lower / 1000, um->upper / 1000, um->fromMemory};
}

}  // namespace firstoff
