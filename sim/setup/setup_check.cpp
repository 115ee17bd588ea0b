#include "sim/setup/setup_check.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/setup/setup_keys.h"

namespace firstoff {

namespace {

constexpr const char* kWhereDescribed = later("assets/set-up-keys.md describes every key.");

// Number of single-letter changes between two words (Levenshtein).
std::size_t changesBetween(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replaced = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
            diagonal = row[j];
            row[j] = std::min({row[j] + 1, row[j - 1] + 1, replaced});
        }
    }
    return row.back();
}

// The candidate nearest to a mistyped word, if it is near enough to be meant: a third of its letters at most.
std::optional<std::string_view> nearest(std::string_view word, const std::vector<std::string_view>& candidates) {
    constexpr std::size_t kLongestWord = 60;
    std::optional<std::string_view> best;
    if (word.size() > kLongestWord) return best;
    std::size_t fewest = std::max<std::size_t>(1, word.size() / 3) + 1;
    for (std::string_view candidate : candidates) {
        const std::size_t changes = changesBetween(word, candidate);
        if (changes >= fewest) continue;
        fewest = changes;
        best = candidate;
    }
    return best;
}

std::vector<std::string_view> choicesOf(const SetupKey& key) {
    std::vector<std::string_view> result;
    std::string_view rest = key.choices;
    while (!rest.empty()) {
        const std::size_t bar = std::min(rest.find('|'), rest.size());
        result.push_back(rest.substr(0, bar));
        rest.remove_prefix(std::min(bar + 1, rest.size()));
    }
    return result;
}

const char* formInWords(SetupKey::Form form) {
    switch (form) {
        case SetupKey::Form::Number:
            return tr("a number");
        case SetupKey::Form::Whole:
            return tr("a whole number");
        case SetupKey::Form::Range:
            return tr("two numbers, [least, greatest]");
        case SetupKey::Form::Text:
        case SetupKey::Form::Choice:
            return tr("a text in quotes");
        case SetupKey::Form::Flag:
            return tr("true or false");
        case SetupKey::Form::Levels:
            return tr("true, false or a list of numbers such as [1, 3]");
        case SetupKey::Form::List:
            return tr("a list of numbers such as [8.5, 14]");
    }
    return "";
}

bool hasForm(const SetupValue& value, SetupKey::Form form) {
    switch (form) {
        case SetupKey::Form::Number:
            return value.form == SetupValue::Form::Number;
        case SetupKey::Form::Whole:
            return value.form == SetupValue::Form::Number && value.number == std::floor(value.number);
        case SetupKey::Form::Range:
            return value.form == SetupValue::Form::NumberList && value.list.size() == 2;
        case SetupKey::Form::Text:
        case SetupKey::Form::Choice:
            return value.form == SetupValue::Form::Text;
        case SetupKey::Form::Flag:
            return value.form == SetupValue::Form::Flag;
        case SetupKey::Form::Levels:
            return value.form == SetupValue::Form::Flag || value.form == SetupValue::Form::NumberList;
        case SetupKey::Form::List:
            return value.form == SetupValue::Form::NumberList && !value.list.empty();
    }
    return false;
}

class Check {
public:
    explicit Check(SetupDocument& document) : document_(document) {}

    std::vector<Finding> run() {
        for (SetupTable& table : document_.tables) checkTable(table);
        if (document_.incomplete) return std::move(findings_);
        for (std::string_view needed : {"machine", "chuck", "stock"}) {
            const bool there = std::any_of(document_.tables.begin(), document_.tables.end(),
                                           [&](const SetupTable& t) { return t.name == needed; });
            if (!there) missingTable(needed);
        }
        return std::move(findings_);
    }

private:
    void add(std::string_view code, const SourceSpan& span, std::string message, std::string remedy) {
        findings_.push_back(setupStop(code, span, std::move(message), std::move(remedy)));
    }

    void missingTable(std::string_view name) {
        add("setup-missing-table", {}, say("The set-up has no table [{}].", name),
            say("Add [{}] with its keys; {}", name, tr(kWhereDescribed)));
    }

