#include "sim/program/called_files.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <exception>
#include <map>
#include <set>

#include "sim/base/characters.h"
#include "sim/base/say.h"

namespace firstoff {

namespace {

constexpr std::array<std::string_view, 6> kEndings = {"", "nc", "txt", "tap", "cnc", "ngc"};
constexpr std::size_t kMostFiles = 1000;
constexpr double kProgramFigures = 10000;  // M98 P31234: three times 1234

struct Call {
    std::int32_t number = 0;
    SourceSpan span;
};

// The calls of the blocks from `first` on.
struct Calls {
    std::vector<Call> literal;
    bool calculated = false;
};

bool isCall(const Word& word) {
    if (word.letter != 'G' && word.letter != 'M') return false;
    if (word.form == Word::Form::Expression) return true;
    if (word.form != Word::Form::Number) return false;
    return word.letter == 'M' ? word.value == 98 : word.value == 65 || word.value == 66;
}

void addCall(const Program& program, BlockId block, Calls& calls) {
    const Block& b = program.blocks[block];
    bool hasL = false;
    bool subprogram = false;
    const Word* p = nullptr;
    for (const Word *word = program.begin(b), *end = program.end(b); word != end; ++word) {
        hasL |= word->letter == 'L';
        subprogram |= word->letter == 'M';
        if (word->letter == 'P' && !word->comma) p = word;
    }
    if (p == nullptr) return;
    calls.calculated |= p->form == Word::Form::Expression;
    if (p->form != Word::Form::Number || p->value < 0 || p->value > 1e9) return;
    const double number = subprogram && !hasL ? std::fmod(p->value, kProgramFigures) : p->value;
    calls.literal.push_back({static_cast<std::int32_t>(number), program.span(block, *p)});
}

Calls callsFrom(const Program& program, BlockId first) {
    Calls calls;
    for (BlockId at = first; at < program.blocks.size(); ++at) {
        const Block& block = program.blocks[at];
        if (std::any_of(program.begin(block), program.end(block), isCall)) addCall(program, at, calls);
    }
    return calls;
}

class Folder {
public:
    Folder(Program& program, std::vector<std::string> names, const std::function<std::string(const std::string&)>& read)
        : program_(program), read_(read) {
        std::sort(names.begin(), names.end());
        for (std::string& name : names) {
            if (const auto number = programNumberOfFile(name)) files_[*number].push_back(std::move(name));
        }
    }

    void append() {
        BlockId looked = 0;
        do {
            const BlockId from = looked;
            looked = static_cast<BlockId>(program_.blocks.size());
            noteNumbers(from);
            Calls calls = callsFrom(program_, from);
            std::stable_sort(calls.literal.begin(), calls.literal.end(),
                             [](const Call& a, const Call& b) { return a.number < b.number; });
            for (const Call& call : calls.literal) take(call.number, call.span);
            if (!calls.calculated) continue;
            for (const auto& [number, names] : files_) take(number, {});
        } while (looked < program_.blocks.size());
    }

private:
    void noteNumbers(BlockId from) {
        for (BlockId at = from; at < program_.blocks.size(); ++at) {
            if (program_.blocks[at].programNumber >= 0) known_.insert(program_.blocks[at].programNumber);
        }
    }

    void take(std::int32_t number, const SourceSpan& call) {
        const auto found = files_.find(number);
        if (found == files_.end() || !known_.insert(number).second || program_.parts.size() > kMostFiles) return;
        const std::vector<std::string>& names = found->second;
        if (names.size() > 1) {
            add(call, Severity::Warning, "several-files-for-program",
                say("Program {} could be {} or {}; {} was taken.", number, names[0], names[1], names[0]),
                tr("Keep one of them in the program's folder."));
        }
        try {
            appendProgram(program_, read_(names.front()), names.front(), number);
        } catch (const std::exception& failure) {
            add(call, Severity::Stop, "file-not-usable", failure.what(),
                tr("Check the file; what the program calls in it is missing from this trial."));
        }
    }

    void add(const SourceSpan& call, Severity severity, const char* code, std::string message, std::string remedy) {
        Finding finding;
        finding.severity = severity;
        finding.code = code;
        finding.span = call;
        finding.unproven = true;
        finding.message = std::move(message);
        finding.remedy = std::move(remedy);
        program_.findings.push_back(std::move(finding));
    }

    Program& program_;
    const std::function<std::string(const std::string&)>& read_;
    std::map<std::int32_t, std::vector<std::string>> files_;
    std::set<std::int32_t> known_;
};

}  // namespace

std::optional<std::int32_t> programNumberOfFile(std::string_view name) {
    const std::size_t point = std::min(name.find('.'), name.size());
    std::string ending(name.substr(std::min(point + 1, name.size())));
    std::transform(ending.begin(), ending.end(), ending.begin(), lower);
    if (std::find(kEndings.begin(), kEndings.end(), ending) == kEndings.end()) return std::nullopt;
    if (point < name.size() && ending.empty()) return std::nullopt;
    std::string_view figures = name.substr(0, point);
    if (!figures.empty() && lower(figures[0]) == 'o') figures.remove_prefix(1);
    const auto isFigure = [](char c) { return c >= '0' && c <= '9'; };
    if (figures.empty() || figures.size() > 8 || !std::all_of(figures.begin(), figures.end(), isFigure)) {
        return std::nullopt;
    }
    std::int32_t number = 0;
    for (char c : figures) number = 10 * number + (c - '0');
    return number;
}

bool callsPrograms(const Program& program) {
    return std::any_of(program.words.begin(), program.words.end(), isCall);
}

void appendCalledFiles(Program& program, std::vector<std::string> names,
                       const std::function<std::string(const std::string&)>& read) {
    if (program.blocks.empty()) return;
    Folder(program, std::move(names), read).append();
}

}  // namespace firstoff
