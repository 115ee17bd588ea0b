// A table of a lesson.toml as the reader asks it: every value is checked against the table of keys, and what is wrong
// is told once, at its line. Inside sim/training only.
#pragma once

#include <toml++/toml.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/training/lesson.h"
#include "sim/training/lesson_keys.h"

namespace firstoff {

class LessonTable {
public:
    // `kindLetter`: of a step, see LessonKey; 0 elsewhere. `language`: keys like title_de come first then.
    LessonTable(const toml::table& table, std::string_view name, char kindLetter, int step, std::string_view language,
                std::vector<LessonFault>& faults)
        : table_(table), name_(name), kind_(kindLetter), step_(step), language_(language), faults_(faults) {}

    // Tells keys that are not known here, and needed ones that are missing; false if one of those is. `except`: a key
    // that holds tables and is read elsewhere.
    bool check(std::string_view except = {});

    // Nothing where the key is missing, or not as it should be; the latter is told.
    std::optional<std::string> text(std::string_view key);
    std::optional<double> number(std::string_view key);
    bool flag(std::string_view key);
    std::optional<LinePlace> line(std::string_view key);
    // One or two.
    std::vector<LinePlace> lines(std::string_view key);
    std::optional<std::pair<double, double>> span(std::string_view key);
    std::vector<std::string> texts(std::string_view key);

    bool has(std::string_view key) const { return table_.contains(key); }
    std::uint32_t lineOf(std::string_view key) const;  // that of the table where there is no such key
    void fault(std::string_view key, std::string cause, std::string remedy);
    bool anyWrong() const { return wrong_; }

private:
    const toml::node* nodeOf(const LessonKey& key) const;
    const LessonKey& known(std::string_view key) const;
    std::optional<std::string> textOf(const LessonKey& key);
    void notOfForm(const LessonKey& key);
    void unknown(std::string_view key, std::uint32_t line);
    std::string knownKeys() const;

    const toml::table& table_;
    std::string_view name_;
    char kind_;
    int step_;
    std::string_view language_;
    std::vector<LessonFault>& faults_;
    bool wrong_ = false;
};

}  // namespace firstoff
