// What is known of materials: assets/materials/materials.csv, which is part of the program.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sim/setup/setup.h"

namespace firstoff {

struct MaterialRow {
    Material material;                    // its figures 0 where the table has none; `span` unused
    std::vector<std::string> otherNames;  // that it is found by as well
    std::string what;                     // in plain words
    std::string condition, hardness;
    std::string status, note;  // how sure kc11 and mc are: `opened`, `memory`, …, see tests/reference/README.md
    std::string densitySource;

    // Kienzle's law needs both figures; of hardened metals only one is printed.
    bool lacksExponent = false;
};

// In order of the file. Made once.
std::span<const MaterialRow> materialTable();

// The row of a name or another name, capitals and blanks at the ends aside; nothing if there is none.
const MaterialRow* findMaterial(std::string_view name);

// Where the cutting force comes from, and what is uncertain of that: it is shown beside every force, where the rest of
// the row is not.
std::string sourceInWords(const MaterialRow& row);

// The text of the file.
std::string_view materialText();

}  // namespace firstoff
