// A paper for the shop as a neutral document: what stands on it in which order, without saying how it is set. Written
// as HTML by sheet_html.h and as PDF by sheet_pdf.h.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "sim/output/sheets/sketch.h"

namespace firstoff {

// A word and what it says, as in a title block.
struct SheetFact {
    std::string label, value;
};
struct SheetFacts {
    std::vector<SheetFact> facts;
};

struct SheetParagraph {
    enum class Kind : std::uint8_t {
        Plain,
        Item,     // of a list
        Quote,    // of a program or set-up file
        Caution,  // in a frame
        Verdict,  // large, in a frame
        Minor,    // small print
    };
    Kind kind = Kind::Plain;
    std::string text;
};

struct SheetFigure {
    Sketch sketch;
    std::string caption;  // empty: none
};

// One thing of a kind that is listed, with a picture where it has one: a tool.
struct SheetCard {
    std::string heading;
    std::optional<Sketch> picture;
    std::vector<SheetFact> facts;
    std::vector<std::string> remarks;
};

// One thing to read and act on: a finding.
struct SheetEntry {
    std::string mark;  // "STOP", "WARNING", "note"
    bool grave = false;
    std::string heading;
    std::vector<SheetParagraph> text;
};

struct SheetColumn {
    enum class Kind : std::uint8_t {
        Text,
        Figure,  // set to the right, one above another on the point
        Blank,   // boxes to write in
    };
    std::string heading, unit;  // unit may be empty
    Kind kind = Kind::Text;
};
struct SheetTable {
    std::vector<SheetColumn> columns;
    std::vector<std::vector<std::string>> rows;  // a cell for each column
    std::vector<std::size_t> strongRows;         // in order
};

// Boxes to sign in, side by side.
struct SheetSigning {
    std::vector<std::string> labels;
};

// A line of a program with what its words say.
struct SheetProgramLine {
    std::string number;  // of the line in its file
    std::string text;
    bool quiet = false;            // nothing is done there: remarks, blank lines
    std::vector<SheetFact> words;  // label: the word as it is written
    std::vector<std::string> remarks;
};

// A question, and how many lines there are to write its answer on.
struct SheetQuestion {
    std::string mark;  // "7"
    std::string text;
    int lines = 2;
};

using SheetPart = std::variant<SheetParagraph, SheetFacts, SheetFigure, SheetCard, SheetEntry, SheetTable, SheetSigning,
                               SheetProgramLine, SheetQuestion>;

struct SheetSection {
    std::string heading;
    std::vector<SheetPart> parts;
    bool newPage = false;  // begins a page of its own
};

struct Sheet {
    std::string title;            // "Set-up sheet"
    std::string subject;          // what the program calls the job
    std::vector<SheetFact> made;  // program, set-up, what they were; date if one was given
    std::string running;          // one line that tells pages of this sheet from others
    std::vector<SheetSection> sections;
    std::vector<std::string> cautions;  // at the foot of every page
};

enum class SheetKind : std::uint8_t { Setup, Inspection, Time, Findings, Handout };
// "setup", "inspection", … as the command has them; nothing for other words.
std::optional<SheetKind> sheetKind(std::string_view word);
std::string_view sheetKinds();  // "setup, inspection, …", for messages

}  // namespace firstoff
