// The finish of a turned surface as its feed marks leave it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/cutting/roughness.h"
#include "sim/stock/feed_marks.h"
#include "sim/trial/trial.h"

namespace firstoff {

// What a nose radius r (mm) fed by f (mm per revolution) leaves while only the nose cuts. Formulas of tool makers'
// tables: Rt = f²/(8 r) for the parabola, r - sqrt(r² - f²/4) for the circle (tests/reference/surface_finish.csv);
// Ra = 4 / (9 sqrt 3) of the parabola's Rt.
struct NoseTheory {
    double rtParabola = 0, rtCircle = 0, ra = 0;  // mm
};
// Asserts 0 < f < 2 r.
NoseTheory noseTheory(double feed, double noseRadius);

struct FinishReport {
    SurfaceSpan span;
    BlockId leftBy = kNoBlock;  // block of the move that left it; only of surfaceFinishes
    double rFrom = 0, rTo = 0;  // radius at both ends of the span, mm; only of surfaceFinishes
    int piece = 0;              // 0: what is held, 1…: a piece that fell
    std::string trouble;        // why there are no figures, in plain words; empty where there are
    double lengthMm = 0;        // of the span, along the surface
    double from = 0, to = 0;    // the part of it that the profile was taken from, along the surface: its middle
    FeedMarks marks;
    Roughness roughness;          // places count along the profile
    std::vector<Point> ends;      // lathe frame: where the evaluation length begins and ends
    std::vector<BlockId> blocks;  // whose marks are on the profile, in order along it
    std::vector<int> stations;
    // An edge lies along the whole profile and leaves no feed marks: what roughness there will be is not reckoned, and
    // the figures, all nearly 0, are not to be shown.
    bool noMarks = false;
    std::optional<NoseTheory> theory;  // where one feed and one nose radius made the whole profile
    std::vector<std::string> notes;    // what to know beside the figures, in plain words

    // Position of a place of the profile along the surface, lathe frame; one per height of the profile.
    std::vector<Point> places;
};

struct FinishOptions {
    std::optional<double> timeS;  // the billet as it is then, after whole moves; else at the end
    double spindleAngle = 0;      // rad; see feed_marks.h
};

// Looks on the pieces that fell first, then on what is held.
FinishReport finishOf(const Trial& trial, const SurfaceSpan& span, const FinishOptions& options = {});
// Of a face at z, whichever way it looks.
FinishReport finishOfFace(const Trial& trial, double z, double rFrom, double rTo, const FinishOptions& options = {});
// Of each surface that a block of the program's own file left and that is still there; none if there is none.
std::vector<FinishReport> finishOfBlock(const Trial& trial, BlockId block, const FinishOptions& options = {});

// Of every surface that a move at feed left on the part and that is still there: pieces in order of falling, then what
// is held, each from its front end on. Threads, and what the shape of a tool leaves where a move begins or ends, are
// not among them. Reckoned when asked for, which takes up to a second for a part with many surfaces; profiles and
// places are left empty.
std::vector<FinishReport> surfaceFinishes(const Trial& trial, const FinishOptions& options = {});

// Of one of those surfaces of a block: the one that a place (lathe frame) lies on or is nearest to, else the longest.
// Nothing if there is none.
std::optional<FinishReport> finishOfSurface(const Trial& trial, BlockId block, std::optional<Point> place,
                                            const FinishOptions& options = {});

}  // namespace firstoff
