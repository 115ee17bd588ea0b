// Which line set what a cut runs at: feed, speed, tool, compensation. Inside sim/output/sheets and its tests only.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "sim/trial/trial.h"

namespace firstoff {

// What stays in force until something else is said.
enum class ModalThing : std::uint8_t { Tool, WorkOffset, SpeedMode, Speed, FeedMode, Feed, Compensation, Movement };
inline constexpr std::size_t kModalThings = static_cast<std::size_t>(ModalThing::Movement) + 1;

// A word of the program that set it, as it is written.
struct WordInForce {
    std::string word;          // "S200"; empty: nothing has set it
    BlockId block = kNoBlock;  // where it stands
};
using WordsInForce = std::array<WordInForce, kModalThings>;

// By block: what holds while it is carried out for the first time, its own words included. Words of other files that
// the program calls count too; blocks that were never carried out have none.
std::vector<WordsInForce> wordsInForce(const Trial& trial);

}  // namespace firstoff
