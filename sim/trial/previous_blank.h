// The blank that another trial left, measured before this one begins.
#pragma once

#include <memory>

#include "sim/setup/setup.h"
#include "sim/stock/history.h"

namespace firstoff {

// Gives stock of Shape::Previous the size of what `previous` left, and adds to the findings what does not go together
// with chuck and centre. Where that left no such piece, that is a finding and there is no bar. Does nothing for other
// stock, nor without a trial before.
void takePrevious(Setup& setup, const std::shared_ptr<const StockHistory>& previous);

}  // namespace firstoff
