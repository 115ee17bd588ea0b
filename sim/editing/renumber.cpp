#include "sim/editing/renumber.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>
#include <optional>

#include "sim/base/say.h"
#include "sim/control/codes.h"
#include "sim/control/profile_search.h"

namespace firstoff {

namespace {

constexpr std::int32_t kSystemNumber = 4114;  // the variable that holds the sequence number in force

// One program of the tape: searches for numbers stay inside it.
struct Section {
    BlockId first = 0, end = 0;
    std::int32_t number = -1;  // of its O word
    bool main = false;
};

// A piece of text that names a sequence number.
struct Follower {
    BlockId block = kNoBlock;
    std::size_t from = 0, to = 0;  // of the figures
    BlockId target = kNoBlock;
};

bool isWholeNumber(double value) {
    return value >= 0 && value < 1e9 && value == std::floor(value);
}

class Renumberer {
public:
    Renumberer(const Program& program, CodeSystem system, const Renumbering& wish)
        : program_(program), system_(system), wish_(wish), end_(program.endBlockOf(0)), fresh_(end_, -1) {}

    Renumbered run() {
        findSections();
        findNumbers();
        findFollowers();
        giveNumbers();
        if (result_.refusals.empty()) write();
        return std::move(result_);
    }

private:
    void refuse(BlockId block, std::string text) { result_.refusals.push_back({block, std::move(text)}); }
    void caution(BlockId block, std::string text) { result_.cautions.push_back({block, std::move(text)}); }
    std::string line(BlockId block) const { return say("Line {}", program_.lineOf(block)); }
    std::string written(const Word& word) const { return std::string(program_.textOf(word)); }

    // The program that runs, then every other one with an O number. What stands outside them is never carried out.
    void findSections() {
        sections_.push_back({0, endOfProgramText(program_), -1, true});
        for (BlockId id = 0; id < end_; ++id) {
            const Block& block = program_.blocks[id];
            const bool inMain = id < sections_.front().end;
            if (inMain) {
                if (block.programNumber >= 0) sections_.front().number = block.programNumber;
                continue;
            }
            const bool closes = block.programNumber >= 0 || block.kind == Block::Kind::Percent;
            if (closes && sections_.size() > 1 && sections_.back().end == end_) sections_.back().end = id;
            if (block.programNumber >= 0) sections_.push_back({id, end_, block.programNumber, false});
        }
    }

    void findNumbers() {
        for (const Section& section : sections_) {
            for (BlockId id = section.first; id < section.end; ++id) {
                checkNumberOf(id);
                const std::int32_t number = program_.blocks[id].sequenceNumber;
                if (number >= 0) byNumber_[number].push_back(id);
            }
        }
    }

    void checkNumberOf(BlockId id) {
        const Block& block = program_.blocks[id];
        const auto isNumber = [](const Word& word) { return word.letter == 'N' && !word.comma; };
        const auto count = std::count_if(program_.begin(block), program_.end(block), isNumber);
        if (count > 1) refuse(id, say("{}: two N words stand in one block.", line(id)));
        if (count == 1 && block.sequenceNumber < 0) {
            const Word* word = std::find_if(program_.begin(block), program_.end(block), isNumber);
            refuse(id, say("{}: {} is no whole number.", line(id), written(*word)));
        }
    }

    // ---- what names a number ----

    void findFollowers() {
        for (const Section& section : sections_) {
            for (BlockId id = section.first; id < section.end; ++id) {
                const Block& block = program_.blocks[id];
                if (block.kind == Block::Kind::Statement) followJump(section, id);
                if (block.kind == Block::Kind::Words) followWords(section, id);
            }
        }
        for (const Instruction& instruction : program_.instructions) {
            const bool reads = instruction.op == Instruction::Op::Variable && instruction.number == kSystemNumber;
            if (!reads) continue;
            const BlockId id = blockOfByte(instruction.offset);
            refuse(id, say("{}: #{} reads the sequence number in force, and what it is used for cannot be followed.",
                           capitalised(program_.lineName(id)), kSystemNumber));
        }
        lookIntoCalledFiles();
    }

    static std::string capitalised(std::string text) {
        if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
        return text;
    }

    BlockId blockOfByte(std::size_t byte) const {
        const auto behind = std::upper_bound(program_.blocks.begin(), program_.blocks.end(), byte,
                                             [](std::size_t at, const Block& block) { return at < block.offset; });
        return static_cast<BlockId>(behind - program_.blocks.begin() - 1);
    }

