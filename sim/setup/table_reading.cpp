#include "sim/setup/table_reading.h"

#include <cassert>

#include "sim/setup/setup_keys.h"

namespace firstoff {

double numberIn(const SetupTable& table, std::string_view key) {
    if (const SetupEntry* entry = table.usable(key)) return entry->value.number;
    const SetupKey* known = setupKey(keyTableOf(table.name), key);
    assert(known);
    return known->fallback;
}

}  // namespace firstoff
