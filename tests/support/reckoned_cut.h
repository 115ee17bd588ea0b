// A program cut and its loads reckoned, without what else a trial does.
#pragma once

#include <memory>
#include <string>

#include "sim/cutting/cutting_load.h"
#include "sim/program/program.h"
#include "sim/stock/history.h"
#include "tests/support/shop.h"

namespace firstoff::shop {

struct ReckonedCut {
    Program program;
    firstoff::Setup setup;
    Toolpath toolpath;
    Timeline timeline;
    std::shared_ptr<const StockHistory> stock;
    LoadResult loads;

    // Timed moves of a line that took metal.
    std::vector<std::uint32_t> cutsOfLine(std::uint32_t line) const;
    // The greatest of a figure along a timed move.
    float most(std::uint32_t timedMove, float LoadSample::*figure) const;
    // Seconds from the start of the cycle at which a timed move has gone a part of its length.
    double timeAt(std::uint32_t timedMove, double fraction) const;
    // Integral of the removal rate over the time of a timed move, or of all, by the trapezoids of its samples.
    double removalOverTime(std::uint32_t timedMove) const;
    double removalOverTime() const;
    // What the billet lost in those moves.
    double removed() const;
};

ReckonedCut cutAndReckon(const std::string& program, firstoff::Setup setup, int threads = 0);

// A material with these figures of Kienzle's law.
Material material(double kc11, double mc);

}  // namespace firstoff::shop
