#include "gui/program_pane.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "gui/program_text.h"
#include "gui/words_pane.h"
#include "gui/wrapped_text.h"

namespace firstoff::gui {

struct ProgramPane::Canvas {
    const PaneContext& context;
    ImDrawList& list;
    Rect area;         // margin and text
    float margin = 0;  // width of findings and line numbers
    float lineHeight = 0;
    float cell = 0;                // width of one character
    std::size_t currentLine = 0;   // 0-based; npos when there is none
    std::size_t geometryLine = 0;  // likewise, inside cycles
    bool hovered = false;
    bool pressed = false;  // the mouse went down here in this frame

    float textLeft() const { return area.x + margin; }
    double visibleLines() const { return area.h / lineHeight; }
    double visibleCells() const { return (area.w - margin) / cell; }
    const Palette& palette() const { return context.palette; }
};

namespace {

constexpr std::size_t kNone = static_cast<std::size_t>(-1);
constexpr double kRestS = 0.4;      // the mouse rests before a word is told
constexpr float kBar = 12;          // scroll bar
constexpr double kBlinkS = 0.53;    // caret lit, then dark
constexpr double kPatienceS = 2.5;  // after the user has scrolled, time does not pull the text away for so long

std::size_t digits(std::size_t number) {
    return number < 10 ? 1 : 1 + digits(number / 10);
}

int rank(const FindingMark& mark) {
    return 2 * static_cast<int>(mark.severity) + (mark.unproven ? 1 : 0);
}

std::string utf8(char32_t c) {
    const auto tail = [&](int shift) { return static_cast<char>(0x80 | ((c >> shift) & 0x3F)); };
    if (c < 0x80) return {static_cast<char>(c)};
    if (c < 0x800) return {static_cast<char>(0xC0 | (c >> 6)), tail(0)};
    if (c < 0x10000) return {static_cast<char>(0xE0 | (c >> 12)), tail(6), tail(0)};
    return {static_cast<char>(0xF0 | (c >> 18)), tail(12), tail(6), tail(0)};
}

// Text of a line without what no font can show.
std::string printable(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text.substr(i, 3) == "\xEF\xBB\xBF") {
            i += 2;
        } else if (text[i] == '\t') {
            out.append(ProgramEditor::kTabCells - out.size() % ProgramEditor::kTabCells, ' ');
        } else {
            out += static_cast<unsigned char>(text[i]) < 0x20 ? '?' : text[i];
        }
    }
    return out;
}

}  // namespace

void ProgramPane::reset() {
    editor_.reset();
    topLine_ = 0;
    leftCell_ = 0;
    followedLine_ = kNone;
}

void ProgramPane::showLine(std::size_t line, bool moveCaret) {
    line = std::min(line, document_->lineCount() - 1);
    if (moveCaret) editor_.place(document_->lineStart(line));
    wantedLine_ = line;
}

