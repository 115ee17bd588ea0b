#include "gui/program_pane.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "gui/program_canvas.h"
#include "gui/words_pane.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr std::size_t kNone = static_cast<std::size_t>(-1);
constexpr double kRestS = 0.4;      // the mouse rests before a word is told
constexpr float kBar = 12;          // scroll bar
constexpr double kBlinkS = 0.53;    // caret lit, then dark
constexpr double kPatienceS = 2.5;  // after the user has scrolled, time does not pull the text away for so long

std::size_t digits(std::size_t number) {
    return number < 10 ? 1 : 1 + digits(number / 10);
}

}  // namespace

void ProgramPane::reset() {
    editor_.reset();
    notes_.foldAll();
    matches_.clear();
    topRow_ = 0;
    leftCell_ = 0;
    followedRow_ = kNone;
}

void ProgramPane::showLine(std::size_t line, bool moveCaret) {
    line = std::min(line, document_->lineCount() - 1);
    if (moveCaret) editor_.place(document_->lineStart(line));
    wantedLine_ = line;
}

bool ProgramPane::replace(const TextChanges& changes) {
    const TextDocument::Outcome outcome = document_->replace(changes, editor_.caret());
    if (outcome.changed) editor_.place(outcome.caret);
    return outcome.changed;
}

void ProgramPane::draw(const PaneContext& context, const Rect& rect) {
    const PaneFrame frame("program", rect, context, 0, false);
    const float header = context.px(28);
    drawHeader(context, {rect.x, rect.y, rect.w, header});
    const float strip = find_.height(context);
    const bool stripHadKeys = find_.hasKeys();  // Enter and Escape that it was given are not for the text
    drawFindBar(context, {rect.x, rect.y + header, rect.w, strip});
    const float above = header + strip;
    const float bar = context.px(kBar);
    Canvas canvas{context, *ImGui::GetWindowDrawList(), {rect.x, rect.y + above, rect.w - bar, rect.h - above}};
    drawn_ = {};
    if (canvas.area.h < context.px(10) || canvas.area.w < context.px(30)) return;
    canvas.cell = context.fonts.mono->GetCharAdvance('0');
    canvas.lineHeight = std::round(context.fonts.mono->FontSize * 1.3f);
    const auto numbers = static_cast<float>(std::max<std::size_t>(3, digits(document_->lineCount())));
    canvas.margin = context.px(24) + numbers * canvas.cell + context.px(18);
    drawn_ = canvas.area;
    lineHeight_ = canvas.lineHeight;
    ImGui::SetCursorScreenPos({canvas.area.x, canvas.area.y});
    ImGui::InvisibleButton("text", {canvas.area.w, canvas.area.h});
    canvas.hovered = ImGui::IsItemHovered();
    canvas.pressed = ImGui::IsItemClicked();

    if (ImGui::IsMouseClicked(ImGuiMouseButton_Left)) focused_ = canvas.pressed;
    if (find_.hasKeys()) focused_ = false;
    const bool keysAreOurs = focused_ && !stripHadKeys &&
                             !ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopupId | ImGuiPopupFlags_AnyPopupLevel);
    followNotes(canvas);
    handleMouse(canvas);
    if (keysAreOurs) handleKeys(canvas);
    followNotes(canvas);
    const Instant* instant = context.instant;
    const auto lineOf = [&](BlockId block) { return block == kNoBlock ? kNone : notes_.shift().now(block); };
    canvas.currentLine = instant ? lineOf(instant->block) : kNone;
    canvas.geometryLine = instant ? lineOf(instant->geometry) : kNone;
    followTime(canvas);
    followCaret(canvas);
    clampScroll(canvas);
    if (find_.isSearching()) matches_.look(document_->text(), document_->revision(), find_.search());

    canvas.list.PushClipRect({canvas.area.x, canvas.area.y}, {canvas.area.right(), canvas.area.bottom()}, true);
    const auto first = static_cast<std::size_t>(topRow_);
    const std::size_t last =
        std::min(notes_.rows().count(), first + static_cast<std::size_t>(canvas.visibleRows()) + 2);
    for (std::size_t row = first; row < last; ++row) drawRow(canvas, row);
    if (focused_) drawCaret(canvas);
    canvas.list.PopClipRect();
    drawScrollbar(canvas);
    if (canvas.hovered) hoverFinding(canvas);
    hoverWord(canvas);
}

