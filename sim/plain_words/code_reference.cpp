#include "sim/plain_words/code_reference.h"

#include <algorithm>
#include <cctype>

#include "sim/base/say.h"
#include "sim/plain_words/reference_examples.h"
#include "sim/plain_words/reference_tables.h"

namespace firstoff {

namespace {

std::string lowered(std::string text) {
    for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return text;
}

std::string measureName(WordMeasure measure) {
    switch (measure) {
        case WordMeasure::Number:
            return {};
        case WordMeasure::Length:
            return tr("mm or inch");
        case WordMeasure::Diameter:
            return tr("mm or inch, on the diameter");
        case WordMeasure::Increments:
            return tr("least increments");
        case WordMeasure::Angle:
            return tr("degrees");
        case WordMeasure::Seconds:
            return tr("seconds");
        case WordMeasure::Milliseconds:
            return tr("milliseconds");
    }
    return {};
}

// "G01", "G01 or G02", "G00, G01 or G02".
std::string anyOf(const std::vector<std::string>& codes) {
    std::string text;
    for (std::size_t i = 0; i + 1 < codes.size(); ++i) {
        if (i > 0) text += ", ";
        text += codes[i];
    }
    return codes.empty() ? text : text.empty() ? codes.back() : say("{} or {}", text, codes.back());
}

class MakingReference {
public:
    explicit MakingReference(CodeSystem system) : system_(system) {}

    CodeReference run() const {
        CodeReference made{system_, {}};
        addCodes(made, 'G', ReferencePart::Codes);
        for (const ReferenceEntry& entry : lettersUnderAnyCode()) add(made, ReferencePart::Letters, entry);
        addCodes(made, 'M', ReferencePart::MachineCodes);
        add(made, ReferencePart::MachineCodes,
            {"M…", later("M codes of the machine's own: the set-up says what they do, the machine's manual decides.")});
        for (const ReferenceEntry& entry : macroStatements()) add(made, ReferencePart::Macros, entry);
        for (ReferenceRow& row : made.rows) makeSearchable(row);
        return made;
    }

private:
    int numberOf(const CodeEntry& entry) const {
        return entry.number[entry.letter == 'G' ? static_cast<std::size_t>(system_) : 0];
    }
    std::string writtenHere(const CodeEntry& entry) const { return writtenCode(entry.letter, numberOf(entry)); }

    void addCodes(CodeReference& made, char letter, ReferencePart part) const {
        for (const CodeEntry& entry : codeTable()) {
            if (entry.letter == letter && numberOf(entry) >= 0) made.rows.push_back(rowOf(entry, part));
        }
    }

    void add(CodeReference& made, ReferencePart part, const ReferenceEntry& entry) const {
        const bool other = system_ != CodeSystem::A && entry.meaningBC != nullptr;
        ReferenceRow row;
        row.part = part;
        // Only spans of variables have words in them ("#1 to #33").
        row.code = part == ReferencePart::Macros ? tr(entry.written) : entry.written;
        row.meaning = tr(other ? entry.meaningBC : entry.meaning);
        made.rows.push_back(std::move(row));
    }

    ReferenceRow rowOf(const CodeEntry& entry, ReferencePart part) const {
        ReferenceRow row;
        row.part = part;
        row.code = writtenHere(entry);
        row.group = tr(groupName(entry.group));
        row.meaning = tr(entry.meaning);
        row.carriedOut = entry.group != CodeGroup::Unknown;
        row.words = wordsOf(entry.order);
        row.order = entry.order;
        if (!row.carriedOut) return row;
        row.holds = holdsOf(entry);
        row.ends = endsOf(entry);
        const ReferenceExample example = exampleOf(entry, system_);
        row.example = example.lines;
        row.program = example.program;
        return row;
    }

    static std::vector<ReferenceWord> wordsOf(Order order) {
        std::vector<ReferenceWord> words;
        const auto take = [&](const WordRole& role) {
            if (role.order != order) return;
            words.push_back({role.block, std::string(1, role.letter), tr(role.meaning), measureName(role.measure)});
        };
        for (const WordRole& role : furtherRoles()) take(role);
        for (const WordRole& role : wordRoles()) take(role);
        std::stable_sort(words.begin(), words.end(),
                         [](const ReferenceWord& a, const ReferenceWord& b) { return a.block < b.block; });
        return words;
    }

    // Codes of this system for which `of` holds.
    template <class Of>
    std::vector<std::string> codes(Of of) const {
        std::vector<std::string> found;
        for (const CodeEntry& entry : codeTable()) {
            if (numberOf(entry) >= 0 && of(entry)) found.push_back(writtenHere(entry));
        }
        return found;
    }

