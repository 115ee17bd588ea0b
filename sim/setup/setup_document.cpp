// TOML is read by toml++ as the distribution's library, not compiled in from its headers: with assertions on, its
// version 3.3 stops the program at some broken files (`[=`, `x = [}`) that it handles well without.
#include "sim/setup/setup_document.h"

#include <toml++/toml.h>
#include <algorithm>

#include <fmt/format.h>

#include "sim/base/say.h"

namespace firstoff {

namespace {

// Turns places as the TOML reader counts them (code points) into ours (bytes).
class Places {
public:
    explicit Places(std::string_view text) {
        std::size_t begin = text.substr(0, 3) == "\xEF\xBB\xBF" ? 3 : 0;
        while (begin <= text.size()) {
            const std::size_t end = std::min(text.find('\n', begin), text.size());
            lines_.push_back(text.substr(begin, end - begin));
            begin = end + 1;
        }
    }

    SourceSpan span(const toml::source_region& region) const {
        SourceSpan span;
        span.file = SourceSpan::File::Setup;
        span.line = region.begin.line;
        span.column = byteColumn(region.begin);
        if (region.end.line == region.begin.line) span.length = byteColumn(region.end) - span.column;
        return span;
    }

private:
    std::uint32_t byteColumn(const toml::source_position& at) const {
        if (at.line == 0 || at.line > lines_.size()) return at.column;
        const std::string_view line = lines_[at.line - 1];
        std::uint32_t points = 0;
        std::uint32_t byte = 0;
        while (byte < line.size()) {
            const bool startsPoint = (static_cast<unsigned char>(line[byte]) & 0xC0u) != 0x80u;
            if (startsPoint && ++points == at.column) break;
            ++byte;
        }
        return byte + 1;
    }

    std::vector<std::string_view> lines_;
};

bool isNumber(const toml::node& node) {
    return node.is_integer() || node.is_floating_point();
}

double numberOf(const toml::node& node) {
    return node.is_integer() ? static_cast<double>(node.as_integer()->get()) : node.as_floating_point()->get();
}

SetupValue valueOf(const toml::node& node, const Places& places) {
    SetupValue value;
    value.span = places.span(node.source());
    if (isNumber(node)) {
        value.form = SetupValue::Form::Number;
        value.whole = node.is_integer();
        value.number = numberOf(node);
    } else if (node.is_string()) {
        value.form = SetupValue::Form::Text;
        value.text = node.as_string()->get();
    } else if (node.is_boolean()) {
        value.form = SetupValue::Form::Flag;
        value.flag = node.as_boolean()->get();
    } else if (node.is_table()) {
        value.form = SetupValue::Form::Table;
    } else if (const toml::array* array = node.as_array()) {
        const bool numbers = std::all_of(array->begin(), array->end(), [](const toml::node& n) { return isNumber(n); });
        if (!numbers) return value;
        value.form = SetupValue::Form::NumberList;
        for (const toml::node& element : *array) value.list.push_back(numberOf(element));
    }
    return value;
}

class Flattening {
public:
    explicit Flattening(std::string_view text) : places_(text) {}

    SetupDocument run(const toml::table& root) {
        SetupTable loose;
        for (const auto& [key, node] : root) take(std::string(key.str()), key, node, loose);
        if (!loose.entries.empty()) document_.tables.push_back(std::move(loose));
        for (SetupTable& table : document_.tables)
            sortByPlace(table.entries, [](const SetupEntry& e) { return e.keySpan; });
        sortByPlace(document_.tables, [](const SetupTable& t) { return t.span; });
        return std::move(document_);
    }

private:
    void take(const std::string& path, const toml::key& key, const toml::node& node, SetupTable& into) {
        if (const toml::table* inner = node.as_table()) return takeTable(path, *inner, false);
        if (const toml::array* array = node.as_array(); array && !array->empty() && array->is_array_of_tables()) {
            for (const toml::node& element : *array) takeTable(path, *element.as_table(), true);
            return;
        }
        into.entries.push_back({std::string(key.str()), places_.span(key.source()), valueOf(node, places_)});
    }

    void takeTable(const std::string& path, const toml::table& table, bool ofMany) {
        SetupTable result;
        result.name = path;
        result.ofMany = ofMany;
        result.span = places_.span(table.source());
        for (const auto& [key, node] : table) take(path + "." + std::string(key.str()), key, node, result);
        document_.tables.push_back(std::move(result));
    }

    template <typename T, typename Span>
    static void sortByPlace(std::vector<T>& items, Span spanOf) {
        std::stable_sort(items.begin(), items.end(), [&](const T& a, const T& b) {
            const SourceSpan l = spanOf(a);
            const SourceSpan r = spanOf(b);
            return l.line != r.line ? l.line < r.line : l.column < r.column;
        });
    }

    Places places_;
    SetupDocument document_;
};

Finding syntaxError(const toml::parse_error& error, const Places& places) {
    return setupStop("setup-syntax", places.span(error.source()),
                     say("The set-up file cannot be read as TOML from here on: {}.", error.description()),
                     tr("Mend this line: a table heading in [brackets], or key = value with texts in \"quotes\"."));
}

}  // namespace

const SetupEntry* SetupTable::find(std::string_view key) const {
    for (const SetupEntry& entry : entries) {
        if (entry.key == key) return &entry;
    }
    return nullptr;
}

const SetupEntry* SetupTable::usable(std::string_view key) const {
    const SetupEntry* entry = find(key);
    return entry && entry->usable ? entry : nullptr;
}

void sortByPlace(std::vector<Finding>& findings) {
    std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
        return a.span.line != b.span.line ? a.span.line < b.span.line : a.span.column < b.span.column;
    });
}

Finding setupStop(std::string_view code, SourceSpan span, std::string message, std::string remedy) {
    Finding finding;
    finding.severity = Severity::Stop;
    finding.code = code;
    finding.span = span;
    finding.span.file = SourceSpan::File::Setup;
    finding.message = std::move(message);
    finding.remedy = std::move(remedy);
    return finding;
}

SetupDocument readSetupDocument(std::string_view text) {
    try {
        return Flattening(text).run(toml::parse(text));
    } catch (const toml::parse_error& error) {
        SetupDocument document;
        document.findings.push_back(syntaxError(error, Places(text)));
        return document;
    }
}

}  // namespace firstoff
