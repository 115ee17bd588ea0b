#include "sim/setup/material_table.h"

#include <cassert>
#include <cctype>
#include <charconv>
#include <map>
#include <optional>

#include "sim/base/say.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

// Cells of one line; quoted cells may hold commas and doubled quotes. Lines do not break inside a cell.
std::vector<std::string> cellsOf(std::string_view line) {
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const char c = line[i];
        if (c == '"') {
            const bool doubled = quoted && i + 1 < line.size() && line[i + 1] == '"';
            if (doubled) {
                cells.back() += c;
                ++i;
            } else {
                quoted = !quoted;
            }
        } else if (c == ',' && !quoted) {
            cells.emplace_back();
        } else {
            cells.back() += c;
        }
    }
    return cells;
}

std::vector<std::string> partsOf(std::string_view text, char between) {
    std::vector<std::string> parts;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(between), text.size());
        parts.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return parts;
}

std::optional<double> numberOf(const std::string& cell) {
    double value = 0;
    const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
    if (error != std::errc() || end != cell.data() + cell.size()) return std::nullopt;
    return value;
}

MaterialRow rowOf(const std::map<std::string, std::size_t>& headings, const std::vector<std::string>& cells) {
    const auto text = [&](const char* heading) { return cells[headings.at(heading)]; };
    const auto number = [&](const char* heading) { return numberOf(text(heading)).value_or(0); };
    MaterialRow row;
    Material& m = row.material;
    m.name = text("name");
    m.group = text("iso_group");
    row.lacksExponent = !numberOf(text("mc"));
    if (!row.lacksExponent) {
        m.kc11 = number("kc11_n_per_mm2");
        m.mc = number("mc");
    }
    m.rakeAngle = radians(number("rake_angle_deg"));
    m.source = text("source");
    m.youngGPa = number("youngs_modulus_gpa");
    m.youngSource = text("youngs_source");
    m.densityKgPerDm3 = number("density_kg_per_dm3");
    row.otherNames = partsOf(text("other_names"), '|');
    row.what = text("what");
    row.condition = text("condition");
    row.hardness = text("hardness_hb");
    row.status = text("status");
    row.note = text("note");
    row.densitySource = text("density_source");
    return row;
}

std::vector<MaterialRow> readTable() {
    const std::vector<std::string> lines = partsOf(materialText(), '\n');
    std::map<std::string, std::size_t> headings;
    for (const std::string& heading : cellsOf(lines.front())) headings.emplace(heading, headings.size());
    std::vector<MaterialRow> rows;
    for (std::size_t i = 1; i < lines.size(); ++i) {
        const std::vector<std::string> cells = cellsOf(lines[i]);
        assert(cells.size() == headings.size());  // the file is ours, and a test reads it
        rows.push_back(rowOf(headings, cells));
    }
    return rows;
}

std::string plain(std::string_view name) {
    while (!name.empty() && name.front() == ' ') name.remove_prefix(1);
    while (!name.empty() && name.back() == ' ') name.remove_suffix(1);
    std::string result(name);
    for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return result;
}

}  // namespace

std::span<const MaterialRow> materialTable() {
    static const std::vector<MaterialRow> rows = readTable();
    return rows;
}

std::string sourceInWords(const MaterialRow& row) {
    std::string words = row.material.source;
    if (row.status.ends_with("memory_mapping")) words += tr("; that it holds for this material is from memory");
    return words;
}

const MaterialRow* findMaterial(std::string_view name) {
    const std::string wanted = plain(name);
    for (const MaterialRow& row : materialTable()) {
        if (plain(row.material.name) == wanted) return &row;
        for (const std::string& other : row.otherNames) {
            if (plain(other) == wanted) return &row;
        }
    }
    return nullptr;
}

}  // namespace firstoff