    std::vector<std::string> codesOf(std::initializer_list<Order> orders) const {
        return codes([&](const CodeEntry& e) {
            return std::find(orders.begin(), orders.end(), e.order) != orders.end() && e.number[0] <= kShortest;
        });
    }

    std::vector<std::string> othersOf(const CodeEntry& entry) const {
        return codes([&](const CodeEntry& e) {
            return e.group == entry.group && &e != &entry && e.order != Order::ExactStopHere;
        });
    }

    static bool isDrilling(Order order) {
        return order == Order::Drill || order == Order::DrillWithDwell || order == Order::PeckDrill ||
               order == Order::Tap || order == Order::Bore;
    }

    std::string until(const std::vector<std::string>& others) const {
        return others.empty() ? std::string() : say("In force until {}.", anyOf(others));
    }

    std::string holdsOf(const CodeEntry& entry) const {
        switch (entry.order) {
            case Order::CoordinateSetting:
                return tr("A clamp holds until the next one, a setting of coordinates likewise.");
            case Order::LocalShift:
                return say("In force until another {}.", writtenHere(entry));
            case Order::DataEntry:
                return tr("What it enters stays in the control.");
            case Order::ExactStopHere:
                return tr("In its own block only.");
            case Order::PlaneZX:
                return tr("Always in force here.");
            case Order::ModalMacroCall:
                return until(codesOf({Order::ModalMacroEnd}));
            case Order::PolarInterpolation:
                return until(codesOf({Order::PolarInterpolationEnd}));
            case Order::CylindricalInterpolation:
                return say("In force until {} C0.", writtenHere(entry));
            case Order::DrillCancel:
            case Order::ModalMacroEnd:
            case Order::PolarInterpolationEnd:
                return {};
            default:
                return holdsByGroup(entry);
        }
    }

    std::string holdsByGroup(const CodeEntry& entry) const {
        switch (entry.group) {
            case CodeGroup::OneShot:
            case CodeGroup::Machine:
                return tr("In its own block only.");
            case CodeGroup::ProgramFlow:
            case CodeGroup::ToolChange:
                return {};
            case CodeGroup::Motion: {
                std::vector<std::string> others = othersOf(entry);
                if (isDrilling(entry.order)) others.insert(others.begin(), codesOf({Order::DrillCancel}).front());
                return until(others);
            }
            default:
                return until(othersOf(entry));
        }
    }

    std::string endsOf(const CodeEntry& entry) const {
        const auto ends = [&](std::initializer_list<Order> orders) { return say("Ends {}.", anyOf(codesOf(orders))); };
        switch (entry.order) {
            case Order::CompensationOff:
                return ends({Order::CompensationLeft, Order::CompensationRight});
            case Order::DrillCancel:
                return ends({Order::Drill, Order::DrillWithDwell, Order::PeckDrill, Order::Tap, Order::Bore});
            case Order::ModalMacroEnd:
                return ends({Order::ModalMacroCall});
            case Order::PolarInterpolationEnd:
                return ends({Order::PolarInterpolation});
            case Order::SpindleStop:
                return ends({Order::SpindleForward, Order::SpindleReverse});
            case Order::CoolantOff:
                return ends({Order::CoolantOn});
            default:
                return {};
        }
    }

    static void makeSearchable(ReferenceRow& row) {
        row.codeLower = lowered(row.code);
        row.meaningLower = lowered(row.meaning);
        std::string all = row.code;
        for (const std::string* part : {&row.meaning, &row.group, &row.ends}) {
            all += ' ';
            all += *part;
        }
        for (const ReferenceWord& word : row.words) {
            all += ' ';
            all += word.letter;
            all += ' ';
            all += word.meaning;
        }
        row.allLower = lowered(std::move(all));
    }

    static constexpr int kShortest = 999;  // leaves out G107, G112 and G113, second numbers of the same orders

    CodeSystem system_;
};

}  // namespace

std::string referencePartName(ReferencePart part) {
    switch (part) {
        case ReferencePart::Codes:
            return tr("G codes");
        case ReferencePart::Letters:
            return tr("Letters under any code");
        case ReferencePart::MachineCodes:
            return tr("M codes");
        case ReferencePart::Macros:
            return tr("Macro statements");
    }
    return {};
}

std::string cycleBlockName(CycleBlock block) {
    switch (block) {
        case CycleBlock::Only:
            return {};
        case CycleBlock::First:
            return tr("first block");
        case CycleBlock::Second:
            return tr("second block");
    }
    return {};
}

CodeReference codeReference(CodeSystem system) {
    return MakingReference(system).run();
}

const ReferenceRow* referenceRow(const CodeReference& reference, std::string_view code) {
    const auto row = std::find_if(reference.rows.begin(), reference.rows.end(),
                                  [&](const ReferenceRow& r) { return r.code == code; });
    return row == reference.rows.end() ? nullptr : &*row;
}

}  // namespace firstoff
