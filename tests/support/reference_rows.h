// Rows of the published values in tests/reference/*.csv, so that tests can run over them.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace firstoff::shop {

struct ReferenceRow {
    std::map<std::string, std::string> cells;  // by heading
    // The cell under a heading, empty if it is empty. Throws if there is no such heading.
    const std::string& text(const std::string& heading) const;
    // Nothing if the cell holds no plain number.
    std::optional<double> number(const std::string& heading) const;
};

// All rows of tests/reference/`file`. Throws std::runtime_error if it is missing or empty.
std::vector<ReferenceRow> referenceRows(const std::string& file);

}  // namespace firstoff::shop
