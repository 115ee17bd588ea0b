// The program of a hand-out: every line with its words, and the card of the codes in it.
#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "sim/base/say.h"
#include "sim/output/finding_words.h"
#include "sim/output/sheets/cycle_runs.h"
#include "sim/output/sheets/sheet_frame.h"
#include "sim/output/sheets/words_in_force.h"
#include "sim/plain_words/block_explained.h"
#include "sim/plain_words/code_reference.h"

namespace firstoff {

namespace {

class AnnotatedProgram {
public:
    explicit AnnotatedProgram(const Trial& trial)
        : t_(trial),
          steps_(firstSteps(trial)),
          inForce_(wordsInForce(trial)),
          runs_(cycleRuns(trial)),
          cuts_(trial.program.blocks.size(), false) {
        for (const Move& move : trial.toolpath.moves) {
            if (!isFed(move)) continue;
            if (move.block < cuts_.size()) cuts_[move.block] = true;
            if (move.cycleBlock < cuts_.size()) cuts_[move.cycleBlock] = true;
        }
    }

    SheetSection section() {
        SheetSection section;
        section.heading = tr("The program, word by word");
        section.parts.emplace_back(
            plain(tr("Figures are those of this trial. A word that was explained once is not explained again as long "
                     "as it comes to the same. Below a line that cuts stands what other lines have set for it: all of "
                     "it for a new tool, then what has "
                     "changed.")));
        for (BlockId block = 0; block < t_.program.endBlockOf(0); ++block) section.parts.emplace_back(lineOf(block));
        return section;
    }

private:
    SheetProgramLine lineOf(BlockId id) {
        const Block& block = t_.program.blocks[id];
        SheetProgramLine line;
        line.number = std::to_string(t_.program.lineOf(id));
        line.text = plainText(t_.program.textOf(block));
        line.quiet = block.wordCount == 0 && block.kind != Block::Kind::Statement;
        for (WordExplained& word : explainBlock(t_, id, steps_[id])) {
            if (told_.emplace(word.word, word.text).second && toldOfNumbers(word)) {
                line.words.push_back({std::move(word.word), std::move(word.text)});
            }
        }
        addCaller(line, id);
        if (cuts_[id]) addWhatIsSet(line, id);
        for (std::size_t i = 0; i < runs_.size(); ++i) {
            if (runs_[i].block == id) line.remarks.push_back(say("Drawn in figure {}.", i + 1));
        }
        return line;
    }

    // What a number of a block is for needs telling once.
    bool toldOfNumbers(const WordExplained& word) {
        if (word.word.empty() || (word.word[0] != 'N' && word.word[0] != 'n')) return true;
        return told_.emplace("N", "").second;
    }

    // All of it where another tool has come, else what has changed.
    void addWhatIsSet(SheetProgramLine& line, BlockId id) {
        constexpr auto kTool = static_cast<std::size_t>(ModalThing::Tool);
        const bool all = inForce_[id][kTool].block != toldSet_[kTool].block;
        std::string set;
        for (std::size_t i = 0; i < kModalThings; ++i) {
            const WordInForce& word = inForce_[id][i];
            const bool told = !all && word.block == toldSet_[i].block;
            toldSet_[i] = word;
            if (told || word.block == kNoBlock || word.block == id) continue;
            if (!set.empty()) set += ", ";
            set += say("{} of {}", word.word, blockName(t_.program, word.block));
        }
        if (!set.empty()) line.remarks.push_back(say("Set before: {}.", set));
    }

    // A line of a profile does nothing where it stands; said at its first.
    void addCaller(SheetProgramLine& line, BlockId id) {
        if (steps_[id] >= t_.toolpath.steps.size()) return;
        const Step& step = t_.toolpath.steps[steps_[id]];
        if (step.firstMove >= t_.toolpath.moves.size()) return;
        const Move& move = t_.toolpath.moves[step.firstMove];
        if (move.block != id || move.cycleBlock == kNoBlock || move.cycleBlock == id) return;
        if (std::exchange(toldCaller_, move.cycleBlock) == move.cycleBlock) return;
        line.remarks.push_back(say("Part of a profile: the figures are those when {} runs along it.",
                                   blockName(t_.program, move.cycleBlock)));
    }

