// The Markdown of a lesson as a plain value, so that window and papers can both draw it.
//
// Read by CommonMark. Headings, paragraphs, lists, quotes, blocks of code, rules and pictures are known; HTML is not
// passed on but told, and left out.
//
// A picture is one of the lesson's own job: the name of a view, @, and when:
//   ![the chamfer once it is cut](section@N210)     after line N210; also section@12 for the twelfth line
//   ![half way](part@14.5s)                         at 14.5 s of the cycle
//   ![the finished part](part@end)
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/training/line_place.h"

namespace firstoff {

// What of a job is looked at.
enum class LessonView : std::uint8_t {
    Machine,  // all of it
    Part,     // the work alone
    Close,    // tool and cut
    EndOn,    // along the spindle
    Section,  // the work cut open
    Finish,   // the surface that the line leaves, close up, with its feed marks
};
inline constexpr std::string_view kLessonViews = "machine|part|close|end-on|section|finish";
std::optional<LessonView> lessonViewNamed(std::string_view name);
const char* name(LessonView view);

// A stretch of text in one manner. Line ends within a paragraph are spaces, forced ones "\n".
struct TextRun {
    std::string text;
    bool strong = false;
    bool emphasis = false;
    bool code = false;
    friend bool operator==(const TextRun&, const TextRun&) = default;
};

// Of a picture: the moment that is shown. Neither line nor time: the end of the cycle.
struct LessonFigure {
    LessonView view = LessonView::Part;
    std::optional<LinePlace> afterLine;
    std::optional<double> atTimeS;
};

struct TextBlock {
    enum class Kind : std::uint8_t { Heading, Paragraph, ListItem, Code, Rule, Picture };
    Kind kind = Kind::Paragraph;
    int level =
        0;  // of a heading 1 to 6; of a list item: how deep, from 1; of others: of the list they belong to, or 0
    int number = 0;  // of an item of a numbered list; 0: of one with dots
    bool quoted = false;
    std::vector<TextRun> runs;  // of a picture: what stands under it
    std::string code;           // Code: all of it, with its line ends
    LessonFigure figure;        // Picture
    std::uint32_t line = 0;     // of the Markdown, from 1
};

// All of a file, or what stands below one of its headings.
using LessonText = std::vector<TextBlock>;

// What is wrong with a text; at a line of it, from 1.
struct TextFault {
    std::uint32_t line = 0;
    std::string cause;
    std::string remedy;
};

struct ReadLessonText {
    LessonText blocks;
    std::vector<TextFault> faults;
};

// Never fails: what is not known is a fault, and left out. Bytes that are no UTF-8, and texts above kMostTextBytes,
// give one fault and no blocks.
inline constexpr std::size_t kMostTextBytes = std::size_t{256} << 10;
ReadLessonText readLessonText(std::string_view markdown);

// The text alone, wrapped at spaces to at most `width` characters where it can be, for a terminal.
std::string plainLines(const LessonText& text, std::size_t width = 100);

// Runs as plain text.
std::string plainRuns(const std::vector<TextRun>& runs);

}  // namespace firstoff
