// The blank and the part as papers draw them. Inside sim/output/sheets only.
#pragma once

#include <vector>

#include "sim/stock/billet.h"
#include "sim/stock/history.h"
#include "sim/trial/trial.h"

namespace firstoff {

// Half-sections in lathe frame: the blank before the first move, and all pieces at the end of the cycle, those that
// fell where they were cut off. Empty where there is no stock.
std::vector<Loop> blankLoops(const Trial& trial, double toleranceMm);
std::vector<Loop> finishedLoops(const Trial& trial, double toleranceMm,
                                StockCursor::Detail detail = StockCursor::Detail::Sectors);
// Of those, the ones of a piece.
std::vector<Loop> loopsOf(std::vector<Loop> loops, int piece);

Box boundingBox(const std::vector<Loop>& loops);

}  // namespace firstoff
