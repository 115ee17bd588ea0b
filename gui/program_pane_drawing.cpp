// How the program pane draws its rows.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "gui/pass_words.h"
#include "gui/program_canvas.h"
#include "gui/program_text.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr std::size_t kGoneLine = LineShift::kGone;
constexpr float kBar = 12;        // scroll bar
constexpr double kBlinkS = 0.53;  // caret lit, then dark

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

float ProgramPane::yOf(const Canvas& canvas, double row) const {
    return std::round(canvas.area.y + static_cast<float>((row - topRow_) * canvas.lineHeight));
}

void ProgramPane::drawRow(const Canvas& canvas, std::size_t row) const {
    const float y = yOf(canvas, static_cast<double>(row));
    const ProgramRows::Place place = notes_.rows().at(row);
    if (place.below > 0) {
        drawBelow(canvas, place, y);
        return;
    }
    drawGround(canvas, place.line, y);
    canvas.list.PushClipRect({canvas.textLeft() - 1, canvas.area.y}, {canvas.area.right(), canvas.area.bottom()}, true);
    drawMatches(canvas, place.line, y);
    drawSelection(canvas, place.line, y);
    drawText(canvas, place.line, y);
    canvas.list.PopClipRect();
    drawMargin(canvas, place.line, y);
    drawTriangle(canvas, place.line, y);
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
}

void ProgramPane::drawCells(const Canvas& canvas, double from, double to, float y, ImU32 colour, bool outlined) const {
    if (to <= from) return;
    const auto x = [&](double cell) {
        return std::max(canvas.textLeft(), canvas.textLeft() + static_cast<float>((cell - leftCell_) * canvas.cell));
    };
    const ImVec2 low{x(from), y}, high{x(to), y + canvas.lineHeight};
    if (outlined) {
        canvas.list.AddRect(low, high, colour);
    } else {
        canvas.list.AddRectFilled(low, high, colour);
    }
}

void ProgramPane::drawMatches(const Canvas& canvas, std::size_t line, float y) const {
    constexpr std::size_t kMostBytes = 4096;  // as much of a line as is drawn
    if (!find_.isSearching() || find_.search().empty()) return;
    const std::size_t start = document_->lineStart(line);
    const std::size_t end = std::min(document_->lineEnd(line), start + kMostBytes);
    for (auto match = find_.search().next(document_->text(), start, end); match;
         match = find_.search().next(document_->text(), match->to, end)) {
        const auto from = static_cast<double>(editor_.cellOf(match->from));
        const auto to = static_cast<double>(editor_.cellOf(match->to));
        drawCells(canvas, from, to, y, ink(canvas.palette().wordTool, 0.28f), false);
        drawCells(canvas, from, to, y, ink(canvas.palette().wordTool, 0.8f), true);
    }
}

void ProgramPane::drawSelection(const Canvas& canvas, std::size_t line, float y) const {
    if (!editor_.hasSelection()) return;
    const std::size_t start = document_->lineStart(line);
    const std::size_t end = document_->lineEnd(line);
    const bool wholeEnd = editor_.selectionEnd() > end;
    if (editor_.selectionStart() > end || editor_.selectionEnd() < start) return;
    const auto left = static_cast<double>(editor_.cellOf(std::max(start, editor_.selectionStart())));
    const double right =
        static_cast<double>(editor_.cellOf(std::min(end, editor_.selectionEnd()))) + (wholeEnd ? 0.6 : 0);
    drawCells(canvas, left, right, y, ink(canvas.palette().selection), false);
}

