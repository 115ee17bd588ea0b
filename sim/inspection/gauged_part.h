// The simulated part gauged against its drawing: each dimension as a gauge would find it, and where metal is left or
// missing against the drawn outline.
#pragma once

#include <cmath>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/base/finding.h"
#include "sim/base/point.h"
#include "sim/control/toolpath.h"
#include "sim/inspection/cut_bending.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/history.h"

namespace firstoff {

// How a size moves with an entry of the offset page: mm for each mm added to the wear, X as diameter.
struct OffsetMove {
    int offset = 0;   // number on the offset page
    bool inX = true;  // else Z
    double perMm = 1;
};

// What one dimension alone would have added to the wear. Another that hangs on the same offset may want something
// else: what to key in stands in GaugedPart::corrections.
struct OffsetWish {
    int offset = 0;
    bool inX = true;
    double amountMm = 0;  // X as diameter
};

// A size at one place of a surface, bending counted where it is known.
struct SizeAt {
    Point place;  // lathe frame
    double size = 0;
};

struct GaugedDimension {
    enum class State : std::uint8_t { Within, TooSmall, TooLarge, NotFound };
    WantedDimension wanted;  // as the set-up gives it, or as read off the drawn outline
    std::string name;        // "Ø24 h7"
    // Limits, mm (diameters as such); Taper: rad. 0 where they are not known.
    double least = 0, most = 0;
    bool limited = false;  // they are known; NotFound or not
    // As the path of the tool leaves it, where the size to be expected is farthest from the middle of its limits.
    double measured = 0;
    // What part and bar give way there, in the unit of `measured`, + larger. NaN where it is not known, with the
    // reason in `bendingNote`; 0 for kinds that do not hang on it.
    double bending = 0;
    std::string bendingNote;        // in plain words
    SizeAt smallest, largest;       // to be expected along the surface; the same place where it is alike everywhere
    State state = State::NotFound;  // of what is to be expected
    std::string trouble;            // NotFound: why, in plain words
    std::vector<Point> places;      // lathe frame, where it was measured: for drawing and for picking
    int piece = 0;                  // as in Loop::piece
    // What left the surface that a correction would move; kUncut: nobody.
    CutId cut = kUncut;
    BlockId block = kNoBlock;
    int toolIndex = -1;
    // Entries of the offset page that move it; first the one that it hangs on. Empty: none, `noCorrection` says why.
    std::vector<OffsetMove> moves;
    std::optional<OffsetWish> wish;  // nothing where the size is in the middle
    std::string noCorrection;        // why there is none, in plain words; empty: there is, or the size is in the middle

    double middle() const { return (least + most) / 2; }
    // Bending counted where it is known.
    double expected() const { return std::isnan(bending) ? measured : measured + bending; }
};

// A surface that an offset moves although no dimension holds it there; lathe frame.
struct MovedSurface {
    Point from, to;
};

// What to key in at one entry of the offset page so that all dimensions that hang on it are within their limits, each
// as near to the middle as the others let it.
struct OffsetCorrection {
    // What leaves one of its dimensions within; least > most: nothing does.
    struct Suits {
        std::size_t dimension = 0;  // into GaugedPart::dimensions
        double leastMm = 0, mostMm = 0;
    };
    int offset = 0;
    bool inX = true;                 // else Z
    bool possible = true;            // false: no amount suits all of them
    double amountMm = 0;             // to add to the wear, X as diameter, whole micrometres; 0 where nothing suits
    double leastMm = 0, mostMm = 0;  // what suits all of them, other entries keyed in as told
    std::vector<Suits> suits;
    // Dimensions that hang on another entry and move with this one as well: reckoned with.
    std::vector<std::size_t> alsoMoves;
    std::vector<MovedSurface> without;  // surfaces that move and have no dimension
};

// A stretch of the drawn outline beside which the part's surface stands off by more than the general grade allows.
struct ContourDeviation {
    Point from, to;       // lathe frame, on the outline
    double amountMm = 0;  // greatest, to the part's surface; + metal left, - metal missing
    Point place;          // of that
    CutId cut = kUncut;   // that left the surface there
    BlockId block = kNoBlock;
};

// Of a size of this dimension; Within, where its limits are not known.
GaugedDimension::State stateOf(const GaugedDimension& dimension, double size);

struct GaugedPart {
    std::vector<GaugedDimension> dimensions;    // in order of the set-up; their balloon numbers count from 1
    std::vector<OffsetCorrection> corrections;  // by offset, Z before X; only where something is to be keyed in
    std::vector<Contour> outline;               // drawn, lathe frame; empty: there is none
    bool outlineOpen =
        false;  // it is the profile of a cycle: its last edge does not run back, its last bulge means nothing
    std::vector<ContourDeviation> deviations;  // in order along it
    double deviationBandMm = 0;                // what was let pass
    int piece = 0;                             // that was gauged
    bool bendingKnown = false;                 // false: sizes are those of the paths alone
    std::vector<std::string> assumed;
    std::vector<Finding> findings;
};

// `stock` may be null: then everything is not found. `bent`: what the cuts give way.
GaugedPart gaugePart(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                     const std::shared_ptr<const StockHistory>& stock, const CutBending& bent = {});

}  // namespace firstoff