ImVec2 ProgramPane::placeOf(std::size_t line, std::size_t below) const {
    const auto row = static_cast<double>(notes_.rows().rowOf(line) + below);
    const float y = drawn_.y + static_cast<float>((row + 0.5 - topRow_) * lineHeight_);
    const bool seen = !drawn_.empty() && y > drawn_.y && y < drawn_.bottom();
    return {drawn_.x + 0.7f * drawn_.w, seen ? y : -1};
}

void ProgramPane::drawHeader(const PaneContext& context, const Rect& rect) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const Session& session = context.session;
    ImFont* font = context.fonts.text;
    const float y = std::round(rect.y + 0.5f * (rect.h - font->FontSize));
    const float x = rect.x + context.px(10);
    const ImVec4 clip{rect.x, rect.y, rect.right() - context.px(8), rect.bottom()};
    const std::string name = session.programName();
    list.AddText(font, font->FontSize, {x, y}, ink(context.palette.text), name.c_str(), nullptr, 0, &clip);
    const float after = x + font->CalcTextSizeA(font->FontSize, 1e9f, 0, name.c_str()).x + context.px(10);
    const char* state = session.modified() ? tr("not saved") : "";
    ImFont* small = context.fonts.small;
    list.AddText(small, small->FontSize, {after, std::round(rect.y + 0.5f * (rect.h - small->FontSize))},
                 ink(context.palette.quiet), state, nullptr, 0, &clip);
    list.AddLine({rect.x, rect.bottom() - 1}, {rect.right(), rect.bottom() - 1}, ink(context.palette.line, 0.6f));
}

// ---- mouse ----

ProgramRows::Place ProgramPane::rowAt(const Canvas& canvas, float y) const {
    const double row = std::floor(topRow_ + (y - canvas.area.y) / canvas.lineHeight);
    return notes_.rows().at(static_cast<std::size_t>(std::max(0.0, row)));
}

// From a row that is not in the text the end of the line above it.
std::size_t ProgramPane::offsetAt(const Canvas& canvas, ImVec2 mouse) const {
    const ProgramRows::Place place = rowAt(canvas, mouse.y);
    const std::size_t line = std::min(place.line, document_->lineCount() - 1);
    if (place.below > 0) return document_->lineEnd(line);
    const double cell = leftCell_ + (mouse.x - canvas.textLeft()) / canvas.cell + 0.5;
    return editor_.offsetAtCell(line, static_cast<std::size_t>(std::max(0.0, cell)));
}

// What a click does that is not one into the text.
bool ProgramPane::pressRow(const Canvas& canvas, ProgramRows::Place place, float x) {
    if (place.below == 0) {
        const bool triangle = x >= canvas.triangleLeft() && x < canvas.textLeft() - 1 && notes_.isCycle(place.line);
        if (triangle) notes_.toggle(place.line);
        return triangle;
    }
    const ProgramNotes::Row row = notes_.row(place.line, place.below);
    if (row.note != nullptr && row.mends) canvas.context.commands.add(MendFinding{*row.note->mended});
    if (row.note != nullptr && !row.mends) canvas.context.commands.add(SelectLine{place.line, true});
    if (row.pass != nullptr) {
        wheeledAt_ = canvas.context.now;  // it is in sight already
        const Trial& trial = *canvas.context.session.trial();
        // A little after its start, so that it is this pass and not the end of the one before.
        const double start = startOfMove(trial, row.pass->first), end = startOfMove(trial, row.pass->end);
        canvas.context.commands.add(Seek{start + std::min(1e-6, 0.5 * (end - start))});
    }
    return true;
}

