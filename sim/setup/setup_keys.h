// Every key a set-up file may hold: the one table from which the file is checked and against which
// assets/set-up-keys.md is tested.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace firstoff {

struct SetupKey {
    enum class Form : std::uint8_t {
        Number,
        Whole,   // a number without a fraction
        Range,   // [least, greatest]
        Text,    // any text
        Choice,  // one of `choices`
        Flag,    // true or false
        Levels,  // true, false, or a list of whole numbers: [1, 3]
        List,    // numbers: [8.5, 14]
    };
    enum class Need : std::uint8_t { Optional, Required };

    // "machine" …; "work_offsets" stands for work_offsets.G54 to .G59; "tool", "offset", "body", "dimension" repeat; empty: above
    // all tables.
    std::string_view table;
    std::string_view key;
    Form form = Form::Number;
    Need need = Need::Optional;
    // Numbers, those of a list and both ends of a range must lie within these, in the key's own unit. The wide ends are
    // not machines that exist, they keep a slip of the keyboard from filling the memory.
    double least = 0;
    double most = 0;
    double fallback = 0;            // taken if the key is missing or wrong
    std::string_view choices = {};  // separated by |; the first is taken if the key is missing or wrong
    // Tools, stock, chuck and turret: the kinds that know this key, by kindLetter(); empty: all. `need` counts for
    // those only.
    std::string_view kinds = {};
};

std::span<const SetupKey> setupKeys();

// Of a tool: t b g p d v a c s r for turning boring grooving parting drill threading tap centre-drill step-drill
// reamer. Of stock: b t h s c d p for bar tube hexagon square cross-section half-section previous. Of a chuck: j c for
// jaws collet. Of a turret: d g for disc gang. Of a dimension: d l t r c g h o for diameter length taper radius chamfer
// groove-width thread run-out.
char kindLetter(std::string_view table, std::string_view kind);

// The key that says of which kind a table is: "kind" of a tool, a chuck, a turret, a dimension, "shape" of the stock; nothing for
// other tables.
std::string_view kindKeyOf(std::string_view table);

// Nothing if that table has no such key.
const SetupKey* setupKey(std::string_view table, std::string_view key);

// "machine", "chuck", …: the tables a set-up may hold, work offsets as "work_offsets".
std::span<const std::string_view> setupTables();

// Index into Setup::workOffsets of a table like `work_offsets.G55` or `work_offsets.G54.1 P3`, -1 for any other.
int workOffsetOf(std::string_view tableName);

// Name of the table as setupKeys() has it: "work_offsets" for those tables, "m_codes" for "m_codes.M63" and its like,
// "chuck" for that of the second spindle too, else unchanged.
std::string_view keyTableOf(std::string_view tableName);

// 63 for "m_codes.M63"; nothing for a table that is none of these. Three figures at most.
std::optional<int> machineCodeNumber(std::string_view tableName);

}  // namespace firstoff