void ProgramPane::drawText(const Canvas& canvas, std::size_t line, float y) const {
    // Longer lines are no program; past this many bytes nothing is on screen.
    constexpr std::size_t kMostBytes = 4096;
    const std::string_view text = document_->line(line).substr(0, kMostBytes);
    const PaneContext& context = canvas.context;
    const TimelineIndex* index = context.session.index();
    const BlockId block = notes_.blockOf(line);
    const bool executed = index && context.instant && block != kNoBlock && line != canvas.currentLine &&
                          line != canvas.geometryLine && index->doneAt(block) <= context.instant->timeS;
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
    const float x = canvas.textLeft() - context.px(18) - static_cast<float>(number.size()) * canvas.cell;
    const bool lit = line == canvas.currentLine || (focused_ && line == editor_.caretLine());
    const Colour colour = lit ? context.palette.text : context.palette.quiet;
    const float down = std::round(0.5f * (canvas.lineHeight - font->FontSize));
    canvas.list.AddText(font, font->FontSize, {std::round(x), y + down}, ink(colour), number.c_str());
    const TimelineIndex* index = context.session.index();
    const BlockId block = notes_.blockOf(line);
    if (!index || block == kNoBlock) return;
    const std::span<const FindingMark> marks = index->findingsOfLine(block + 1);
    if (marks.empty()) return;
    const auto worst =
        std::max_element(marks.begin(), marks.end(), [](const auto& a, const auto& b) { return rank(a) < rank(b); });
    drawSeverity(canvas.list, {canvas.area.x + context.px(14), y + 0.5f * canvas.lineHeight}, context.px(13),
                 context.palette, worst->severity, worst->unproven);
}

// Points to the right while the passes of a cycle are folded away, down while they stand beneath its line.
void ProgramPane::drawTriangle(const Canvas& canvas, std::size_t line, float y) const {
    if (!notes_.isCycle(line)) return;
    const PaneContext& context = canvas.context;
    const float x = canvas.triangleLeft() + context.px(6), middle = y + 0.5f * canvas.lineHeight;
    const float size = context.px(4);
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const bool under = canvas.hovered && mouse.x >= canvas.triangleLeft() && mouse.x < canvas.textLeft() &&
                       mouse.y >= y && mouse.y < y + canvas.lineHeight;
    const ImU32 colour = ink(under ? context.palette.text : context.palette.quiet);
    if (notes_.isUnfolded(line)) {
        canvas.list.AddTriangleFilled({x - size, middle - 0.6f * size}, {x + size, middle - 0.6f * size},
                                      {x, middle + 0.8f * size}, colour);
    } else {
        canvas.list.AddTriangleFilled({x - 0.6f * size, middle - size}, {x - 0.6f * size, middle + size},
                                      {x + 0.8f * size, middle}, colour);
    }
}

void ProgramPane::drawBelow(const Canvas& canvas, ProgramRows::Place place, float y) const {
    const ProgramNotes::Row row = notes_.row(place.line, place.below);
    if (row.note != nullptr) drawNote(canvas, *row.note, row.mends, y);
    if (row.pass != nullptr) drawPass(canvas, place.line, row, y);
}

// Calm: small, on the ground of the pane, the mark of its severity stands in the margin above.
void ProgramPane::drawNote(const Canvas& canvas, const LineNote& note, bool mends, float y) const {
    const PaneContext& context = canvas.context;
    const Trial& trial = *context.session.trial();
    ImFont* font = context.fonts.small;
    const float x = canvas.textLeft() + context.px(10);
    const float room = canvas.area.right() - x - context.px(6);
    const float down = std::round(0.5f * (canvas.lineHeight - font->FontSize));
    if (mends) {
        const std::string text = fitted(*font, room - context.px(12), note.fix.words);
        const float width = font->CalcTextSizeA(font->FontSize, 1e9f, 0, text.c_str()).x + context.px(12);
        const ImVec2 mouse = ImGui::GetIO().MousePos;
        const bool under = canvas.hovered && mouse.y >= y && mouse.y < y + canvas.lineHeight;
        canvas.list.AddRectFilled({x, y + 1}, {x + width, y + canvas.lineHeight - 1},
                                  ink(under ? context.palette.hovered : context.palette.raised), context.px(3));
        canvas.list.AddText(font, font->FontSize, {x + context.px(6), y + down}, ink(context.palette.text),
                            text.c_str());
        return;
    }
    const Finding& finding = trial.findings[*note.worst];
    const Colour hue = finding.severity == Severity::Note
                           ? context.palette.unproven
                           : context.palette.severity[static_cast<std::size_t>(finding.severity)];
    canvas.list.AddRectFilled({canvas.textLeft() + context.px(2), y},
                              {canvas.textLeft() + context.px(4), y + canvas.lineHeight},
                              ink(legible(hue, context.palette.panel, 3)));
    canvas.list.AddText(font, font->FontSize, {x, y + down}, ink(context.palette.quiet),
                        fitted(*font, room, finding.message).c_str());
}

