#include "sim/training/lesson_table.h"

#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/output/finding_words.h"

namespace firstoff {

namespace {

using Form = LessonKey::Form;

// "title" of "title_de"; empty where the key has no language behind it.
std::string_view withoutLanguage(std::string_view key) {
    const std::size_t n = key.size();
    const auto lower = [](char c) { return c >= 'a' && c <= 'z'; };
    if (n < 4 || key[n - 3] != '_' || !lower(key[n - 2]) || !lower(key[n - 1])) return {};
    return key.substr(0, n - 3);
}

std::optional<double> numberOf(const toml::node& node) {
    if (const auto* whole = node.as_integer()) return static_cast<double>(whole->get());
    if (const auto* figure = node.as_floating_point(); figure && std::isfinite(figure->get())) return figure->get();
    return std::nullopt;
}

std::optional<LinePlace> placeOf(const toml::node& node) {
    if (const auto* text = node.as_string()) return linePlaceOf(text->get());
    if (const auto* whole = node.as_integer()) return linePlaceOf(std::to_string(whole->get()));
    return std::nullopt;
}

bool isOneOf(std::string_view choices, std::string_view text) {
    while (!choices.empty()) {
        const std::size_t end = std::min(choices.find('|'), choices.size());
        if (choices.substr(0, end) == text) return true;
        choices.remove_prefix(std::min(end + 1, choices.size()));
    }
    return false;
}

std::string listed(std::string_view choices) {
    std::string text;
    for (const char c : choices) {
        if (c == '|') {
            text += ", ";
        } else {
            text += c;
        }
    }
    return text;
}

std::string wanted(const LessonKey& key) {
    switch (key.form) {
        case Form::Text:
        case Form::File:
            return tr("a text in \"quotes\"");
        case Form::Choice:
            return say("one of {}", listed(key.choices));
        case Form::Number:
            return say("a number from {:g} to {:g}", key.least, key.most);
        case Form::Whole:
            return say("a whole number from {:g} to {:g}", key.least, key.most);
        case Form::Flag:
            return tr("true or false");
        case Form::Line:
            return tr("a line: \"N120\", or 12 for the twelfth");
        case Form::Lines:
            return tr("a line, as \"N120\" or 12, or the first and the last as [\"N100\", \"N140\"]");
        case Form::Span:
            return say("two numbers, the smaller first, from {:g} to {:g}", key.least, key.most);
        case Form::TextList:
            return tr("a list of texts, as [\"one\", \"other\"]");
    }
    return {};
}

}  // namespace

const LessonKey& LessonTable::known(std::string_view key) const {
    const LessonKey* found = lessonKey(name_, key);
    return *found;  // the reader asks only for keys of the table
}

const toml::node* LessonTable::nodeOf(const LessonKey& key) const {
    if (key.inLanguages && !language_.empty()) {
        std::string inLanguage(key.key);
        inLanguage += '_';
        inLanguage += language_;
        if (const toml::node* node = table_.get(inLanguage)) return node;
    }
    return table_.get(key.key);
}

std::uint32_t LessonTable::lineOf(std::string_view key) const {
    const toml::node* node = table_.get(key);
    return node ? node->source().begin.line : table_.source().begin.line;
}

void LessonTable::fault(std::string_view key, std::string cause, std::string remedy) {
    wrong_ = true;
    faults_.push_back({"lesson.toml", lineOf(key), std::move(cause), std::move(remedy), step_});
}

void LessonTable::notOfForm(const LessonKey& key) {
    fault(key.key, say("{} is not what it should be; it was not used.", key.key), say("Write {}.", wanted(key)));
}

std::string LessonTable::knownKeys() const {
    std::string text;
    for (const LessonKey& key : lessonKeys()) {
        if (key.table != name_ || (kind_ != 0 && !knows(key, kind_))) continue;
        if (!text.empty()) text += ", ";
        text += key.key;
    }
    return text;
}

void LessonTable::unknown(std::string_view key, std::uint32_t line) {
    const std::string cause = lessonKey(name_, key)
                                  ? say("{} has no meaning in a step of this kind; it was not used.", plainText(key))
                                  : say("There is no key {}; it was not used.", plainText(key));
    wrong_ = true;
    faults_.push_back({"lesson.toml", line, cause, say("Keys here are {}.", knownKeys()), step_});
}

bool LessonTable::check(std::string_view except) {
    for (const auto& [key, node] : table_) {
        if (key.str() == except) continue;
        const LessonKey* found = lessonKey(name_, key.str());
        const std::string_view base = withoutLanguage(key.str());
        if (!found && !base.empty()) {
            found = lessonKey(name_, base);
            if (found && !found->inLanguages) found = nullptr;
        }
        if (!found || (kind_ != 0 && !knows(*found, kind_))) unknown(key.str(), key.source().begin.line);
    }
    bool whole = true;
    for (const LessonKey& key : lessonKeys()) {
        if (key.table != name_ || !needs(key, kind_) || table_.contains(key.key)) continue;
        fault(key.key, say("The key {} is missing.", key.key), say("Write {} = {}.", key.key, wanted(key)));
        whole = false;
    }
    return whole;
}

std::optional<std::string> LessonTable::textOf(const LessonKey& key) {
    const toml::node* node = nodeOf(key);
    if (!node) return std::nullopt;
    const auto* text = node->as_string();
    const bool good = text && !text->get().empty() && (key.form != Form::Choice || isOneOf(key.choices, text->get()));
    if (!good) {
        notOfForm(key);
        return std::nullopt;
    }
    return text->get();
}

std::optional<std::string> LessonTable::text(std::string_view key) {
    return textOf(known(key));
}

std::optional<double> LessonTable::number(std::string_view name) {
    const LessonKey& key = known(name);
    const toml::node* node = nodeOf(key);
    if (!node) return std::nullopt;
    const std::optional<double> value = numberOf(*node);
    const bool good =
        value && *value >= key.least && *value <= key.most && (key.form != Form::Whole || node->is_integer());
    if (!good) notOfForm(key);
    return good ? value : std::nullopt;
}

bool LessonTable::flag(std::string_view name) {
    const LessonKey& key = known(name);
    const toml::node* node = nodeOf(key);
    if (!node) return false;
    if (!node->is_boolean()) notOfForm(key);
    return node->is_boolean() && node->as_boolean()->get();
}

std::optional<LinePlace> LessonTable::line(std::string_view name) {
    const LessonKey& key = known(name);
    const toml::node* node = nodeOf(key);
    if (!node) return std::nullopt;
    const std::optional<LinePlace> place = placeOf(*node);
    if (!place) notOfForm(key);
    return place;
}

std::vector<LinePlace> LessonTable::lines(std::string_view name) {
    const LessonKey& key = known(name);
    const toml::node* node = nodeOf(key);
    std::vector<LinePlace> places;
    if (!node) return places;
    const auto take = [&](const toml::node& one) {
        const std::optional<LinePlace> place = placeOf(one);
        if (place) places.push_back(*place);
        return place.has_value();
    };
    const toml::array* list = node->as_array();
    const bool good = list ? list->size() == 2 && take(*list->get(0)) && take(*list->get(1)) : take(*node);
    if (good) return places;
    notOfForm(key);
    return {};
}

std::optional<std::pair<double, double>> LessonTable::span(std::string_view name) {
    const LessonKey& key = known(name);
    const toml::node* node = nodeOf(key);
    if (!node) return std::nullopt;
    const toml::array* list = node->as_array();
    if (list && list->size() == 2) {
        const std::optional<double> from = numberOf(*list->get(0)), to = numberOf(*list->get(1));
        if (from && to && *from >= key.least && *to <= key.most && *from < *to) return std::pair{*from, *to};
    }
    notOfForm(key);
    return std::nullopt;
}

std::vector<std::string> LessonTable::texts(std::string_view name) {
    const LessonKey& key = known(name);
    const toml::node* node = nodeOf(key);
    std::vector<std::string> all;
    if (!node) return all;
    const toml::array* list = node->as_array();
    bool good = list && !list->empty();
    for (std::size_t i = 0; good && i < list->size(); ++i) {
        const auto* text = list->get(i)->as_string();
        good = text && !text->get().empty();
        if (good) all.push_back(text->get());
    }
    if (good) return all;
    notOfForm(key);
    return {};
}

}  // namespace firstoff
