#include "tests/support/reference_rows.h"

#include <charconv>
#include <sstream>
#include <stdexcept>

#include "tests/support/shop.h"

namespace firstoff::shop {

namespace {

// One line of comma-separated cells; a cell in double quotes may hold commas.
std::vector<std::string> cellsOf(const std::string& line) {
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (char c : line) {
        if (c == '"') {
            quoted = !quoted;
        } else if (c == ',' && !quoted) {
            cells.emplace_back();
        } else if (c != '\r') {
            cells.back().push_back(c);
        }
    }
    return cells;
}

}  // namespace

const std::string& ReferenceRow::text(const std::string& heading) const {
    const auto cell = cells.find(heading);
    if (cell == cells.end()) throw std::runtime_error("no column " + heading);
    return cell->second;
}

std::optional<double> ReferenceRow::number(const std::string& heading) const {
    const std::string& cell = text(heading);
    double value = 0;
    const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
    const bool whole = error == std::errc() && end == cell.data() + cell.size();
    return whole ? std::optional(value) : std::nullopt;
}

std::vector<ReferenceRow> referenceRows(const std::string& file) {
    std::istringstream in(readFile("tests/reference/" + file));
    std::string line;
    std::getline(in, line);
    const std::vector<std::string> headings = cellsOf(line);
    std::vector<ReferenceRow> rows;
    while (std::getline(in, line)) {
        const std::vector<std::string> cells = cellsOf(line);
        if (cells.size() != headings.size()) throw std::runtime_error(file + ": row of odd length: " + line);
        ReferenceRow row;
        for (std::size_t i = 0; i < cells.size(); ++i) row.cells[headings[i]] = cells[i];
        rows.push_back(std::move(row));
    }
    if (rows.empty()) throw std::runtime_error(file + " has no rows");
    return rows;
}

}  // namespace firstoff::shop