    void followJump(const Section& section, BlockId id) {
        const Statement& statement = program_.statements[program_.blocks[id].statement];
        if (statement.kind == Statement::Kind::Unreadable) {
            const std::string_view text = program_.textOf(program_.blocks[id]);
            const bool jumps =
                text.find("GOTO") != std::string_view::npos || text.find("goto") != std::string_view::npos;
            if (jumps) refuse(id, say("{}: this jump could not be read.", line(id)));
            return;
        }
        if (statement.kind != Statement::Kind::Goto || !statement.target.usable()) return;
        const Instruction& target = program_.instructions[statement.target.first];
        const bool plain = statement.target.count == 1 && target.op == Instruction::Op::Number &&
                           isWholeNumber(target.number) && std::isdigit(byteAt(target.offset)) != 0;
        if (!plain) {
            refuse(id, say("{}: this GOTO calculates where it goes, so that it cannot be followed. Write the number "
                           "behind it, or leave the numbers as they are.",
                           line(id)));
            return;
        }
        follow(section, id, static_cast<std::int32_t>(target.number), figuresAt(target.offset), "GOTO");
    }

    int byteAt(std::size_t at) const {
        return at < program_.text.size() ? static_cast<unsigned char>(program_.text[at]) : 0;
    }

    std::pair<std::size_t, std::size_t> figuresAt(std::size_t from) const {
        std::size_t to = from;
        while (std::isdigit(byteAt(to)) != 0) ++to;
        return {from, to};
    }

    struct BlockCodes {
        bool finishing = false, roughing = false, returns = false, callsByNumber = false, calls = false;
        const Word* unknown = nullptr;
    };

    BlockCodes codesOf(const Block& block) const {
        BlockCodes codes;
        for (const Word* word = program_.begin(block); word != program_.end(block); ++word) {
            if (word->letter != 'G' && word->letter != 'M') continue;
            if (word->form == Word::Form::Expression) codes.unknown = word;
            if (word->form != Word::Form::Number) continue;
            const CodeEntry* entry = codeEntry(
                word->letter, static_cast<int>(std::lround(std::clamp(word->value, -1.0, 1e6) * 10)), system_);
            const Order order = entry != nullptr ? entry->order : Order::Unknown;
            if (order == Order::Unknown || entry->group == CodeGroup::Unknown) codes.unknown = word;
            codes.finishing |= order == Order::FinishingCycle;
            codes.roughing |=
                order == Order::RoughingAlong || order == Order::RoughingAcross || order == Order::PatternRepeat;
            codes.returns |= order == Order::SubprogramEnd;
            codes.callsByNumber |= order == Order::SubprogramCall;
            codes.calls |=
                order == Order::SubprogramCall || order == Order::MacroCall || order == Order::ModalMacroCall;
        }
        return codes;
    }

    const Word* wordOf(const Block& block, char letter) const {
        const Word* found = std::find_if(program_.begin(block), program_.end(block),
                                         [&](const Word& word) { return word.letter == letter && !word.comma; });
        return found == program_.end(block) ? nullptr : found;
    }

    bool isRepeated(const Block& block, char letter) const {
        return std::count_if(program_.begin(block), program_.end(block),
                             [&](const Word& word) { return word.letter == letter && !word.comma; }) > 1;
    }

    void followWords(const Section& section, BlockId id) {
        const Block& block = program_.blocks[id];
        if (block.wordCount == 0) return;
        const BlockCodes codes = codesOf(block);
        const Word* p = wordOf(block, 'P');
        const Word* q = wordOf(block, 'Q');
        if (codes.finishing || (codes.roughing && (p != nullptr || q != nullptr))) {
            if (p == nullptr || q == nullptr) {
                refuse(id, say("{}: the cycle names one end of its profile only.", line(id)));
                return;
            }
            if (isRepeated(block, 'P') || isRepeated(block, 'Q')) {
                refuse(id, say("{}: P or Q stands twice in one block.", line(id)));
                return;
            }
            followWord(section, id, *p);
            followWord(section, id, *q);
        } else if (codes.returns && p != nullptr) {
            followReturn(section, id, *p);
        } else if (codes.callsByNumber && (q != nullptr || wordOf(block, 'H') != nullptr)) {
            refuse(id,
                   say("{}: a call with Q or H names a block on some controls, which cannot be followed.", line(id)));
        } else if (codes.unknown != nullptr && !codes.calls) {
            refuseUnknown(id, block, *codes.unknown);
        }
        if (codes.calls && p != nullptr) cautionCall(id, *p);
    }

