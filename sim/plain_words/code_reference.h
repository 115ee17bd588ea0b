// A work of reference for whoever writes a program: every code of one code system, the letters that hold under any
// code, and macro statements, as rows that can be listed and searched.
//
// The rows of codes are made from the tables that the control itself works by (codes.h, word_roles.h), so that nothing
// stands here that is not carried out, and nothing is carried out that does not stand here. A reference is a plain
// value: make one when the code system or the language changes, keep it, and list or search it as often as you like.
// All texts are in the language in use when it was made; codes, letters and examples are the same in each.
//
//   const CodeReference reference = codeReference(setup.control.codeSystem);
//   for (std::size_t row : searchReference(reference, typed)) show(reference.rows[row]);
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "sim/control/codes.h"
#include "sim/control/word_roles.h"

namespace firstoff {

// The parts of the reference, in their order.
enum class ReferencePart : std::uint8_t { Codes, Letters, MachineCodes, Macros };
inline constexpr ReferencePart kReferenceParts[] = {ReferencePart::Codes, ReferencePart::Letters,
                                                    ReferencePart::MachineCodes, ReferencePart::Macros};
// "G codes", "Letters under any code", …
std::string referencePartName(ReferencePart part);

// A letter that a code takes in a meaning of its own.
struct ReferenceWord {
    CycleBlock block = CycleBlock::Only;  // which block of a cycle in two
    std::string letter;                   // "U"
    std::string meaning;                  // "depth of cut of each pass, on radius"
    std::string measure;                  // "length", "least increments", …; empty where it is a plain number
};

struct ReferenceRow {
    ReferencePart part = ReferencePart::Codes;
    std::string code;                  // as it is written: "G71", "M08", "X", "WHILE [ ] DO"
    std::string group;                 // "movement and modal cycles"; empty for letters and macros
    std::string meaning;               // one or two sentences
    bool carriedOut = true;            // false: the control knows it and refuses it; a program with it is not proven
    std::vector<ReferenceWord> words;  // letters with a meaning of their own under this code, first block first
    std::string holds;                 // "In force until G40 or G42.", "In its own block only."; may be empty
    std::string ends;                  // what it puts an end to: "Ends G41 and G42."; may be empty
    std::string example;               // lines of a program; empty where none helps
    std::string program;               // a whole small program in which the example stands; empty without one
    Order order = Order::Unknown;      // of codes

    // Lower-case, for searching.
    std::string codeLower, meaningLower, allLower;
};

struct CodeReference {
    CodeSystem system = CodeSystem::A;
    std::vector<ReferenceRow> rows;  // part by part, codes as the table has them
};

CodeReference codeReference(CodeSystem system);

// Indices of the rows that have every one of `words` (parted by blanks, in any case), the best first: the code itself,
// then codes that begin so, then words of the meaning, then anything else. "g1" finds G01. Without words: all rows, in
// their order. No row: empty.
std::vector<std::size_t> searchReference(const CodeReference& reference, std::string_view words);

// Null where the system has no such code; `code` as the row writes it ("G71").
const ReferenceRow* referenceRow(const CodeReference& reference, std::string_view code);

// "first block", "second block"; empty for words of a code in one block.
std::string cycleBlockName(CycleBlock block);

}  // namespace firstoff
