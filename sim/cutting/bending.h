// How far part and bar give way under the cut, and the diameter that comes of it.
//
// The part is a beam of its true section at that instant (part_beam.h), clamped at the front of the jaws; a centre,
// where one stands in it, holds its end, and a steady rest its place. A boring bar is a cantilever of its overhang.
// Formulas and examples: tests/reference/deflection.csv.
//
//         y                      The force on the part, in the plane square to the axis: F_r outwards through the edge,
//         |   edge               F_c along the cutting speed. c_p and c_b are what part and bar give way for each N.
//      ---+----x--- r            Seen from the axis of the part, which gives way too, the edge stands
//        axis   r_t                  outwards   r_t - F_r (c_p + c_b)      across   F_c (c_p + c_b)
//
// and so the part comes out with the radius hypot of both. Outside the tool pushes the part away, F_r < 0: it comes out
// larger; in a bore it is pushed outwards and the bar inwards: it comes out smaller. Chuck, slides, turret, centre and
// outside tools are taken as rigid, so that the true figures are larger.
#pragma once

#include <cstdint>
#include <memory>
#include <stop_token>
#include <string>
#include <vector>

#include "sim/base/finding.h"
#include "sim/control/toolpath.h"
#include "sim/cutting/cutting_load.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/history.h"

namespace firstoff {

struct BendingSample {
    float partMm = 0;  // radially, at the cut, + outwards; NaN where it is not known
    float barMm = 0;   // of a boring bar, likewise; 0 for other tools
    // Diameter that the cut leaves above what is programmed, so that + is larger, of a bore too. 0 where the cut leaves
    // no diameter (across the axis); NaN where part or bar is not known.
    float diameterErrorMm = 0;
};

// A place on a finished surface.
struct BentPlace {
    double errorMm = 0;  // as BendingSample::diameterErrorMm
    std::uint32_t sample = 0;
    std::uint32_t timedMove = 0;
    double z = 0;  // of the tip, lathe frame
};

struct ToolBending {
    std::uint32_t call = 0;  // into Toolpath::calls
    // Over the surfaces that stand in the end as this tool left them; nothing where there are none, or the modulus is
    // not known. Where the point of the edge that leaves the surface is not in metal yet, or no more, while other parts
    // of the edge are, no surface comes of it and nothing counts; nor where the slides gain or lose speed.
    bool finishes = false;
    BentPlace greatest, least;  // by size, without sign
    // Of the longest stretch with one sign the difference would be a taper; an offset takes out what both have alike.
    double spreadMm() const { return finishes ? greatest.errorMm - least.errorMm : 0; }
    double overhangRatio = 0;  // of a boring bar: overhang by diameter; 0 others
    // Of what `greatest` gives way, the bar's share: 0 … 1.
    double barShare = 0;
};

struct BendingResult {
    std::vector<BendingSample> samples;  // one for each LoadResult::samples; empty where forces are not known
    std::vector<ToolBending> tools;      // in order of tool calls, those that took metal
    bool known = false;                  // false: forces or the modulus of the material are not known
    std::vector<std::string> missing;    // what the set-up would have to say, in plain words
    std::vector<std::string> assumed;    // what was taken for granted
    std::vector<Finding> findings;       // spans hold block + 1 as line, as those of the timeline do
};

struct BendingOptions {
    std::stop_token stop;
};

// `stock` may be null: then nothing is known. Stops early, with what it has, when asked to.
BendingResult reckonBending(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                            const std::shared_ptr<const StockHistory>& stock, const LoadResult& loads,
                            const BendingOptions& options = {});

// A boring bar, or a bar for threads and grooves in bores.
bool isBar(const Tool& tool);
double barDiameterMm(const Tool& tool);
// GPa: steel as a table of ASME B31.1 has it, cemented carbide from memory. Damped bars count as solid ones.
double barModulusGPa(Tool::Shank shank);
// mm at the tip for each N across it.
double barFlexibility(const Tool& tool);

}  // namespace firstoff
