#include "sim/editing/text_change.h"

#include <cassert>

namespace firstoff {

std::string changedText(std::string_view text, const TextChanges& changes) {
    std::string result;
    result.reserve(text.size());
    std::size_t at = 0;
    for (const TextChange& change : changes) {
        assert(at <= change.from && change.from <= change.to && change.to <= text.size());
        result.append(text.substr(at, change.from - at));
        result.append(change.with);
        at = change.to;
    }
    result.append(text.substr(at));
    return result;
}

}  // namespace firstoff