    void checkTable(SetupTable& table) {
        const std::string_view keyTable = keyTableOf(table.name);
        const auto tables = setupTables();
        if (table.name == "work_offsets") return looseKeys(table, tr("[work_offsets.G54] to [work_offsets.G59]"));
        if (table.name == "m_codes") return looseKeys(table, tr("[m_codes.M63] for M63"));
        if (table.name.empty()) return aboveAllTables(table);
        if (std::find(tables.begin(), tables.end(), keyTable) == tables.end()) return unknownTable(table);
        const bool many = keyTable == "tool" || keyTable == "offset" || keyTable == "body" || keyTable == "feed_hold" ||
                          keyTable == "dimension";
        if (many != table.ofMany) wrongBrackets(table, many);
        const char kind = kindOf(table, keyTable);
        for (SetupEntry& entry : table.entries) checkEntry(table, keyTable, kind, entry);
        if (document_.incomplete || table.incomplete) return;
        for (const SetupKey& key : setupKeys()) {
            if (key.table == keyTable) checkPresence(table, kind, key);
        }
    }

    // Letter of the kind of a tool or of the shape of stock, 0 where it is missing or wrong: then keys of any kind are
    // let pass. A kind that may be left out is the first one then.
    static char kindOf(const SetupTable& table, std::string_view keyTable) {
        const std::string_view kindKey = kindKeyOf(keyTable);
        if (kindKey.empty()) return '\0';
        const SetupEntry* kind = table.find(kindKey);
        const SetupKey& key = *setupKey(keyTable, kindKey);
        if (!kind && key.need == SetupKey::Need::Optional) return kindLetter(keyTable, choicesOf(key).front());
        if (!kind || kind->value.form != SetupValue::Form::Text) return '\0';
        for (std::string_view choice : choicesOf(key)) {
            if (choice == kind->value.text) return kindLetter(keyTable, choice);
        }
        return '\0';
    }

    void aboveAllTables(SetupTable& table) {
        for (SetupEntry& entry : table.entries) {
            if (setupKey("", entry.key)) {
                checkEntry(table, "", '\0', entry);
            } else {
                looseKey(entry, tr("a table such as [machine]"));
            }
        }
    }

    void looseKeys(SetupTable& table, std::string_view belongs) {
        for (SetupEntry& entry : table.entries) looseKey(entry, belongs);
    }

    void looseKey(SetupEntry& entry, std::string_view belongs) {
        entry.usable = false;
        add("setup-unknown-key", entry.keySpan, say("The key {} stands outside the tables.", entry.key),
            say("Move it under the heading it belongs to, {}.", belongs));
    }

    void unknownTable(SetupTable& table) {
        std::vector<std::string_view> known(setupTables().begin() + 1, setupTables().end());  // the first has no name
        for (std::string_view offset : {"G54", "G55", "G56", "G57", "G58", "G59"}) known.push_back(offset);
        const auto meant = nearest(table.name, known);
        for (SetupEntry& entry : table.entries) entry.usable = false;
        std::string remedy =
            meant ? say("Did you mean [{}]? ", *meant == "G54" ? "work_offsets.G54" : *meant) : std::string();
        if (table.name.starts_with("m_codes.")) remedy = tr("M codes are M0 to M999, e.g. [m_codes.M63]. ");
        if (table.name.starts_with("work_offsets.")) remedy = tr("Work offsets are G54 to G59. ");
        add("setup-unknown-table", table.span, say("A set-up has no table [{}]; it was not used.", table.name),
            remedy + tr(kWhereDescribed));
    }

    void wrongBrackets(const SetupTable& table, bool many) {
        add("setup-wrong-type", table.span,
            many ? say("[{0}] has one pair of brackets; there may be several, so it needs two.", table.name)
                 : say("[[{0}]] has two pairs of brackets; there is only one, so it needs one.", table.name),
            many ? say("Write [[{}]].", table.name) : say("Write [{}].", table.name));
    }

    void checkEntry(const SetupTable& table, std::string_view keyTable, char kind, SetupEntry& entry) {
        const SetupKey* key = setupKey(keyTable, entry.key);
        const std::size_t before = findings_.size();
        if (!key) {
            unknownKey(table, keyTable, entry);
        } else if (kind != '\0' && !key->kinds.empty() && key->kinds.find(kind) == std::string_view::npos) {
            const std::string_view kindKey = kindKeyOf(keyTable);
            const SetupEntry* said = table.find(kindKey);
            const std::string_view saidKind =
                said ? std::string_view(said->value.text) : choicesOf(*setupKey(keyTable, kindKey)).front();
            add("setup-key-of-another-kind", entry.keySpan,
                keyTable == "stock" ? say("{} says nothing about stock of the shape \"{}\".", entry.key, saidKind)
                                    : say("{} says nothing about a {} of kind \"{}\".", entry.key, keyTable, saidKind),
                keyTable == "stock" ? tr("Take it out, or correct the shape.")
                                    : say("Take it out, or correct the kind of the {}.", keyTable));
        } else if (!hasForm(entry.value, key->form)) {
            add("setup-wrong-type", entry.value.span, say("{} must be {}.", entry.key, formInWords(key->form)),
                tr(kWhereDescribed));
        } else {
            checkValue(*key, entry);
        }
        entry.usable = findings_.size() == before;
    }

