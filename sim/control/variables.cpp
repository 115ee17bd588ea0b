#include "sim/control/variables.h"

#include <cassert>

namespace firstoff {

Variables::Variables() : levels_{none()} {
    commons_.fill(kNull);
}

Variables::Locals Variables::none() {
    Locals locals;
    locals.fill(kNull);
    return locals;
}

void Variables::set(std::int32_t index, double value) {
    assert(isLocal(index) || isCommon(index));
    if (isLocal(index)) {
        levels_.back()[at(index)] = value;
        return;
    }
    commons_[at(index)] = value;
    written_[at(index)] = true;
}

}  // namespace firstoff
