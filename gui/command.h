// What panes ask for. A pane never changes another pane or the session: it adds a command, and App carries all of them
// out once per frame, in order.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "gui/scene/camera.h"
#include "gui/view_settings.h"
#include "sim/base/point.h"
#include "sim/editing/text_change.h"
#include "sim/output/sheets/sheet.h"
#include "sim/training/lesson_text.h"
#include "sim/trial/mistake.h"
#include "sim/trial/what_if.h"

namespace firstoff::gui {

struct Seek {
    double timeS = 0;
};
struct SeekStep {
    std::size_t step = 0;  // index into Toolpath::steps; the start of that block's execution
};
// Go to the first execution of a line (0-based) and show it.
struct SelectLine {
    std::size_t line = 0;
    bool moveCaret = false;  // put the caret there as well (not when the caret is what asked)
};
// Bring a line (0-based) into sight and put the caret there; time stays.
struct ShowLine {
    std::size_t line = 0;
};
// Be about this surface, and say what finish it has. `cut`: the timed move that left it, or kUncut.
struct PickSurface {
    Point place;  // lathe frame
    std::uint32_t cut = 0;
};
// Go to a contact or a near miss, index into ClearanceResult::encounters, and look at it.
struct ShowEncounter {
    std::size_t encounter = 0;
};
// Go to where, in a timed move, two bodies come nearest; indices into MachineBodies::bodies.
struct ShowNearest {
    std::size_t timedMove = 0;
    int body = 0, other = 0;
};
// Measure from (slot 0) or to (slot 1) a body; kNoBody takes it back.
struct MeasureBody {
    int slot = 0;
    int body = 0;
};
// The next click in the picture chooses the body of this slot; -1: no longer.
struct PickForMeasure {
    int slot = -1;
};
struct TogglePlay {};
struct StepBlocks {
    int by = 1;
};
struct ToStart {};
struct ToEnd {};
// The panel of the machine.
struct SingleBlock {
    bool on = false;
};
struct HoldFeed {
    bool hold = true;
};
// Play this stretch over and over; an empty one takes it back.
struct LoopSpan {
    double fromS = 0, toS = 0;
};
// A bookmark at a line (0-based), or no longer.
struct Bookmark {
    std::size_t line = 0;
};
// To the next bookmark that runs later (+1) or earlier (-1).
struct ToBookmark {
    int direction = 1;
};
// Papers, pictures and videos: ask for a name first, then write.
struct AskForPaper {
    SheetKind kind = SheetKind::Setup;
    bool answers = false;  // of a hand-out
};
struct WritePaper {
    std::filesystem::path path;
};
struct SavePicture {
    std::filesystem::path path;
};
struct SaveVideo {  // of the stretch that is looped, or of the whole cycle
    std::filesystem::path path;
};
// The training room.
struct ShowLessons {};
struct OpenLesson {
    std::filesystem::path folder;
};
struct CloseLesson {};
struct LessonStepTo {
    int step = 1;
};
struct MarkStep {};
struct TellAnswer {};
struct ShowFigure {
    LessonFigure figure;
};
// A place of the half-section was clicked, lathe frame.
struct PlaceClicked {
    Point place;
};
// The same place typed, as the position display tells it.
struct PlaceTyped {
    double xMm = 0, zMm = 0;
};
struct TextChanged {};  // the document was edited
// What a menu or a key asks of the text of the program.
struct EditProgram {
    enum class What {
        Undo,
        Redo,
        Cut,
        Copy,
        Paste,
        SelectAll,
        Find,
        Replace,
        FindNext,
        FindPrevious,
        GoTo,
        UnfoldPasses,  // of the cycle in the caret's line
    } what = What::Undo;
};
struct AskToRenumber {};  // which numbers, and how words are to stand apart
struct Renumber {
    std::int32_t first = 10, step = 10;
    bool everyBlock = true;
};
struct SpaceWords {
    bool oneBlank = true;  // false: none
};
// Change the text so that a finding (index into Trial::findings) goes, where that is certain.
struct MendFinding {
    std::size_t finding = 0;
};
// Show the program beside a text of before: a file, or the program's own as it stands on disk where the path is empty.
struct CompareWith {
    std::filesystem::path path;
};
// Pieces of the text replaced in one undo step, if it still is the text of this revision.
struct ChangeText {
    TextChanges changes;
    std::uint64_t revision = 0;
};
struct SaveCompared {};  // the text that the program is compared with, which was changed
// What is to be done about a file that another program changed, or about text that was kept of an unsaved session.
struct FileAnswer {
    enum class What { ReadAgain, CompareDisk, KeepMine, TakeUnsaved, CompareUnsaved, DropUnsaved } what;
};
struct OpenProgram {
    std::filesystem::path path;
};
struct OpenSetup {
    std::filesystem::path path;
};
struct AskForFile {
    enum class What { Program, Setup, SaveAs, Compare, Lesson, Paper, Picture, Video } what = What::Program;
};
struct Save {};
struct SaveAs {
    std::filesystem::path path;
};
struct Reload {};  // read both files again and run the trial
struct CancelTrial {};
// Try program and set-up as they are with these changes at the machine; without any, show them as they are again.
struct TryChanges {
    WhatIf whatIf;
};
// Put this mistake into the job, or take it out again.
struct TryMistake {
    std::optional<Mistake> mistake;
};
struct ChangeView {
    ViewSettings view;
};
// Takes back what was changed besides text, or does it again.
struct UndoChange {};
struct RedoChange {};
struct ShowView {
    ViewName name = ViewName::Part;
};
// By key what the mouse does in the picture, or in the half-section where that stands alone; notches of a wheel, so to
// say.
struct MoveView {
    enum class How { Turn, Shift, Nearer };
    How how = How::Turn;
    int right = 0, up = 0;  // where the eye goes; nearer: `up`
};
// Gauges the surface of the half-section that comes so many after the one gauged last, from the front face along the
// outside and back through the bore; with `another`, what lies between the two.
struct GaugeNext {
    int by = 1;
    bool another = false;
};
// From now on all texts are told in this language, a code of languages(); kept with the settings.
struct ChooseLanguage {
    std::string code;
};
struct Tell {  // show a message about the outside world
    std::string message;
};
struct Quit {};

// Commands in the order in which they came. What holds any of them is known to gui/any_command.h alone: every file that
// knew it took two seconds longer to compile.
class Commands {
public:
    Commands();
    ~Commands();
    Commands(Commands&&) noexcept;
    Commands& operator=(Commands&&) noexcept;

    template <class One>  // of the commands above
    void add(One command);
    bool empty() const;
    // All of them; they are gone from here.
    Commands take() { return std::exchange(*this, {}); }
    // Those that only go to another time, as long as nothing else comes before them.
    std::vector<Seek> takeSeeks();

    struct List;
    const List& list() const { return *list_; }

private:
    std::unique_ptr<List> list_;
};

}  // namespace firstoff::gui