    // A code that is not known may name a block, as M97 P100 does on some controls.
    void refuseUnknown(BlockId id, const Block& block, const Word& code) {
        for (const Word* word = program_.begin(block); word != program_.end(block); ++word) {
            const bool names = word->letter == 'P' || word->letter == 'Q' || word->letter == 'H';
            if (!names || word->comma) continue;
            const bool exists =
                word->form != Word::Form::Number ||
                (isWholeNumber(word->value) && byNumber_.contains(static_cast<std::int32_t>(word->value)));
            if (!exists) continue;
            refuse(id,
                   say("{}: {} is not known here, and {} may name a block.", line(id), written(code), written(*word)));
            return;
        }
    }

    void followWord(const Section& section, BlockId id, const Word& word) {
        if (word.form != Word::Form::Number || !isWholeNumber(word.value)) {
            refuse(id, say("{}: {} is calculated or no whole number, so that it cannot be followed.", line(id),
                           written(word)));
            return;
        }
        follow(section, id, static_cast<std::int32_t>(word.value), {word.offset + 1, word.offset + word.length},
               written(word));
    }

    void follow(const Section& section, BlockId id, std::int32_t number, std::pair<std::size_t, std::size_t> figures,
                const std::string& what) {
        if (const auto target = targetIn(section, id, number, what)) {
            followers_.push_back({id, figures.first, figures.second, *target});
        }
    }

    // The one block of a section with this number; refused where there is none or more than one.
    std::optional<BlockId> targetIn(const Section& section, BlockId id, std::int32_t number, const std::string& what) {
        std::vector<BlockId> found;
        if (const auto known = byNumber_.find(number); known != byNumber_.end()) {
            for (BlockId block : known->second) {
                if (block >= section.first && block < section.end) found.push_back(block);
            }
        }
        if (found.size() == 1) return found.front();
        refuse(id, found.empty()
                       ? say("{}: {} asks for N{}, which is not in this program.", line(id), what, number)
                       : say("{}: {} asks for N{}, which stands {} times.", line(id), what, number, found.size()));
        return std::nullopt;
    }

    // M99 P goes to a block of the program that called this one.
    void followReturn(const Section& section, BlockId id, const Word& word) {
        if (word.form != Word::Form::Number || !isWholeNumber(word.value)) return followWord(section, id, word);
        std::vector<const Section*> callers = callersOf(section);
        if (section.main && callers.empty() && endsItself(section)) callers = {&section};
        if (callers.size() != 1) {
            refuse(id, callers.empty()
                           ? say("{}: {} goes back to a block of the calling program, which is not in this text.",
                                 line(id), written(word))
                           : say("{}: {} goes back to a block of several calling programs.", line(id), written(word)));
            return;
        }
        followWord(*callers.front(), id, word);
    }

    bool endsItself(const Section& section) const {
        for (BlockId id = section.first; id < section.end; ++id) {
            const Block& block = program_.blocks[id];
            for (const Word* word = program_.begin(block); word != program_.end(block); ++word) {
                if (word->letter == 'M' && (word->value == 30 || word->value == 2)) return true;
            }
        }
        return false;
    }

    std::vector<const Section*> callersOf(const Section& called) const {
        std::vector<const Section*> callers;
        for (const Section& section : sections_) {
            bool calls = false;
            for (BlockId id = section.first; id < section.end && !calls; ++id) {
                const Block& block = program_.blocks[id];
                if (block.kind != Block::Kind::Words || !codesOf(block).calls) continue;
                const Word* p = wordOf(block, 'P');
                calls = p != nullptr && mayCall(*p, called.number);
            }
            if (calls) callers.push_back(&section);
        }
        return callers;
    }

    // Repeats may stand in front of the last four figures.
    static bool mayCall(const Word& p, std::int32_t number) {
        if (p.form != Word::Form::Number || !isWholeNumber(p.value)) return true;
        return p.value == number || std::fmod(p.value, 10000) == number;
    }

    // ---- other files ----

