// What the readers of the kinds of tool share: the table being read, and how they object to it. Inside sim/setup only.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim/setup/setup.h"
#include "sim/setup/setup_document.h"
#include "sim/setup/tool_reader.h"

namespace firstoff {

struct ToolTable {
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
    SourceSpan spanOf(std::string_view key) const {
        const SetupEntry* entry = table.find(key);
        return entry ? entry->value.span : table.span;
    }
    Finding& stop(std::string_view code, std::string_view key, std::string message, std::string remedy) const {
        findings.push_back(setupStop(code, spanOf(key), std::move(message), std::move(remedy)));
        return findings.back();
    }
};

// Each fills in what its kinds of tool need and mends what contradicts itself.
void readInsertTool(const ToolTable& from, Tool& tool);  // turning, boring
void readAxialTool(const ToolTable& from, Tool& tool);   // drills, reamers, taps

}  // namespace firstoff