void ProgramPane::drawPass(const Canvas& canvas, std::size_t line, const ProgramNotes::Row& row, float y) const {
    const PaneContext& context = canvas.context;
    const PassTold told = tellPass(*context.session.trial(), *row.pass);
    const std::size_t running = runningPass(context, line);
    const bool lit = running != PassIndex::npos && running + 1 == row.number;
    const bool done = context.instant && told.startS + told.seconds <= context.instant->timeS;
    ImFont* font = context.fonts.small;
    const float down = std::round(0.5f * (canvas.lineHeight - font->FontSize));
    const float left = canvas.textLeft() + context.px(4), right = canvas.area.right() - context.px(6);
    if (lit) {
        canvas.list.AddRectFilled({canvas.textLeft(), y}, {canvas.area.right(), y + canvas.lineHeight},
                                  ink(context.palette.current));
        canvas.list.AddRectFilled({canvas.textLeft(), y}, {canvas.textLeft() + context.px(2), y + canvas.lineHeight},
                                  ink(context.palette.accent));
    }
    const Colour colour = lit ? context.palette.text : done ? context.palette.quiet : context.palette.wordAxis;
    const std::string seconds = fmt::format("{:.1f} s", told.seconds);
    const float width = font->CalcTextSizeA(font->FontSize, 1e9f, 0, seconds.c_str()).x;
    canvas.list.AddText(font, font->FontSize, {right - width, y + down}, ink(colour), seconds.c_str());
    std::string text = std::to_string(row.number);
    for (const std::string* part : {&told.kind, &told.way, &told.feed}) {
        if (part->empty()) continue;
        text += "  ";
        text += *part;
    }
    canvas.list.AddText(font, font->FontSize, {left, y + down}, ink(colour),
                        fitted(*font, right - width - left - context.px(6), text).c_str());
}

void ProgramPane::drawCaret(const Canvas& canvas) const {
    const double phase = std::fmod(canvas.context.now - pressedAt_, 2 * kBlinkS);
    if (phase > kBlinkS) return;
    const auto cell = static_cast<double>(editor_.cellOf(editor_.caret()));
    const auto row = static_cast<double>(notes_.rows().rowOf(editor_.caretLine()));
    const float x = std::round(canvas.textLeft() + static_cast<float>((cell - leftCell_) * canvas.cell));
    const float y = std::round(canvas.area.y + static_cast<float>((row - topRow_) * canvas.lineHeight));
    if (x < canvas.textLeft() - 1) return;
    canvas.list.AddRectFilled({x, y + 1}, {x + std::max(1.0f, canvas.context.px(1.5f)), y + canvas.lineHeight - 1},
                              ink(canvas.palette().accent));
}

