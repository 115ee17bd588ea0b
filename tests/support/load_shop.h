// Cuts with loads written by hand, for what follows from loads.
#pragma once

#include <cstdint>
#include <memory>

#include "sim/cutting/cutting_load.h"
#include "sim/stock/history.h"
#include "tests/support/shop.h"

namespace firstoff::shop {

// On the part: along the cutting speed; along Z, + away from the chuck; + away from the axis.
struct CutForce {
    double cuttingN = 0, zN = 0, rN = 0;
};

LoadSample sampleAt(float fraction, double radius, const CutForce& force = {});
LoadSample airAt(float fraction);

// A bar held as shop::barStock() holds it, front of the jaws at z = 30, with a turning tool in station 1. Each cut is
// one timed move with loads at its ends and between.
struct LoadedCut {
    firstoff::Setup setup;
    Toolpath toolpath;
    Timeline timeline;
    LoadResult loads;
    std::shared_ptr<const StockHistory> stock;

    LoadedCut(double diameter, double stickOut, double bore = 0);
    // Another tool for what follows; stations as the set-up has them.
    void take(int station);
    // Along Z from the front of the bar, at a radius, mm; spindle at a steady speed.
    void turn(double radius, double length, double feedPerRev, double revPerMin, const CutForce& force);
    void turnBetween(double radius, double fromZ, double toZ, double feedPerRev, double revPerMin,
                     const CutForce& force);
    // Across the front of the bar at constant surface speed.
    void face(double fromRadius, double toRadius, double feedPerRev, double surfaceSpeed, const CutForce& force = {});
    // Cuts the bar by all moves so far.
    void cutBar();

private:
    void add(Point from, Point to, double feed, const ModalState& modal, const CutForce& force);
    std::uint16_t call_ = 0;
};

}  // namespace firstoff::shop
