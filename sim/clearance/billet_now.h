// The billet as the moves leave it one after the other, for those who measure against it.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "sim/clearance/machine_way.h"
#include "sim/clearance/nearness.h"
#include "sim/stock/history.h"

namespace firstoff {

// Per timed move: between which places on the axis it may change the billet; nothing where it takes off nothing.
struct CutReach {
    float zFrom = 0, zTo = -1;
    bool cuts() const { return zTo >= zFrom; }
};
std::vector<CutReach> cutReaches(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                                 const StockHistory& stock);

// One per worker. Going forwards is cheap, backwards is not.
class BilletNow {
public:
    BilletNow(std::shared_ptr<const StockHistory> stock, const std::vector<CutReach>& reaches);

    // Before timed move `index`, or in it after `fraction` of its length.
    void seek(std::size_t index, double fraction = 0);
    const Billet& billet() const { return cursor_.billet(); }
    const BilletHull& hull();

private:
    void noteChanges(std::size_t from, std::size_t to);

    StockCursor cursor_;
    const std::vector<CutReach>& reaches_;
    std::vector<std::uint32_t> falls_;  // timed moves at whose end pieces fall
    std::optional<BilletHull> hull_;
    std::size_t index_ = 0;
    double fraction_ = 0;
    bool placed_ = false;
    bool all_ = true;  // the hull is to be made afresh
    double dirtyFrom_ = 0, dirtyTo_ = -1;
};

}  // namespace firstoff
