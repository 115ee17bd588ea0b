#include "sim/plain_words/program_explained.h"

#include <fmt/format.h>

#include "sim/plain_words/block_explained.h"
#include "sim/plain_words/wrapped_lines.h"

namespace firstoff {

namespace {

constexpr std::size_t kWide = 92;  // characters of a sentence before it goes on below
constexpr std::size_t kIndent = 14;

std::string blockExplained(const Trial& trial, BlockId block, std::optional<std::size_t> step = {}) {
    std::string text =
        fmt::format("{:>4}  {}\n", trial.program.lineOf(block), trial.program.textOf(trial.program.blocks[block]));
    for (const WordExplained& word : explainBlock(trial, block, step)) {
        text += fmt::format("      {:<8}{}\n", word.word, wrappedLines(word.text, kWide, kIndent));
    }
    return text;
}

}  // namespace

std::string programExplained(const Trial& trial, std::optional<std::uint32_t> line) {
    if (line) {
        const BlockId block = trial.program.blockAt(0, *line);
        return block == kNoBlock ? std::string() : blockExplained(trial, block);
    }
    const std::vector<std::size_t> steps = firstSteps(trial);
    std::string text;
    for (BlockId block = 0; block < trial.program.endBlockOf(0); ++block) {
        text += blockExplained(trial, block, steps[block]);
    }
    return text;
}

}  // namespace firstoff
