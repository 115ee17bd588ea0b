#include "gui/lessons/lesson_text_view.h"

#include <algorithm>
#include <cmath>

#include "gui/wrapped_text.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

// Runs of several manners set into lines, word by word.
class Setting {
public:
    Setting(const PaneContext& context, ImVec2 at, float width)
        : context_(context), list_(*ImGui::GetWindowDrawList()), at_(at), width_(width) {
        line_ = std::round(context.fonts.text->FontSize * 1.35f);
    }

    void run(const firstoff::TextRun& run) {
        const ImFont& font = run.code     ? *context_.fonts.mono
                             : run.strong ? *context_.fonts.strong
                                          : *context_.fonts.text;
        std::string_view rest = run.text;
        while (!rest.empty()) {
            if (rest.front() == '\n') {
                newLine();
                rest.remove_prefix(1);
                continue;
            }
            if (rest.front() == ' ') {
                space_ = true;
                rest.remove_prefix(1);
                continue;
            }
            const std::size_t end = std::min(rest.find_first_of(" \n"), rest.size());
            word(font, rest.substr(0, end), run);
            rest.remove_prefix(end);
        }
    }

    float height() const { return y_ + line_; }

private:
    void newLine() {
        x_ = 0;
        y_ += line_;
        space_ = false;
    }

    void word(const ImFont& font, std::string_view text, const firstoff::TextRun& run) {
        const float width = font.CalcTextSizeA(font.FontSize, 1e9f, 0, text.data(), text.data() + text.size()).x;
        const float gap = space_ && x_ > 0 ? context_.fonts.text->GetCharAdvance(' ') : 0;
        if (x_ > 0 && x_ + gap + width > width_) newLine();
        x_ += x_ > 0 ? gap : 0;
        const ImVec2 at{std::round(at_.x + x_), std::round(at_.y + y_)};
        const float bottom = at.y + context_.fonts.text->FontSize;
        if (run.code) {
            list_.AddRectFilled({at.x - 2, at.y - 1}, {at.x + width + 2, bottom + 2}, ink(context_.palette.raised),
                                context_.px(2));
        }
        if (run.emphasis) list_.AddLine({at.x, bottom + 1}, {at.x + width, bottom + 1}, ink(context_.palette.quiet), 1);
        list_.AddText(&font, font.FontSize, at, ink(context_.palette.text), text.data(), text.data() + text.size());
        x_ += width;
        space_ = false;
    }

    const PaneContext& context_;
    ImDrawList& list_;
    ImVec2 at_;
    float width_, line_ = 0;
    float x_ = 0, y_ = 0;
    bool space_ = false;
};

float drawRuns(const PaneContext& context, ImVec2 at, float width, const std::vector<firstoff::TextRun>& runs) {
    Setting setting(context, at, width);
    for (const firstoff::TextRun& run : runs) setting.run(run);
    return setting.height();
}

void drawItem(const Page& page, const TextBlock& block) {
    const PaneContext& context = page.context();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float indent = context.px(16) * static_cast<float>(std::max(1, block.level));
    const float left = at.x + page.pad();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    if (block.number > 0) {
        const std::string number = std::to_string(block.number) + ".";
        list.AddText(context.fonts.text, context.fonts.text->FontSize, {left + indent - context.px(16), at.y},
                     ink(context.palette.quiet), number.c_str());
    } else {
        list.AddCircleFilled({left + indent - context.px(9), at.y + 0.62f * context.fonts.text->FontSize},
                             context.px(2), ink(context.palette.quiet));
    }
    const float height = drawRuns(context, {left + indent, at.y}, page.width() - indent, block.runs);
    ImGui::Dummy({page.width(), height + context.px(2)});
}

void drawCode(const Page& page, const TextBlock& block) {
    const PaneContext& context = page.context();
    const ImFont& mono = *context.fonts.mono;
    std::string code = block.code;
    while (!code.empty() && code.back() == '\n') code.pop_back();
    const ImVec2 size = mono.CalcTextSizeA(mono.FontSize, 1e9f, 0, code.c_str());
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float left = at.x + page.pad(), pad = context.px(6);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRectFilled({left, at.y}, {left + page.width(), at.y + size.y + 2 * pad}, ink(context.palette.raised),
                       context.px(3));
    list.PushClipRect({left, at.y}, {left + page.width(), at.y + size.y + 2 * pad}, true);
    list.AddText(&mono, mono.FontSize, {left + pad, at.y + pad}, ink(context.palette.text), code.c_str());
    list.PopClipRect();
    ImGui::Dummy({page.width(), size.y + 2 * pad + context.px(4)});
}

bool drawPicture(const Page& page, const TextBlock& block, std::size_t index) {
    const PaneContext& context = page.context();
    ImGui::PushID(static_cast<int>(index));
    ImGui::SetCursorPosX(page.pad());
    std::string words = plainRuns(block.runs);
    if (words.empty()) words = tr("that moment");
    const bool clicked =
        ImGui::Button(fitted(*context.fonts.small, page.width() - context.px(20), say("Show: {}", words)).c_str());
    ImGui::PopID();
    return clicked;
}

}  // namespace

const LessonFigure* drawLessonText(const Page& page, const LessonText& text) {
    const PaneContext& context = page.context();
    const LessonFigure* clicked = nullptr;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const TextBlock& block = text[i];
        const ImVec2 at = ImGui::GetCursorScreenPos();
        switch (block.kind) {
            case TextBlock::Kind::Heading:
            case TextBlock::Kind::Paragraph: {
                std::vector<firstoff::TextRun> runs = block.runs;
                if (block.kind == TextBlock::Kind::Heading) {
                    for (firstoff::TextRun& run : runs) run.strong = true;
                }
                const float indent =
                    context.px(block.quoted ? 12 : 0) + context.px(16) * static_cast<float>(block.level) *
                                                            (block.kind == TextBlock::Kind::Paragraph ? 1.0f : 0.0f);
                const float height = drawRuns(context, {at.x + page.pad() + indent, at.y}, page.width() - indent, runs);
                if (block.quoted)
                    ImGui::GetWindowDrawList()->AddRectFilled({at.x + page.pad(), at.y},
                                                              {at.x + page.pad() + context.px(3), at.y + height},
                                                              ink(context.palette.line));
                ImGui::Dummy({page.width(), height + context.px(5)});
                break;
            }
            case TextBlock::Kind::ListItem:
                drawItem(page, block);
                break;
            case TextBlock::Kind::Code:
                drawCode(page, block);
                break;
            case TextBlock::Kind::Rule:
                ImGui::GetWindowDrawList()->AddLine({at.x + page.pad(), at.y + 3},
                                                    {at.x + page.pad() + page.width(), at.y + 3},
                                                    ink(context.palette.line));
                ImGui::Dummy({1, context.px(8)});
                break;
            case TextBlock::Kind::Picture:
                if (drawPicture(page, block, i)) clicked = &block.figure;
                break;
        }
    }
    return clicked;
}

}  // namespace firstoff::gui
