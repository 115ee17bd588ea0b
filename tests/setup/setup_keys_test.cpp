// The table of keys in the code and the page that describes them to people must say the same.
#include "sim/setup/setup_keys.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>
#include <sstream>
#include <string>

#include "tests/support/shop.h"

namespace firstoff {
namespace {

// "table key" for every row of a table under a heading like "## [machine]" or "## [[tool]]".
std::set<std::string> describedKeys() {
    std::istringstream page(shop::readFile("assets/set-up-keys.md"));
    std::set<std::string> keys;
    std::string line, table;
    while (std::getline(page, line)) {
        if (line.starts_with("## [")) {
            const std::size_t begin = line.find_first_not_of("#[ ");
            table = line.substr(begin, line.find_first_of("].", begin) - begin);
        } else if (line.starts_with("## ")) {
            table.clear();  // what stands above all tables
        } else if (line.starts_with("| `")) {
            keys.insert(table + " " + line.substr(3, line.find('`', 3) - 3));
        }
    }
    return keys;
}

std::set<std::string> knownKeys() {
    std::set<std::string> keys;
    for (const SetupKey& key : setupKeys()) keys.insert(std::string(key.table) + " " + std::string(key.key));
    return keys;
}

TEST(SetUpKeys, EveryKeyTheReaderKnowsIsDescribedAndNoOther) {
    EXPECT_EQ(describedKeys(), knownKeys());
}

TEST(SetUpKeys, NoKeyStandsTwiceInTheTable) {
    EXPECT_EQ(knownKeys().size(), setupKeys().size());
}

TEST(SetUpKeys, EveryKeyBelongsToAKnownTable) {
    for (const SetupKey& key : setupKeys()) {
        EXPECT_THAT(setupTables(), testing::Contains(key.table)) << key.key;
    }
}

// Numbers carry their unit in the name; these are counts and have none.
TEST(SetUpKeys, NumbersSayTheirUnit) {
    const std::set<std::string_view> counts{
        "chamfer_threads",   "edges_per_insert", "efficiency", "force_safety", "friction", "jaws",    "line",
        "look_ahead_blocks", "max_blocks",       "number",     "piece",        "rollers",  "seconds", "speed_safety",
        "station",           "stations",         "taylor_n",   "tip_number",   "mc",       "edges",   "profile_line"};
    for (const SetupKey& key : setupKeys()) {
        const bool number = key.form == SetupKey::Form::Number || key.form == SetupKey::Form::Whole ||
                            key.form == SetupKey::Form::Range || key.form == SetupKey::Form::List;
        if (!number || counts.count(key.key)) continue;
        const std::string_view k = key.key;
        EXPECT_TRUE(k.ends_with("_mm") || k.ends_with("_mm_per_min") || k.ends_with("_rev_per_min") ||
                    k.ends_with("_deg") || k.ends_with("_leads") || k.ends_with("_s") || k.ends_with("_m_per_s2") ||
                    k.ends_with("_m_per_s3") || k.ends_with("_kw") || k.ends_with("_nm") || k.ends_with("_kg_m2") ||
                    k.ends_with("_percent") || k.ends_with("_kn") || k.ends_with("_kg") || k.ends_with("_kg_m") ||
                    k.ends_with("_m_per_min") || k.ends_with("_n_per_mm2") || k.ends_with("_gpa") ||
                    k.ends_with("_kg_per_dm3") || k.ends_with("_n") || k.ends_with("_mm_per_rev"))
            << k;
    }
}

}  // namespace
}  // namespace firstoff