    void unknownKey(const SetupTable& table, std::string_view keyTable, const SetupEntry& entry) {
        std::vector<std::string_view> known;
        std::string_view elsewhere;
        for (const SetupKey& key : setupKeys()) {
            if (key.table == keyTable) known.push_back(key.key);
            if (key.key == entry.key && elsewhere.empty()) elsewhere = key.table;
        }
        const auto meant = nearest(entry.key, known);
        std::string remedy(tr(kWhereDescribed));
        if (meant) {
            remedy = say("Did you mean {}?", *meant);
        } else if (!elsewhere.empty()) {
            remedy = say("That key belongs to [{}].", elsewhere);
        }
        add("setup-unknown-key", entry.keySpan, say("[{}] has no key {}; it was not used.", table.name, entry.key),
            remedy);
    }

    void checkValue(const SetupKey& key, const SetupEntry& entry) {
        const SetupValue& value = entry.value;
        switch (key.form) {
            case SetupKey::Form::Number:
            case SetupKey::Form::Whole:
                checkLimits(key, entry, value.number);
                break;
            case SetupKey::Form::Range:
                checkRange(key, entry);
                break;
            case SetupKey::Form::Choice:
                checkChoice(key, entry);
                break;
            case SetupKey::Form::Levels:
                checkLevels(key, entry);
                break;
            case SetupKey::Form::List:
                for (double number : value.list) checkLimits(key, entry, number);
                break;
            case SetupKey::Form::Text:
            case SetupKey::Form::Flag:
                break;
        }
    }

    void checkLimits(const SetupKey& key, const SetupEntry& entry, double number) {
        if (number >= key.least && number <= key.most) return;  // false for nan
        add("setup-out-of-range", entry.value.span,
            say("{} is {:g}; it must lie between {:g} and {:g}.", entry.key, number, key.least, key.most),
            tr("Correct the figure; the unit is the one in the key's name."));
    }

    void checkLevels(const SetupKey& key, const SetupEntry& entry) {
        for (double level : entry.value.list) {
            if (level == std::floor(level) && level >= key.least && level <= key.most) continue;
            add("setup-out-of-range", entry.value.span,
                say("{} holds {:g}; it is a list of whole numbers from {:g} to {:g}.", entry.key, level, key.least,
                    key.most),
                tr("Write the numbers of the switches that are on."));
        }
    }

    void checkRange(const SetupKey& key, const SetupEntry& entry) {
        const double low = entry.value.list[0];
        const double high = entry.value.list[1];
        checkLimits(key, entry, low);
        checkLimits(key, entry, high);
        if (low < high) return;
        add("setup-out-of-range", entry.value.span,
            say("{} runs from {:g} to {:g}, which is no travel.", entry.key, low, high),
            tr("Write the smaller limit first."));
    }

    void checkChoice(const SetupKey& key, const SetupEntry& entry) {
        const std::vector<std::string_view> choices = choicesOf(key);
        if (std::find(choices.begin(), choices.end(), entry.value.text) != choices.end()) return;
        const auto meant = nearest(entry.value.text, choices);
        add("setup-unknown-choice", entry.value.span, say("{} cannot be \"{}\".", entry.key, entry.value.text),
            meant ? say("Did you mean \"{}\"? Write one of: {}.", *meant, fmt::join(choices, ", "))
                  : say("Write one of: {}.", fmt::join(choices, ", ")));
    }

    void checkPresence(const SetupTable& table, char kind, const SetupKey& key) {
        if (key.need != SetupKey::Need::Required || table.find(key.key)) return;
        if (!key.kinds.empty() && (kind == '\0' || key.kinds.find(kind) == std::string_view::npos)) return;
        add("setup-missing-key", table.span, say("[{}] does not say {}.", table.name, key.key),
            say("Add {} ({}); {}", key.key, formInWords(key.form), tr(kWhereDescribed)));
    }

    SetupDocument& document_;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> checkAgainstKeys(SetupDocument& document) {
    return Check(document).run();
}

}  // namespace firstoff
