// ISO metric threads: basic sizes and the usual limits.
//
// Sources: basic profile ISO 68-1 and ISO 724, H = P sqrt(3) / 2, d2 = d - 3/4 H, d1 = d - 5/4 H, root of the bolt with
// H/6 at d3 = d - 17/12 H. Limits ISO 965-1 (formulas from memory; d is the geometric mean of the diameter step,
// results rounded to R40 preferred numbers):
//     es(g) = -(15 + 11 P) µm                     Td2(6) = 90 P^0.4 d^0.1 µm      TD2(6) = 1.32 Td2(6)
//     Td(6) = 180 P^(2/3) - 3.15 / sqrt(P) µm     TD1(6) = 230 P^0.7 µm (P >= 1), 433 P - 190 P^1.22 µm (P < 1)
// The tables of the standard differ from the formulas by one step of R40 here and there.
#pragma once

#include <optional>

namespace firstoff {

struct ThreadLimits {
    double least = 0, most = 0;  // diameters, mm
};

struct MetricThread {
    double nominalMm = 0, pitchMm = 0;
    double pitchDiameterMm = 0;  // basic, bolt and nut
    double minorNutMm = 0;       // D1
    double minorBoltMm = 0;      // d3
};
MetricThread metricThread(double nominalMm, double pitchMm);

// Bolt, tolerance class 6g.
ThreadLimits boltMajor6g(const MetricThread& thread);
ThreadLimits boltPitch6g(const MetricThread& thread);
// Nut, tolerance class 6H.
ThreadLimits nutMinor6H(const MetricThread& thread);
ThreadLimits nutPitch6H(const MetricThread& thread);

// The size that goes with the pitch and the diameter over the crests (of a bolt) or within them (of a nut): the nominal
// diameter of ISO 261's first and second choice, up to 64 mm, for which the crest is within its limits, or `slackMm`
// beside them; the nearest of them. Nothing for other diameters.
std::optional<MetricThread> metricBolt(double crestMm, double pitchMm, double slackMm);
std::optional<MetricThread> metricNut(double crestMm, double pitchMm, double slackMm);
// The size whose basic pitch diameter is nearest, within `slackMm`.
std::optional<MetricThread> metricByPitchDiameter(double pitchDiameterMm, double pitchMm, double slackMm);

}  // namespace firstoff