// Where in the text the findings are, what was searched for, and the block that runs. One mark of a kind per two pixels
// at most: on from the first line that falls below the last mark.
void ProgramPane::drawBarMarks(const Canvas& canvas, const Rect& bar) const {
    const PaneContext& context = canvas.context;
    const ProgramRows& rows = notes_.rows();
    const double all = static_cast<double>(rows.count()) + 1;
    const auto y = [&](std::size_t line) {
        return bar.y + static_cast<float>((static_cast<double>(rows.rowOf(line)) + 0.5) / all) * bar.h;
    };
    const auto lineBeyond = [&](std::size_t line) {
        const double step = 2 * all / bar.h;
        return std::max(line + 1, rows.at(rows.rowOf(line) + static_cast<std::size_t>(step)).line);
    };
    if (find_.isSearching()) {
        const std::vector<std::size_t>& places = matches_.places();
        for (auto match = places.begin(); match != places.end() && *match <= document_->text().size();) {
            const std::size_t line = document_->lineAt(*match);
            canvas.list.AddRectFilled({bar.x, y(line) - 1}, {bar.x + bar.w * 0.5f, y(line) + 1},
                                      ink(context.palette.wordTool));
            const std::size_t beyond = lineBeyond(line);
            if (beyond >= document_->lineCount()) break;
            match = std::lower_bound(match + 1, places.end(), document_->lineStart(beyond));
        }
    }
    if (const TimelineIndex* index = context.session.index()) {
        const std::vector<FindingMark>& marks = index->findingsByLine();
        for (auto mark = marks.begin(); mark != marks.end();) {
            const std::size_t line = notes_.shift().now(mark->line - 1);
            if (line == kGoneLine || line >= document_->lineCount()) {
                ++mark;
                continue;
            }
            const Colour hue = context.palette.severity[static_cast<std::size_t>(mark->severity)];
            const Colour colour = legible(hue, context.palette.panel, 3);
            canvas.list.AddRectFilled({bar.x + bar.w * 0.5f, y(line) - 1}, {bar.right(), y(line) + 1}, ink(colour));
            const std::size_t beyond = mark->line - 1 + lineBeyond(line) - line;
            mark =
                std::partition_point(mark + 1, marks.end(), [&](const FindingMark& m) { return m.line - 1 < beyond; });
        }
    }
    if (canvas.currentLine != kGoneLine) {
        const float at = y(canvas.currentLine);
        canvas.list.AddRectFilled({bar.x, at - 1}, {bar.right(), at + 1}, ink(context.palette.accent));
    }
}

void ProgramPane::drawScrollbar(const Canvas& canvas) {
    const PaneContext& context = canvas.context;
    const Rect bar{canvas.area.right(), canvas.area.y, context.px(kBar), canvas.area.h};
    const double rows = static_cast<double>(notes_.rows().count()) + 1;
    const double visible = canvas.visibleRows();
    ImGui::SetCursorScreenPos({bar.x, bar.y});
    ImGui::InvisibleButton("scroll", {bar.w, bar.h});
    const double grab = std::max(static_cast<double>(context.px(24)), bar.h * std::min(1.0, visible / rows));
    const double most = std::max(0.0, rows - visible);
    if (ImGui::IsItemActive() && most > 0) {
        const double at = (ImGui::GetIO().MousePos.y - bar.y - 0.5 * grab) / std::max(1.0, bar.h - grab);
        topRow_ = std::clamp(at, 0.0, 1.0) * most;
        wheeledAt_ = context.now;
    }
    drawBarMarks(canvas, bar);
    if (most <= 0) return;
    const float top = bar.y + static_cast<float>(topRow_ / most * (bar.h - grab));
    const float alpha = ImGui::IsItemHovered() || ImGui::IsItemActive() ? 0.9f : 0.5f;
    canvas.list.AddRectFilled({bar.x + bar.w * 0.25f, top}, {bar.x + bar.w * 0.75f, top + static_cast<float>(grab)},
                              ink(context.palette.quiet, alpha * 0.7f), bar.w * 0.25f);
}

void ProgramPane::hoverFinding(const Canvas& canvas) const {
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const TimelineIndex* index = canvas.context.session.index();
    const ProgramRows::Place place = rowAt(canvas, mouse.y);
    const BlockId block = notes_.blockOf(place.line);
    if (!index || block == kNoBlock) return;
    const bool below = place.below > 0;
    if (!below && mouse.x > canvas.triangleLeft()) return;
    if (below && notes_.row(place.line, place.below).note == nullptr) return;
    const std::span<const FindingMark> marks = index->findingsOfLine(block + 1);
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
        write(fonts.text, canvas.palette().text, fmt::format("{}: {}", tr(name(finding.severity)), finding.message));
        if (!finding.remedy.empty()) write(fonts.small, canvas.palette().quiet, finding.remedy);
    }
    if (marks.size() > kMost) ImGui::TextDisabled("%s", say("and {} more", marks.size() - kMost).c_str());
    ImGui::EndTooltip();
}

}  // namespace firstoff::gui
