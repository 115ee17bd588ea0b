// A table of a set-up document that has been checked against the keys, as readers ask it, and how they object to it.
// Inside sim/setup only.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim/setup/setup.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

// Value of a key, or the safe value of the table of keys where it is missing or was objected to.
double numberIn(const SetupTable& table, std::string_view key);

struct TableReading {
    const SetupTable& table;
    std::vector<Finding>& findings;

    bool says(std::string_view key) const { return table.usable(key) != nullptr; }
    double number(std::string_view key) const { return numberIn(table, key); }
    std::string_view text(std::string_view key) const {
        const SetupEntry* entry = table.usable(key);
        return entry ? std::string_view(entry->value.text) : std::string_view();
    }
    bool flag(std::string_view key) const {
        const SetupEntry* entry = table.usable(key);
        return entry != nullptr && entry->value.flag;
    }
    std::vector<double> list(std::string_view key) const {
        const SetupEntry* entry = table.usable(key);
        return entry ? entry->value.list : std::vector<double>();
    }
    Range range(std::string_view key, Range fallback = {}) const {
        const SetupEntry* entry = table.usable(key);
        return entry ? Range{entry->value.list[0], entry->value.list[1]} : fallback;
    }
    // Of a range of X, written as diameter.
    Range radii(std::string_view key, Range fallback = {}) const {
        if (!says(key)) return fallback;
        const Range x = range(key);
        return {x.min / 2, x.max / 2};
    }
    SourceSpan spanOf(std::string_view key) const {
        const SetupEntry* entry = table.find(key);
        return entry ? entry->value.span : table.span;
    }
    Finding& stop(std::string_view code, std::string_view key, std::string message, std::string remedy) const {
        findings.push_back(setupStop(code, spanOf(key), std::move(message), std::move(remedy)));
        return findings.back();
    }
};

}  // namespace firstoff