    void lookIntoCalledFiles() {
        for (BlockId id = end_; id < program_.blocks.size(); ++id) {
            const Block& block = program_.blocks[id];
            if (block.kind != Block::Kind::Words || !codesOf(block).returns) continue;
            const Word* p = wordOf(block, 'P');
            if (p == nullptr) continue;
            refuse(id, say("{}: {} goes back to a block of this program by its number; that file is not changed here.",
                           capitalised(program_.lineName(id)), written(*p)));
        }
    }

    void cautionCall(BlockId id, const Word& p) {
        if (p.form != Word::Form::Number) return;
        const auto isThere = [&](std::int32_t number) {
            for (const Block& block : program_.blocks) {
                if (block.programNumber >= 0 && block.programNumber == number) return true;
            }
            return std::any_of(program_.parts.begin(), program_.parts.end(),
                               [&](const ProgramPart& part) { return part.number == number; });
        };
        const auto whole = isWholeNumber(p.value) ? static_cast<std::int32_t>(p.value) : -1;
        if (whole < 0 || isThere(whole) || isThere(whole % 10000)) return;
        caution(id, say("{} calls program {}, which is not here: if it comes back with M99 P, change that P by hand.",
                        line(id), whole));
    }

    // ---- new numbers ----

    bool getsNumber(const Block& block) const {
        if (block.sequenceNumber >= 0) return true;
        if (!wish_.everyBlock || block.kind == Block::Kind::Percent || block.programNumber >= 0) return false;
        return block.wordCount > 0 || block.kind == Block::Kind::Statement;
    }

    void giveNumbers() {
        for (const Section& section : sections_) {
            std::int64_t next = wish_.first;
            for (BlockId id = section.first; id < section.end; ++id) {
                if (!getsNumber(program_.blocks[id])) continue;
                if (next > kLargestSequenceNumber) {
                    refuse(id,
                           say("{} would be N{}: more than the five figures that controls take. Take a smaller step, "
                               "or number only the blocks that have a number.",
                               line(id), next));
                    return;
                }
                fresh_[id] = static_cast<std::int32_t>(next);
                next += wish_.step;
                ++result_.blocks;
            }
        }
    }

    void write() {
        for (BlockId id = 0; id < end_; ++id) {
            if (fresh_[id] >= 0) writeNumber(program_.blocks[id], fresh_[id]);
        }
        for (const Follower& follower : followers_) {
            const std::string number = std::to_string(fresh_[follower.target]);
            if (put(follower.from, follower.to, number)) ++result_.followers;
        }
        std::sort(result_.changes.begin(), result_.changes.end(),
                  [](const TextChange& a, const TextChange& b) { return a.from < b.from; });
    }

    void writeNumber(const Block& block, std::int32_t number) {
        if (block.sequenceNumber >= 0) {
            const Word* word = wordOf(block, 'N');
            put(word->offset + 1, std::size_t{word->offset} + word->length, std::to_string(number));
            return;
        }
        const std::size_t at = startOf(block);
        std::string text = "N";
        text += std::to_string(number);
        text += ' ';
        put(at, at, text);
    }

    // Behind the block skip, in front of everything else.
    std::size_t startOf(const Block& block) const {
        const std::size_t end = std::size_t{block.offset} + block.length;
        std::size_t at = block.offset;
        const auto blanks = [&] {
            while (at < end && (byteAt(at) == ' ' || byteAt(at) == '\t')) ++at;
        };
        blanks();
        if (block.skip == 0 || byteAt(at) != '/') return at;
        ++at;
        blanks();
        if (std::isdigit(byteAt(at)) != 0) ++at;
        blanks();
        return at;
    }

    bool put(std::size_t from, std::size_t to, std::string with) {
        if (std::string_view(program_.text).substr(from, to - from) == with) return false;
        result_.changes.push_back({from, to, std::move(with)});
        return true;
    }

    const Program& program_;
    const CodeSystem system_;
    const Renumbering wish_;
    const BlockId end_;
    std::vector<Section> sections_;
    std::map<std::int32_t, std::vector<BlockId>> byNumber_;
    std::vector<Follower> followers_;
    std::vector<std::int32_t> fresh_;  // by block; -1: none
    Renumbered result_;
};

}  // namespace

Renumbered renumber(const Program& program, CodeSystem system, const Renumbering& wish) {
    return Renumberer(program, system, wish).run();
}

}  // namespace firstoff