void ProgramPane::handleMouse(const Canvas& canvas) {
    const ImGuiIO& io = ImGui::GetIO();
    if (canvas.hovered && io.MouseWheel != 0 && !io.KeyShift) {
        topRow_ -= 3.0 * io.MouseWheel;
        wheeledAt_ = canvas.context.now;
    }
    if (canvas.hovered) leftCell_ -= 4.0 * (io.MouseWheelH + (io.KeyShift ? io.MouseWheel : 0));
    const ProgramRows::Place under = rowAt(canvas, io.MousePos.y);
    const bool inText = io.MousePos.x >= canvas.textLeft() && under.below == 0;
    if (canvas.hovered && inText) ImGui::SetMouseCursor(ImGuiMouseCursor_TextInput);
    if (canvas.hovered && under.below > 0) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    if (canvas.pressed && pressRow(canvas, under, io.MousePos.x)) return;

    const std::size_t offset = offsetAt(canvas, io.MousePos);
    if (canvas.pressed) {
        selecting_ = true;
        dragged_ = false;
        editor_.place(offset, io.KeyShift);
        if (ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left)) {
            editor_.selectWordAt(offset);
            selecting_ = false;
        }
        pressedAt_ = canvas.context.now;
    }
    if (!selecting_) return;
    if (ImGui::IsMouseDown(ImGuiMouseButton_Left)) {
        if (ImGui::IsMouseDragging(ImGuiMouseButton_Left)) {
            dragged_ = true;
            editor_.place(offset, true);
            caretMoved_ = true;
        }
        return;
    }
    selecting_ = false;
    // A plain click is a wish to see that line run; a drag only selects.
    if (dragged_ || io.KeyShift) return;
    const std::size_t line = document_->lineAt(offset);
    followedRow_ = notes_.rows().rowOf(line);  // in sight already: nothing need scroll
    canvas.context.commands.add(SelectLine{line, false});
}

// ---- keyboard ----

void ProgramPane::handleKeys(const Canvas& canvas) {
    for (const InputEvent& event : canvas.context.input) {
        const bool types = event.key == Key::None && event.character >= 0x20 && event.character != 0x7f;
        // Behind a Ctrl+F of the same frame: never into the program.
        if (find_.hasKeys()) {
            if (types) find_.type(utf8Of(event.character));
            continue;
        }
        if (event.key != Key::None) {
            handleKey(canvas, event);
        } else if (types) {
            changed(canvas, editor_.type(utf8Of(event.character)));
        }
    }
}

void ProgramPane::handleKey(const Canvas& canvas, const InputEvent& event) {
    if (event.alt) return;
    if (handleMotion(canvas, event) || handleClipboard(canvas, event)) return;
    switch (event.key) {
        case Key::Enter:
            if (event.ctrl) {
                notes_.toggle(editor_.caretLine());
            } else {
                changed(canvas, editor_.newLine());
            }
            return;
        case Key::Backspace:
            changed(canvas, editor_.eraseBackward(event.ctrl));
            return;
        case Key::Delete:
            changed(canvas, editor_.eraseForward(event.ctrl));
            return;
        case Key::Escape:
            if (find_.mode() != FindBar::Mode::Closed) {
                find_.close();
            } else {
                focused_ = false;
            }
            return;
        default:
            break;
    }
    if (!event.ctrl) return;
    if (event.is('A')) editor_.selectAll();
    if (event.is('Z')) changed(canvas, event.shift ? editor_.redo() : editor_.undo());
    if (event.is('Y')) changed(canvas, editor_.redo());
    if (event.is('F')) carryOut(EditProgram::What::Find);
    if (event.is('H')) carryOut(EditProgram::What::Replace);
    if (event.is('G')) carryOut(EditProgram::What::GoTo);
}

bool ProgramPane::handleMotion(const Canvas& canvas, const InputEvent& event) {
    using Motion = ProgramEditor::Motion;
    struct Binding {
        Key key;
        Motion plain, withCtrl;
    };
    if (event.ctrl && (event.key == Key::PageUp || event.key == Key::PageDown)) return false;  // pages beneath
    static constexpr Binding kBindings[] = {
        {Key::Left, Motion::Left, Motion::WordLeft},
        {Key::Right, Motion::Right, Motion::WordRight},
        {Key::Up, Motion::Up, Motion::Up},
        {Key::Down, Motion::Down, Motion::Down},
        {Key::PageUp, Motion::PageUp, Motion::PageUp},
        {Key::PageDown, Motion::PageDown, Motion::PageDown},
        {Key::Home, Motion::LineStart, Motion::Start},
        {Key::End, Motion::LineEnd, Motion::End},
    };
    const auto* binding =
        std::find_if(std::begin(kBindings), std::end(kBindings), [&](const Binding& b) { return b.key == event.key; });
    if (binding == std::end(kBindings)) return false;
    const auto page = static_cast<std::size_t>(std::max(1.0, canvas.visibleRows() - 1));
    editor_.move(event.ctrl ? binding->withCtrl : binding->plain, event.shift, page);
    caretMoved_ = true;
    pressedAt_ = canvas.context.now;
    return true;
}

