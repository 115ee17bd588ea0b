#include "sim/setup/offset_page.h"

#include <algorithm>

namespace firstoff {

Offset& offsetEntry(Setup& setup, int number) {
    const auto at = std::lower_bound(setup.offsets.begin(), setup.offsets.end(), number,
                                     [](const Offset& offset, int n) { return offset.number < n; });
    if (at != setup.offsets.end() && at->number == number) return *at;
    Offset fresh;
    fresh.number = number;
    return *setup.offsets.insert(at, fresh);
}

}  // namespace firstoff
