#include "gui/match_list.h"

#include <algorithm>

namespace firstoff::gui {

namespace {

// Bytes looked through per frame: a few milliseconds.
constexpr std::size_t kShare = std::size_t{4} << 20;

}  // namespace

void MatchList::clear() {
    places_.clear();
    revision_ = 0;
    lookedTo_ = 0;
    complete_ = false;
}

void MatchList::look(const std::string& text, std::uint64_t revision, const TextSearch& search) {
    if (revision != revision_ || !(query_ == search.query())) {
        clear();
        revision_ = revision;
        query_ = search.query();
    }
    if (complete_) return;
    const std::size_t until = std::min(text.size(), lookedTo_ + kShare);
    std::size_t from = lookedTo_;
    for (auto match = search.next(text, from, until); match; match = search.next(text, from, until)) {
        places_.push_back(match->from);
        from = match->to;
    }
    lookedTo_ = std::max(until, from);
    complete_ = lookedTo_ >= text.size();
}

std::size_t MatchList::numberOf(std::size_t place) const {
    const auto found = std::lower_bound(places_.begin(), places_.end(), place);
    return found == places_.end() || *found != place ? 0 : static_cast<std::size_t>(found - places_.begin()) + 1;
}

}  // namespace firstoff::gui