// Ctrl with X, C, V, and the older keys for the same, still in many hands.
bool ProgramPane::handleClipboard(const Canvas& canvas, const InputEvent& event) {
    const bool cuts = (event.ctrl && event.is('X')) || (event.shift && event.key == Key::Delete);
    const bool copies = event.ctrl && (event.is('C') || event.key == Key::Insert);
    const bool pastes = (event.ctrl && event.is('V')) || (event.shift && event.key == Key::Insert);
    if ((cuts || copies) && editor_.hasSelection()) ImGui::SetClipboardText(std::string(editor_.selected()).c_str());
    if (cuts) changed(canvas, editor_.cut());
    if (pastes) {
        if (const char* text = ImGui::GetClipboardText()) changed(canvas, editor_.paste(text));
    }
    return cuts || copies || pastes;
}

void ProgramPane::changed(const Canvas& canvas, bool textChanged) {
    if (!textChanged) return;
    caretMoved_ = true;
    pressedAt_ = canvas.context.now;
    canvas.context.commands.add(TextChanged{});
}

// What the Edit menu does, wherever the keys are.
bool ProgramPane::carryOut(EditProgram::What what) {
    using What = EditProgram::What;
    const auto copy = [&] {
        if (editor_.hasSelection()) ImGui::SetClipboardText(std::string(editor_.selected()).c_str());
    };
    const auto open = [&](FindBar::Mode mode) {
        focused_ = false;
        find_.open(mode, editor_.selected());
        return false;
    };
    caretMoved_ = true;
    switch (what) {
        case What::Undo:
            return editor_.undo();
        case What::Redo:
            return editor_.redo();
        case What::Cut:
            copy();
            return editor_.cut();
        case What::Copy:
            copy();
            return false;
        case What::Paste:
            return ImGui::GetClipboardText() != nullptr && editor_.paste(ImGui::GetClipboardText());
        case What::SelectAll:
            editor_.selectAll();
            return false;
        case What::Find:
            return open(FindBar::Mode::Find);
        case What::Replace:
            return open(FindBar::Mode::Replace);
        case What::GoTo:
            return open(FindBar::Mode::GoTo);
        case What::FindNext:
            return find_.search().empty() ? open(FindBar::Mode::Find) : findNext(editor_.selectionEnd()) && false;
        case What::FindPrevious:
            return find_.search().empty() ? open(FindBar::Mode::Find) : findPrevious() && false;
        case What::UnfoldPasses:
            notes_.toggle(editor_.caretLine());
            return false;
    }
    return false;
}

// ---- what is in sight ----

// New rows above must not push away what is read: the line of the caret stays where it is, else the first in sight.
void ProgramPane::followNotes(const Canvas& canvas) {
    const ProgramRows& rows = notes_.rows();
    const double top = std::floor(topRow_);
    const auto caretRow = static_cast<double>(rows.rowOf(editor_.caretLine()));
    const bool byCaret = focused_ && caretRow >= top && caretRow < top + canvas.visibleRows();
    const ProgramRows::Place first = rows.at(static_cast<std::size_t>(std::max(0.0, top)));
    const bool known = rows.count() > 1;
    const std::size_t lines = linesKnown_;
    notes_.follow(canvas.context.session.outcome, *document_, canvas.context.session.view.findingsInText);
    linesKnown_ = document_->lineCount();
    if (!known || lines != linesKnown_) return;  // the text itself changed: the caret says what is in sight
    if (byCaret) {
        topRow_ += static_cast<double>(rows.rowOf(editor_.caretLine())) - caretRow;
    } else {
        const std::size_t below = std::min(first.below, rows.below(first.line));
        topRow_ += static_cast<double>(rows.rowOf(first.line) + below) - top;
    }
}

void ProgramPane::reveal(const Canvas& canvas, double row, double margin) {
    const double visible = canvas.visibleRows();
    margin = std::min(margin, std::max(0.0, 0.5 * (visible - 1)));
    const double lowest = std::ceil(row + 1 + margin - visible);  // whole rows: the first one is never cut through
    topRow_ = std::clamp(topRow_, lowest, std::max(row - margin, lowest));
}

