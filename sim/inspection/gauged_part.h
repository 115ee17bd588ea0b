// The simulated part gauged against its drawing: each dimension as a gauge would find it, and where metal is left or
// missing against the drawn outline.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/base/finding.h"
#include "sim/base/point.h"
#include "sim/control/toolpath.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/history.h"

namespace firstoff {

// What to key in so that a size comes to the middle of its limits.
struct OffsetCorrection {
    int offset = 0;       // number on the offset page
    bool inX = true;      // else Z
    double amountMm = 0;  // to add to the wear: X as diameter
};

struct GaugedDimension {
    enum class State : std::uint8_t { Within, TooSmall, TooLarge, NotFound };
    WantedDimension wanted;  // as the set-up gives it, or as read off the drawn outline
    std::string name;        // "Ø24 h7"
    // Limits, mm (diameters as such); Taper: rad.
    double least = 0, most = 0;
    double measured = 0;
    State state = State::NotFound;
    std::string trouble;        // NotFound: why, in plain words
    std::vector<Point> places;  // lathe frame, where it was measured: for drawing and for picking
    int piece = 0;              // as in Loop::piece
    // What left the surface that a correction would move; kUncut: nobody.
    CutId cut = kUncut;
    BlockId block = kNoBlock;
    int toolIndex = -1;
    std::optional<OffsetCorrection> correction;
    std::string noCorrection;  // why there is none, in plain words; empty: there is, or the size is in the middle

    double middle() const { return (least + most) / 2; }
};

// A stretch of the drawn outline beside which the part's surface stands off by more than the general grade allows.
struct ContourDeviation {
    Point from, to;       // lathe frame, on the outline
    double amountMm = 0;  // greatest, to the part's surface; + metal left, - metal missing
    Point place;          // of that
    CutId cut = kUncut;   // that left the surface there
    BlockId block = kNoBlock;
};

// What to key in: "To bring Ø24 h7 to the middle of its limits, put -0.012 in X of offset 3." Or why there is nothing
// to key in; empty where nothing is to be done.
std::string correctionInWords(const GaugedDimension& dimension);

struct GaugedPart {
    std::vector<GaugedDimension> dimensions;  // in order of the set-up; their balloon numbers count from 1
    std::vector<Contour> outline;             // drawn, lathe frame; empty: there is none
    bool outlineOpen =
        false;  // it is the profile of a cycle: its last edge does not run back, its last bulge means nothing
    std::vector<ContourDeviation> deviations;  // in order along it
    double deviationBandMm = 0;                // what was let pass
    int piece = 0;                             // that was gauged
    std::vector<std::string> assumed;
    std::vector<Finding> findings;
};

// `stock` may be null: then everything is not found.
GaugedPart gaugePart(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                     const std::shared_ptr<const StockHistory>& stock);

}  // namespace firstoff
