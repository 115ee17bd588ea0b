#include "sim/control/cycle_orders.h"

namespace firstoff {

bool isOneShotCycle(Order order) {
    switch (order) {
        case Order::FinishingCycle:
        case Order::RoughingAlong:
        case Order::RoughingAcross:
        case Order::PatternRepeat:
        case Order::FacePeck:
        case Order::GroovePeck:
        case Order::ThreadingCycle:
            return true;
        default:
            return false;
    }
}

}  // namespace firstoff
