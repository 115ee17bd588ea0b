// Collects what the control has to say, once per block and code however often the block is carried out.
#pragma once

#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "sim/base/finding.h"
#include "sim/program/program.h"

namespace firstoff {

// A finding before it has its place.
struct Remark {
    Severity severity = Severity::Warning;
    const char* code = "";
    std::string message;
    std::string remedy;
    std::vector<std::pair<std::string, double>> values = {};
    bool unproven = false;
};

class Remarks {
public:
    Remarks(const Program& program, std::vector<Finding>& out) : program_(program), out_(out) {}

    void at(BlockId block, const Word& word, Remark remark) { add(program_.span(block, word), std::move(remark)); }
    void at(BlockId block, Remark remark) { add(program_.span(block), std::move(remark)); }
    // At the word if there is one, else at the block.
    void at(BlockId block, const Word* word, Remark remark);

    // Whether the block is a macro statement.
    // For messages that name another line.
    std::uint32_t lineOf(BlockId block) const { return program_.lineOf(block); }
    bool isStatement(BlockId block) const { return program_.blocks[block].kind == Block::Kind::Statement; }

    // Adds how many of a kind were not listed one by one.
    void close();

private:
    void add(SourceSpan span, Remark remark);

    const Program& program_;
    std::vector<Finding>& out_;
    std::set<std::pair<std::uint64_t, std::string>> said_;  // part and line, code
    std::map<std::string, std::size_t> counts_;
};

}  // namespace firstoff