// Of an unfolded cycle the pass that runs; npos when none does.
std::size_t ProgramPane::runningPass(const PaneContext& context, std::size_t line) const {
    const Instant* instant = context.instant;
    const Trial* trial = context.session.trial();
    const BlockId block = notes_.blockOf(line);
    if (!instant || !instant->hasMoves || !trial || block == kNoBlock) return PassIndex::npos;
    return context.session.index()->passes().passOf(block, trial->timeline.moves[instant->timed].move);
}

std::size_t ProgramPane::runningRow(const Canvas& canvas) const {
    const Instant* instant = canvas.context.instant;
    const std::size_t line = canvas.geometryLine != kNone ? canvas.geometryLine : canvas.currentLine;
    if (line == kNone) return kNone;
    const BlockId cycle = instant->move != nullptr ? instant->move->cycleBlock : kNoBlock;
    const std::size_t cycleLine = cycle == kNoBlock ? kNone : notes_.shift().now(cycle);
    if (cycleLine == kNone || !notes_.isUnfolded(cycleLine)) return notes_.rows().rowOf(line);
    const std::size_t pass = runningPass(canvas.context, cycleLine);
    if (pass == PassIndex::npos) return notes_.rows().rowOf(line);
    const std::size_t passes = canvas.context.session.index()->passes().of(cycle).size();
    return notes_.rows().rowOf(cycleLine) + notes_.rows().below(cycleLine) - passes + pass + 1;
}

void ProgramPane::followTime(const Canvas& canvas) {
    if (wantedLine_ != kNone) {
        reveal(canvas, static_cast<double>(notes_.rows().rowOf(std::exchange(wantedLine_, kNone))), 3);
    }
    const std::size_t row = runningRow(canvas);
    if (row == followedRow_) return;
    followedRow_ = row;
    const bool userReads = canvas.context.now - wheeledAt_ < kPatienceS || selecting_;
    if (row == kNone || userReads) return;
    reveal(canvas, static_cast<double>(row), 3);
    // A caret at the end of a long line may have shifted the text aside; a line that time comes to is read from its
    // start.
    const bool typing = focused_ && canvas.context.now - pressedAt_ < kPatienceS;
    if (!typing) leftCell_ = 0;
}

void ProgramPane::followCaret(const Canvas& canvas) {
    if (!std::exchange(caretMoved_, false)) return;
    reveal(canvas, static_cast<double>(notes_.rows().rowOf(editor_.caretLine())), 0);
    const auto cell = static_cast<double>(editor_.cellOf(editor_.caret()));
    leftCell_ =
        std::clamp(leftCell_, cell + 2 - canvas.visibleCells(), std::max(cell - 2, cell + 2 - canvas.visibleCells()));
}

void ProgramPane::clampScroll(const Canvas& canvas) {
    const double most = std::max(0.0, std::ceil(static_cast<double>(notes_.rows().count()) + 1 - canvas.visibleRows()));
    topRow_ = std::clamp(topRow_, 0.0, most);
    leftCell_ = std::max(0.0, leftCell_);
}

// What the word under a resting mouse says there.
void ProgramPane::hoverWord(const Canvas& canvas) {
    hoverDue_ = false;
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    if (!canvas.hovered || selecting_ || mouse.x < canvas.textLeft()) return;
    if (mouse.x != restingAt_.x || mouse.y != restingAt_.y) {
        restingAt_ = mouse;
        restingSince_ = canvas.context.now;
    }
    hoverDue_ = canvas.context.now - restingSince_ < kRestS;
    if (hoverDue_) return;
    const ProgramRows::Place place = rowAt(canvas, mouse.y);
    if (place.below != 0 || place.line >= document_->lineCount()) return;
    const double cell = leftCell_ + (mouse.x - canvas.textLeft()) / canvas.cell;
    const std::size_t offset = editor_.offsetAtCell(place.line, static_cast<std::size_t>(std::max(0.0, cell)));
    if (offset < document_->lineEnd(place.line))
        tellWordAt(canvas.context, place.line, offset - document_->lineStart(place.line));
}

}  // namespace firstoff::gui
