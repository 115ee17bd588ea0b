// A set-up file as tables of keys and values with their places, before any of it has a meaning. Inside sim/setup only.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim/base/finding.h"

namespace firstoff {

struct SetupValue {
    enum class Form : std::uint8_t { Text, Number, Flag, NumberList, Table, Other };
    Form form = Form::Other;
    bool whole = false;  // numbers: written without a fraction
    double number = 0;
    bool flag = false;
    std::string text;
    std::vector<double> list;
    SourceSpan span;
};

struct SetupEntry {
    std::string key;
    SourceSpan keySpan;
    SetupValue value;
    bool usable = true;  // set to false by the check: the reader then takes its safe value
};

struct SetupTable {
    std::string name;     // as in its heading, e.g. "machine", "work_offsets.G54", "tool"
    bool ofMany = false;  // written with two brackets, [[tool]]
    SourceSpan span;      // of the heading
    std::vector<SetupEntry> entries;
    bool incomplete = false;  // a file it takes keys from could not be had: what is missing is not its own fault

    const SetupEntry* find(std::string_view key) const;    // also unusable ones
    const SetupEntry* usable(std::string_view key) const;  // nothing if missing or unusable
};

struct SetupDocument {
    std::vector<SetupTable> tables;  // in order of the text; the keys above the first heading are a table without name
    std::vector<Finding> findings;   // a syntax error, at most one; then there are no tables
    bool incomplete = false;         // likewise, of all its tables
};

SetupDocument readSetupDocument(std::string_view text);

// Findings in the order of the text.
void sortByPlace(std::vector<Finding>& findings);

// A finding of severity Stop in the set-up file.
Finding setupStop(std::string_view code, SourceSpan span, std::string message, std::string remedy);

}  // namespace firstoff
