#include "sim/training/line_place.h"

#include <charconv>

#include "sim/base/say.h"

namespace firstoff {

std::optional<LinePlace> linePlaceOf(std::string_view text) {
    LinePlace place;
    place.sequence = !text.empty() && (text.front() == 'N' || text.front() == 'n');
    if (place.sequence) text.remove_prefix(1);
    constexpr std::size_t kMostFigures = 8;  // more is a slip of the keyboard
    if (text.empty() || text.size() > kMostFigures) return std::nullopt;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), place.number);
    const bool whole = read.ec == std::errc() && read.ptr == text.data() + text.size();
    if (!whole || (!place.sequence && place.number == 0)) return std::nullopt;
    return place;
}

std::string inWords(const LinePlace& place) {
    return place.sequence ? fmt::format("N{}", place.number) : say("line {}", place.number);
}

BlockId blockOf(const Program& program, const LinePlace& place) {
    if (!place.sequence) return program.blockAt(0, place.number);
    const BlockId end = program.endBlockOf(0);
    for (BlockId block = program.firstBlockOf(0); block < end; ++block) {
        if (program.blocks[block].sequenceNumber == static_cast<std::int64_t>(place.number)) return block;
    }
    return kNoBlock;
}

}  // namespace firstoff