void ProgramPane::draw(const PaneContext& context, const Rect& rect) {
    const PaneFrame frame("program", rect, context, 0, false);
    const float header = context.px(28);
    drawHeader(context, {rect.x, rect.y, rect.w, header});
    const float bar = context.px(kBar);
    Canvas canvas{context, *ImGui::GetWindowDrawList(), {rect.x, rect.y + header, rect.w - bar, rect.h - header}};
    if (canvas.area.h < context.px(10) || canvas.area.w < context.px(30)) return;
    canvas.cell = context.fonts.mono->GetCharAdvance('0');
    canvas.lineHeight = std::round(context.fonts.mono->FontSize * 1.3f);
    const auto numbers = static_cast<float>(std::max<std::size_t>(3, digits(document_->lineCount())));
    canvas.margin = context.px(24) + numbers * canvas.cell + context.px(10);
    const Instant* instant = context.instant;
    canvas.currentLine = instant && instant->block != kNoBlock ? instant->block : kNone;
    canvas.geometryLine = instant && instant->geometry != kNoBlock ? instant->geometry : kNone;
    ImGui::SetCursorScreenPos({canvas.area.x, canvas.area.y});
    ImGui::InvisibleButton("text", {canvas.area.w, canvas.area.h});
    canvas.hovered = ImGui::IsItemHovered();
    canvas.pressed = ImGui::IsItemClicked();

    if (ImGui::IsMouseClicked(ImGuiMouseButton_Left)) focused_ = canvas.pressed;
    const bool keysAreOurs =
        focused_ && !ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopupId | ImGuiPopupFlags_AnyPopupLevel);
    handleMouse(canvas);
    if (keysAreOurs) handleKeys(canvas);
    followTime(canvas);
    followCaret(canvas);
    clampScroll(canvas);

    canvas.list.PushClipRect({canvas.area.x, canvas.area.y}, {canvas.area.right(), canvas.area.bottom()}, true);
    const auto first = static_cast<std::size_t>(topLine_);
    const std::size_t last =
        std::min(document_->lineCount(), first + static_cast<std::size_t>(canvas.visibleLines()) + 2);
    for (std::size_t line = first; line < last; ++line) drawLine(canvas, line);
    if (focused_) drawCaret(canvas);
    canvas.list.PopClipRect();
    drawScrollbar(canvas);
    if (canvas.hovered) hoverFinding(canvas);
    hoverWord(canvas);
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
    const char* state = session.modified() ? "not saved" : "";
    ImFont* small = context.fonts.small;
    list.AddText(small, small->FontSize, {after, std::round(rect.y + 0.5f * (rect.h - small->FontSize))},
                 ink(context.palette.quiet), state, nullptr, 0, &clip);
    list.AddLine({rect.x, rect.bottom() - 1}, {rect.right(), rect.bottom() - 1}, ink(context.palette.line, 0.6f));
}

// ---- mouse ----

std::size_t ProgramPane::offsetAt(const Canvas& canvas, ImVec2 mouse) const {
    const double line = topLine_ + (mouse.y - canvas.area.y) / canvas.lineHeight;
    const double last = static_cast<double>(document_->lineCount() - 1);
    const auto row = static_cast<std::size_t>(std::clamp(std::floor(line), 0.0, last));
    const double cell = leftCell_ + (mouse.x - canvas.textLeft()) / canvas.cell + 0.5;
    return editor_.offsetAtCell(row, static_cast<std::size_t>(std::max(0.0, cell)));
}

void ProgramPane::handleMouse(const Canvas& canvas) {
    const ImGuiIO& io = ImGui::GetIO();
    if (canvas.hovered && io.MouseWheel != 0 && !io.KeyShift) {
        topLine_ -= 3.0 * io.MouseWheel;
        wheeledAt_ = canvas.context.now;
    }
    if (canvas.hovered) leftCell_ -= 4.0 * (io.MouseWheelH + (io.KeyShift ? io.MouseWheel : 0));
    if (canvas.hovered && io.MousePos.x >= canvas.textLeft()) ImGui::SetMouseCursor(ImGuiMouseCursor_TextInput);

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
    followedLine_ = document_->lineAt(offset);  // in sight already: nothing need scroll
    canvas.context.commands.add(SelectLine{followedLine_, false});
}

// ---- keyboard ----

void ProgramPane::handleKeys(const Canvas& canvas) {
    for (const InputEvent& event : canvas.context.input) {
        if (event.key != Key::None) {
            handleKey(canvas, event);
        } else if (event.character >= 0x20 && event.character != 0x7f) {
            changed(canvas, editor_.type(utf8(event.character)));
        }
    }
}

void ProgramPane::handleKey(const Canvas& canvas, const InputEvent& event) {
    if (event.alt) return;
    if (handleMotion(canvas, event) || handleClipboard(canvas, event)) return;
    switch (event.key) {
        case Key::Enter:
            changed(canvas, editor_.newLine());
            return;
        case Key::Backspace:
            changed(canvas, editor_.eraseBackward(event.ctrl));
            return;
        case Key::Delete:
            changed(canvas, editor_.eraseForward(event.ctrl));
            return;
        case Key::Escape:
            focused_ = false;
            return;
        default:
            break;
    }
    if (!event.ctrl) return;
    if (event.is('A')) editor_.selectAll();
    if (event.is('Z')) changed(canvas, event.shift ? editor_.redo() : editor_.undo());
    if (event.is('Y')) changed(canvas, editor_.redo());
}