    const Trial& t_;
    std::vector<std::size_t> steps_;
    std::vector<WordsInForce> inForce_;
    std::vector<CycleRun> runs_;
    std::vector<bool> cuts_;
    std::set<std::pair<std::string, std::string>> told_;
    WordsInForce toldSet_;
    BlockId toldCaller_ = kNoBlock;
};

// "U depth of cut; R how far …", first block before second.
std::string lettersOf(const ReferenceRow& row) {
    std::string text;
    CycleBlock block = CycleBlock::Only;
    for (const ReferenceWord& word : row.words) {
        if (!text.empty()) text += word.block != block ? ". " : "; ";
        if (word.block != block) text += word.block == CycleBlock::First ? tr("First block: ") : tr("Second block: ");
        block = word.block;
        text += word.letter;
        text += ' ';
        text += word.meaning;
    }
    if (!text.empty()) text += '.';
    return text;
}

// Of a code that is in no table.
std::string ownMeaning(const Trial& trial, char letter, int tenths) {
    const std::vector<MachineCode>& codes = trial.setup.machineCodes;
    const auto own = std::find_if(codes.begin(), codes.end(), [&](const MachineCode& c) {
        return letter == 'M' && 10 * c.number == tenths && !c.meaning.empty();
    });
    if (own == codes.end()) return tr("Not in the table: see the machine's manual.");
    return say("A code of this machine's own; the set-up says: {}.", plainText(own->meaning));
}

std::string heldInWords(const CodeEntry& entry, const ReferenceRow& row) {
    if (!row.carriedOut) return tr("Not carried out here.");
    if (entry.group == CodeGroup::Motion) return tr("Until another code of movement.");
    return row.holds;
}

// Numbers of the table by letter, ten times the code's.
std::set<std::pair<char, int>> codesIn(const Program& program) {
    std::set<std::pair<char, int>> codes;
    for (BlockId id = 0; id < program.endBlockOf(0); ++id) {
        const Block& block = program.blocks[id];
        for (const Word* word = program.begin(block); word != program.end(block); ++word) {
            const bool code = (word->letter == 'G' || word->letter == 'M') && word->form == Word::Form::Number;
            if (code && std::abs(word->value) < 1e6) {
                codes.emplace(word->letter, static_cast<int>(std::lround(10 * word->value)));
            }
        }
    }
    return codes;
}

}  // namespace

SheetSection programSection(const Trial& trial) {
    return AnnotatedProgram(trial).section();
}

SheetSection codeCardSection(const Trial& trial) {
    SheetSection section;
    section.heading = tr("The codes of this program");
    SheetTable table;
    table.columns = {{tr("Code"), "", SheetColumn::Kind::Text},
                     {tr("What it orders"), "", SheetColumn::Kind::Text},
                     {tr("How long"), "", SheetColumn::Kind::Text}};
    const CodeSystem system = trial.setup.control.codeSystem;
    const CodeReference reference = codeReference(system);
    for (const auto& [letter, tenths] : codesIn(trial.program)) {
        const CodeEntry* entry = codeEntry(letter, tenths, system);
        std::string code(1, letter);
        if (tenths < 100) code += '0';
        code += std::to_string(tenths / 10);
        if (tenths % 10 != 0) {
            code += '.';
            code += std::to_string(tenths % 10);
        }
        const ReferenceRow* row = entry == nullptr ? nullptr : referenceRow(reference, code);
        if (row == nullptr) {
            table.rows.push_back({code, ownMeaning(trial, letter, tenths), ""});
            continue;
        }
        std::string meaning = row->meaning;
        const std::string letters = lettersOf(*row);
        if (!letters.empty()) {
            meaning += ' ';
            meaning += letters;
        }
        table.rows.push_back({code, meaning, heldInWords(*entry, *row)});
    }
    section.parts.emplace_back(std::move(table));
    return section;
}

}  // namespace firstoff
