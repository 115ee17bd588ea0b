#include "sim/inspection/metric_thread.h"

#include <array>
#include <cmath>

namespace firstoff {

namespace {

// Nominal diameters of the first and second choice of ISO 261, mm (from memory).
constexpr std::array kNominals{1.0,  1.2,  1.4,  1.6,  1.8,  2.0,  2.2,  2.5,  3.0,  3.5,  4.0,  4.5,
                               5.0,  6.0,  7.0,  8.0,  10.0, 12.0, 14.0, 16.0, 18.0, 20.0, 22.0, 24.0,
                               27.0, 30.0, 33.0, 36.0, 39.0, 42.0, 45.0, 48.0, 52.0, 56.0, 60.0, 64.0};
// Borders of the diameter steps of ISO 965-1, mm (from memory).
constexpr std::array kSteps{0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0};

double stepMean(double diameter) {
    for (std::size_t i = 1; i < kSteps.size(); ++i) {
        if (diameter <= kSteps[i]) return std::sqrt(kSteps[i - 1] * kSteps[i]);
    }
    return diameter;
}

// To the nearest preferred number R40, in µm.
double preferred(double micrometres) {
    static constexpr std::array kR40{100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212,
                                     224, 236, 250, 265, 280, 300, 315, 335, 355, 375, 400, 425, 450, 475,
                                     500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950, 1000};
    const double decade = std::pow(10.0, std::floor(std::log10(micrometres)) - 2);
    double best = kR40.front() * decade;
    for (const int number : kR40) {
        if (std::abs(number * decade - micrometres) < std::abs(best - micrometres)) best = number * decade;
    }
    return best;
}

double pitchToleranceUm(const MetricThread& t) {
    return 90 * std::pow(t.pitchMm, 0.4) * std::pow(stepMean(t.nominalMm), 0.1);
}

double allowanceMm(const MetricThread& t) {
    return std::round(15 + 11 * t.pitchMm) / 1000;
}

template <typename Crest>
std::optional<MetricThread> nearest(double crestMm, double pitchMm, double slackMm, const Crest& crestLimits) {
    std::optional<MetricThread> best;
    double bestOff = 0;
    for (const double nominal : kNominals) {
        if (!(pitchMm > 0) || pitchMm > 0.3 * nominal) continue;
        const MetricThread thread = metricThread(nominal, pitchMm);
        const ThreadLimits limits = crestLimits(thread);
        if (crestMm < limits.least - slackMm || crestMm > limits.most + slackMm) continue;
        const double off = std::abs(crestMm - (limits.least + limits.most) / 2);
        if (best && bestOff <= off) continue;
        best = thread;
        bestOff = off;
    }
    return best;
}

}  // namespace

MetricThread metricThread(double nominalMm, double pitchMm) {
    const double height = pitchMm * std::sqrt(3.0) / 2;
    return {nominalMm, pitchMm, nominalMm - 0.75 * height, nominalMm - 1.25 * height, nominalMm - 17.0 / 12 * height};
}

ThreadLimits boltMajor6g(const MetricThread& t) {
    const double tolerance = preferred(180 * std::cbrt(t.pitchMm * t.pitchMm) - 3.15 / std::sqrt(t.pitchMm)) / 1000;
    const double most = t.nominalMm - allowanceMm(t);
    return {most - tolerance, most};
}

ThreadLimits boltPitch6g(const MetricThread& t) {
    const double most = t.pitchDiameterMm - allowanceMm(t);
    return {most - preferred(pitchToleranceUm(t)) / 1000, most};
}

ThreadLimits nutMinor6H(const MetricThread& t) {
    const double p = t.pitchMm;
    const double tolerance = p < 1 ? 433 * p - 190 * std::pow(p, 1.22) : 230 * std::pow(p, 0.7);
    return {t.minorNutMm, t.minorNutMm + preferred(tolerance) / 1000};
}

ThreadLimits nutPitch6H(const MetricThread& t) {
    return {t.pitchDiameterMm, t.pitchDiameterMm + preferred(1.32 * pitchToleranceUm(t)) / 1000};
}

std::optional<MetricThread> metricBolt(double crestMm, double pitchMm, double slackMm) {
    return nearest(crestMm, pitchMm, slackMm, [](const MetricThread& t) {
        const ThreadLimits limits = boltMajor6g(t);
        return ThreadLimits{limits.least, t.nominalMm};
    });
}

std::optional<MetricThread> metricNut(double crestMm, double pitchMm, double slackMm) {
    return nearest(crestMm, pitchMm, slackMm, nutMinor6H);
}

std::optional<MetricThread> metricByPitchDiameter(double pitchDiameterMm, double pitchMm, double slackMm) {
    return nearest(pitchDiameterMm, pitchMm, slackMm, [](const MetricThread& t) {
        return ThreadLimits{t.pitchDiameterMm, t.pitchDiameterMm};
    });
}

}  // namespace firstoff