bool ProgramPane::handleMotion(const Canvas& canvas, const InputEvent& event) {
    using Motion = ProgramEditor::Motion;
    struct Binding {
        Key key;
        Motion plain, withCtrl;
    };
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
    const auto page = static_cast<std::size_t>(std::max(1.0, canvas.visibleLines() - 1));
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

// ---- what is in sight ----

void ProgramPane::reveal(const Canvas& canvas, double line, double margin) {
    const double visible = canvas.visibleLines();
    margin = std::min(margin, std::max(0.0, 0.5 * (visible - 1)));
    const double lowest = std::ceil(line + 1 + margin - visible);  // whole lines: the first one is never cut through
    topLine_ = std::clamp(topLine_, lowest, std::max(line - margin, lowest));
}

void ProgramPane::followTime(const Canvas& canvas) {
    if (wantedLine_ != kNone) reveal(canvas, static_cast<double>(std::exchange(wantedLine_, kNone)), 3);
    const std::size_t line = canvas.geometryLine != kNone ? canvas.geometryLine : canvas.currentLine;
    if (line == followedLine_) return;
    followedLine_ = line;
    const bool userReads = canvas.context.now - wheeledAt_ < kPatienceS || selecting_;
    if (line == kNone || userReads) return;
    reveal(canvas, static_cast<double>(line), 3);
    // A caret at the end of a long line may have shifted the text aside; a line that time comes to is read from its
    // start.
    const bool typing = focused_ && canvas.context.now - pressedAt_ < kPatienceS;
    if (!typing) leftCell_ = 0;
}

void ProgramPane::followCaret(const Canvas& canvas) {
    if (!std::exchange(caretMoved_, false)) return;
    reveal(canvas, static_cast<double>(editor_.caretLine()), 0);
    const auto cell = static_cast<double>(editor_.cellOf(editor_.caret()));
    leftCell_ =
        std::clamp(leftCell_, cell + 2 - canvas.visibleCells(), std::max(cell - 2, cell + 2 - canvas.visibleCells()));
}

void ProgramPane::clampScroll(const Canvas& canvas) {
    const double most =
        std::max(0.0, std::ceil(static_cast<double>(document_->lineCount()) + 1 - canvas.visibleLines()));
    topLine_ = std::clamp(topLine_, 0.0, most);
    leftCell_ = std::max(0.0, leftCell_);
}

// ---- drawing ----

void ProgramPane::drawLine(const Canvas& canvas, std::size_t line) const {
    const float y =
        std::round(canvas.area.y + static_cast<float>((static_cast<double>(line) - topLine_) * canvas.lineHeight));
    drawGround(canvas, line, y);
    canvas.list.PushClipRect({canvas.textLeft() - 1, canvas.area.y}, {canvas.area.right(), canvas.area.bottom()}, true);
    drawText(canvas, line, y);
    canvas.list.PopClipRect();
    drawMargin(canvas, line, y);
}

void ProgramPane::drawGround(const Canvas& canvas, std::size_t line, float y) const {
    const Palette& palette = canvas.palette();
    const float bottom = y + canvas.lineHeight;
    if (line == canvas.currentLine) {
        canvas.list.AddRectFilled({canvas.area.x, y}, {canvas.area.right(), bottom}, ink(palette.current));
        canvas.list.AddRectFilled({canvas.area.x, y}, {canvas.area.x + canvas.context.px(3), bottom},
                                  ink(palette.accent));
    } else if (line == canvas.geometryLine) {
        canvas.list.AddRect({canvas.area.x, y}, {canvas.area.right(), bottom}, ink(palette.accent, 0.7f));
    }
    if (!editor_.hasSelection()) return;
    const std::size_t start = document_->lineStart(line);
    const std::size_t end = document_->lineEnd(line);
    const bool wholeEnd = editor_.selectionEnd() > end;
    if (editor_.selectionStart() > end || editor_.selectionEnd() < start) return;
    const auto left = static_cast<double>(editor_.cellOf(std::max(start, editor_.selectionStart())));
    const double right =
        static_cast<double>(editor_.cellOf(std::min(end, editor_.selectionEnd()))) + (wholeEnd ? 0.6 : 0);
    const auto x = [&](double cell) {
        return std::max(canvas.textLeft(), canvas.textLeft() + static_cast<float>((cell - leftCell_) * canvas.cell));
    };
    if (right > left) canvas.list.AddRectFilled({x(left), y}, {x(right), bottom}, ink(palette.selection));
}

void ProgramPane::drawText(const Canvas& canvas, std::size_t line, float y) const {
    // Longer lines are no program; past this many bytes nothing is on screen.
    constexpr std::size_t kMostBytes = 4096;
    const std::string_view text = document_->line(line).substr(0, kMostBytes);
    const PaneContext& context = canvas.context;
    const TimelineIndex* index = context.session.index();
    const bool executed = index && context.instant && line != canvas.currentLine && line != canvas.geometryLine &&
                          index->doneAt(static_cast<BlockId>(line)) <= context.instant->timeS;
    ImFont* font = context.fonts.mono;
    const float down = std::round(0.5f * (canvas.lineHeight - font->FontSize));
    for (const TextRun& run : runsOf(text)) {
        const std::string shown = printable(text.substr(run.from, run.to - run.from));
        const auto cell = static_cast<double>(editor_.cellOf(document_->lineStart(line) + run.from));
        const float x = canvas.textLeft() + static_cast<float>((cell - leftCell_) * canvas.cell);
        if (x > canvas.area.right()) break;
        Colour colour = colourOf(canvas.palette(), run.kind);
        if (executed) colour = mixed(colour, canvas.palette().quiet, 0.55);
        canvas.list.AddText(font, font->FontSize, {std::round(x), y + down}, ink(colour), shown.c_str());
    }
}

void ProgramPane::drawMargin(const Canvas& canvas, std::size_t line, float y) const {
    const PaneContext& context = canvas.context;
    ImFont* font = context.fonts.mono;
    const std::string number = std::to_string(line + 1);
    const float x = canvas.textLeft() - context.px(10) - static_cast<float>(number.size()) * canvas.cell;
    const bool lit = line == canvas.currentLine || (focused_ && line == editor_.caretLine());
    const Colour colour = lit ? context.palette.text : context.palette.quiet;
    const float down = std::round(0.5f * (canvas.lineHeight - font->FontSize));
    canvas.list.AddText(font, font->FontSize, {std::round(x), y + down}, ink(colour), number.c_str());
    const TimelineIndex* index = context.session.index();
    if (!index) return;
    const std::span<const FindingMark> marks = index->findingsOfLine(static_cast<std::uint32_t>(line + 1));
    if (marks.empty()) return;
    const auto worst =
        std::max_element(marks.begin(), marks.end(), [](const auto& a, const auto& b) { return rank(a) < rank(b); });
    drawSeverity(canvas.list, {canvas.area.x + context.px(14), y + 0.5f * canvas.lineHeight}, context.px(13),
                 context.palette, worst->severity, worst->unproven);
}

void ProgramPane::drawCaret(const Canvas& canvas) const {
    const double phase = std::fmod(canvas.context.now - pressedAt_, 2 * kBlinkS);
    if (phase > kBlinkS) return;
    const auto cell = static_cast<double>(editor_.cellOf(editor_.caret()));
    const auto line = static_cast<double>(editor_.caretLine());
    const float x = std::round(canvas.textLeft() + static_cast<float>((cell - leftCell_) * canvas.cell));
    const float y = std::round(canvas.area.y + static_cast<float>((line - topLine_) * canvas.lineHeight));
    if (x < canvas.textLeft() - 1) return;
    canvas.list.AddRectFilled({x, y + 1}, {x + std::max(1.0f, canvas.context.px(1.5f)), y + canvas.lineHeight - 1},
                              ink(canvas.palette().accent));
}

void ProgramPane::drawScrollbar(const Canvas& canvas) {
    const PaneContext& context = canvas.context;
    const Rect bar{canvas.area.right(), canvas.area.y, context.px(kBar), canvas.area.h};
    const double lines = static_cast<double>(document_->lineCount()) + 1;
    const double visible = canvas.visibleLines();
    ImGui::SetCursorScreenPos({bar.x, bar.y});
    ImGui::InvisibleButton("scroll", {bar.w, bar.h});
    const double grab = std::max(static_cast<double>(context.px(24)), bar.h * std::min(1.0, visible / lines));
    const double most = std::max(0.0, lines - visible);
    if (ImGui::IsItemActive() && most > 0) {
        const double at = (ImGui::GetIO().MousePos.y - bar.y - 0.5 * grab) / std::max(1.0, bar.h - grab);
        topLine_ = std::clamp(at, 0.0, 1.0) * most;
        wheeledAt_ = context.now;
    }
    // Where in the text the findings are, and the block that runs.
    const auto y = [&](double line) { return bar.y + static_cast<float>(line / lines) * bar.h; };
    if (const TimelineIndex* index = context.session.index()) {
        // One mark per two pixels at most: on from the first line that falls below the last mark.
        const double step = 2 * lines / bar.h;
        const std::vector<FindingMark>& marks = index->findingsByLine();
        for (auto mark = marks.begin(); mark != marks.end();) {
            const float at = y(mark->line - 0.5);
            const Colour hue = context.palette.severity[static_cast<std::size_t>(mark->severity)];
            const Colour colour = legible(hue, context.palette.panel, 3);
            canvas.list.AddRectFilled({bar.x + bar.w * 0.5f, at - 1}, {bar.right(), at + 1}, ink(colour));
            const double beyond = mark->line + step;
            mark = std::partition_point(mark + 1, marks.end(), [&](const FindingMark& m) { return m.line < beyond; });
        }
    }
    if (canvas.currentLine != kNone) {
        const float at = y(static_cast<double>(canvas.currentLine) + 0.5);
        canvas.list.AddRectFilled({bar.x, at - 1}, {bar.right(), at + 1}, ink(context.palette.accent));
    }
    if (most <= 0) return;
    const float top = bar.y + static_cast<float>(topLine_ / most * (bar.h - grab));
    const float alpha = ImGui::IsItemHovered() || ImGui::IsItemActive() ? 0.9f : 0.5f;
    canvas.list.AddRectFilled({bar.x + bar.w * 0.25f, top}, {bar.x + bar.w * 0.75f, top + static_cast<float>(grab)},
                              ink(context.palette.quiet, alpha * 0.7f), bar.w * 0.25f);
}

void ProgramPane::hoverFinding(const Canvas& canvas) const {
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const TimelineIndex* index = canvas.context.session.index();
    if (!index || mouse.x > canvas.textLeft()) return;
    const double line = topLine_ + (mouse.y - canvas.area.y) / canvas.lineHeight;
    const std::span<const FindingMark> marks = index->findingsOfLine(static_cast<std::uint32_t>(line) + 1);
    if (marks.empty()) return;
    constexpr std::size_t kMost = 4;
    ImGui::BeginTooltip();
    const auto write = [&](ImFont* font, Colour colour, const std::string& text) {
        ImGui::PushFont(font);
        ImGui::PushStyleColor(ImGuiCol_Text, tint(colour));
        ImGui::TextUnformatted(wrapped(*font, canvas.context.px(400), text).c_str());
        ImGui::PopStyleColor();
        ImGui::PopFont();
    };
    const Fonts& fonts = canvas.context.fonts;
    for (const FindingMark& mark : marks.first(std::min(marks.size(), kMost))) {
        const Finding& finding = canvas.context.session.trial()->findings[mark.finding];
        if (&mark != &marks.front()) ImGui::Separator();
        write(fonts.text, canvas.palette().text, fmt::format("{}: {}", name(finding.severity), finding.message));
        if (!finding.remedy.empty()) write(fonts.small, canvas.palette().quiet, finding.remedy);
    }
    if (marks.size() > kMost) ImGui::TextDisabled("and %zu more", marks.size() - kMost);
    ImGui::EndTooltip();
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
    const double line = topLine_ + (mouse.y - canvas.area.y) / canvas.lineHeight;
    if (line < 0 || line >= static_cast<double>(document_->lineCount())) return;
    const auto row = static_cast<std::size_t>(line);
    const double cell = leftCell_ + (mouse.x - canvas.textLeft()) / canvas.cell;
    const std::size_t offset = editor_.offsetAtCell(row, static_cast<std::size_t>(std::max(0.0, cell)));
    if (offset < document_->lineEnd(row)) tellWordAt(canvas.context, row, offset - document_->lineStart(row));
}

}  // namespace firstoff::gui
