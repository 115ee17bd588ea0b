// Roughness parameters of a profile, by the definitions of ISO 4287 and ISO 21920-2 (all from memory; no standard was
// at hand).
//
// Mean line: the profile through the Gaussian filter of ISO 16610-21. Its weights are
//     s(x) = exp(-pi (x / (alpha lambda_c))²) / (alpha lambda_c),    alpha = sqrt(ln 2 / pi) = 0.4697
// so that a wave as long as the cut-off lambda_c passes into the mean line at half its height. What is left is the
// roughness profile z(x).
//
// Over the evaluation length, five sections (sampling lengths) of one cut-off each:
//     Ra = mean |z|,  Rq = sqrt(mean z²),  Rt = highest peak + deepest valley,
//     Rp, Rv, Rz = means over the sections of their highest peak, deepest valley, and of the sum of both,
//     RSm = mean width of a peak with its valley; those that do not rise and fall a tenth of Rz beyond the mean line do
//     not count.
// The profile is taken as it was cut: neither a stylus tip nor the short-wave filter (lambda_s) of an instrument has
// rounded it.
//
// Ends: the filter reaches half a cut-off to either side at least (its weights beyond add up to 0.8 %), a whole one
// where there is so much; where the profile ends earlier, the weights that remain are scaled up. A profile too short
// for five sections and both ends gets fewer, `sections` says how many; one too short for a single section is not
// filtered at all: heights count from their mean, since the form is not in them, and the parameters are then those of
// the primary profile, Pa and Pz.
#pragma once

#include <optional>
#include <vector>

#include "sim/base/surface_profile.h"

namespace firstoff {

inline constexpr int kSections = 5;

// mm.
struct Roughness {
    double ra = 0, rq = 0, rz = 0, rt = 0, rp = 0, rv = 0;
    std::optional<double> rsm;  // nothing with fewer than two whole marks
    double cutOff = 0;          // 0: not filtered
    int sections = 0;           // of one cut-off each; 1 where not filtered
    double from = 0, to = 0;    // evaluation length, along the profile

    bool filtered() const { return cutOff > 0; }
    // Less than what the standard asks for.
    bool cutShort() const { return sections < kSections; }
};

// The cut-off for a profile that repeats itself after `spacing` mm, as turned ones do: 0.08 up to 0.04, 0.25 up to
// 0.13, 0.8 up to 0.4, 2.5 up to 1.3, else 8 (ISO 4288 table 3 and ISO 21920-3, from memory).
double cutOffFor(double spacing);

// Mean distance between marks, mm; nothing where there are not two. `profile` as it is, without a filter.
std::optional<double> spacingOf(const SurfaceProfile& profile);

// Profile length that is wanted for a cut-off, with a whole one at either end for the filter.
constexpr double wantedLength(double cutOff) {
    return (kSections + 2) * cutOff;
}

// `cutOff` > 0, mm. Asserts that there are at least three heights.
Roughness roughnessOf(const SurfaceProfile& profile, double cutOff);

// Heights of the mean line that `roughness` counts from: one per height of the profile from `roughness.from` to
// `roughness.to`. `roughness` must be that of `profile`.
std::vector<double> meanLineOf(const SurfaceProfile& profile, const Roughness& roughness);

// Of the filter: how much of a wave of this length passes into the mean line.
double passedIntoMeanLine(double waveLength, double cutOff);

}  // namespace firstoff
