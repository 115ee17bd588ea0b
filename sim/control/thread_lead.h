// How far a thread goes with every turn of the spindle.
//
// Notation. s: way along the longer axis of the thread, mm; n: revolutions since its start; F: lead at the start, mm;
// K: change of the lead with every revolution, mm. The lead grows evenly, L(n) = F + K n, so that
//     s(n) = F n + K n² / 2,    L(s) = sqrt(F² + 2 K s),    n(s) = 2 s / (F + L(s))
// (elementary; that the lead changes evenly and not in steps is common practice, no source).
#pragma once

#include <algorithm>
#include <cmath>

namespace firstoff {

struct LeadLaw {
    double lead = 0;    // F, mm, > 0
    double change = 0;  // K, mm

    // Whether the lead is still above zero after this way.
    bool lasts(double way) const { return lead * lead + 2 * change * way > 0; }
    double leadAt(double way) const { return std::sqrt(std::max(0.0, lead * lead + 2 * change * way)); }
    double revolutions(double way) const { return 2 * way / (lead + leadAt(way)); }
    double wayAfter(double revolutions) const { return revolutions * (lead + change * revolutions / 2); }
};

}  // namespace firstoff
