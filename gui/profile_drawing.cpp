#include "gui/profile_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "gui/figures.h"
#include "sim/output/table_figures.h"

namespace firstoff::gui {

namespace {

// Measures at scale 1.
constexpr float kScaleLeft = 34, kScaleBelow = 17, kTheoryBeside = 62, kAbove = 5;
constexpr float kTheoryFrom = 250;  // width from which there is room for f²/8r beside the plot
constexpr float kTickEvery = 44, kTickUp = 20;
constexpr float kRoom = 4;  // between the profile and the ends of its scale

// Long dash and dot, as mean lines and axes are drawn; measures along the line.
constexpr float kDash = 9, kGap = 3, kDot = 2;

class Drawing {
public:
    Drawing(const PaneContext& context, const Rect& rect, const FinishAnswer& answer)
        : context_(context), plot_(answer.plot), report_(*answer.report), list_(*ImGui::GetWindowDrawList()) {
        withTheory_ = report_.theory && rect.w >= context.px(kTheoryFrom);
        left_ = rect.x + context.px(kScaleLeft);
        right_ = rect.right() - context.px(withTheory_ ? kTheoryBeside : 6);
        top_ = rect.y + context.px(kAbove);
        bottom_ = rect.bottom() - context.px(kScaleBelow);
        along_ = static_cast<double>(right_ - left_) / plot_.length;
        double highest = plot_.highest;
        if (withTheory_) highest = std::max(highest, report_.theory->rtParabola);
        const double rise = std::max(highest - plot_.lowest, 1e-6);  // flatter than a nanometre is flat
        const double room = std::max(1.0, static_cast<double>(bottom_ - top_ - 2 * context.px(kRoom)));
        up_ = std::min(along_ * roundMagnification(room / rise / along_), room / rise);
    }

    double run() {
        list_.PushClipRect({left_, top_}, {right_ + 1, bottom_ + 1}, true);
        metal();
        sections();
        outline();
        meanLine();
        list_.PopClipRect();
        scales();
        if (withTheory_) theory();
        return up_ / along_;
    }

private:
    float x(double along) const { return left_ + static_cast<float>(along * along_); }
    float y(double height) const {
        return bottom_ - context_.px(kRoom) - static_cast<float>((height - plot_.lowest) * up_);
    }
    ImVec2 at(const PlotPoint& p) const { return {x(p.along), y(p.height)}; }

    void metal() {
        // Soft edges would leave seams between the strips.
        const ImDrawListFlags before = list_.Flags;
        list_.Flags &= ~ImDrawListFlags_AntiAliasedFill;
        const ImU32 fill = ink(mixed(context_.palette.panel, context_.palette.quiet, 0.28));
        for (std::size_t i = 0; i + 1 < plot_.line.size(); ++i) {
            const ImVec2 a = at(plot_.line[i]), b = at(plot_.line[i + 1]);
            list_.AddQuadFilled(a, b, {b.x, bottom_}, {a.x, bottom_}, fill);
        }
        list_.Flags = before;
    }

    void outline() {
        std::vector<ImVec2> points;
        for (const PlotPoint& p : plot_.line) points.push_back(at(p));
        list_.AddPolyline(points.data(), static_cast<int>(points.size()), ink(context_.palette.text), 0,
                          context_.px(1.4f));
    }

    void sections() {
        const ImU32 colour = ink(context_.palette.quiet, 0.8f);
        for (double along : plot_.sections) {
            const float at = std::round(x(along));
            for (float down = top_; down < bottom_; down += context_.px(6)) {
                list_.AddLine({at, down}, {at, std::min(bottom_, down + context_.px(3))}, colour);
            }
        }
    }

    // Nearly level, so its dashes are measured from left to right.
    void meanLine() {
        const float period = context_.px(kDash + 2 * kGap + kDot);
        const auto inked = [&](float where) {
            const float into = std::fmod(where, period);
            return into < context_.px(kDash) ||
                   (into >= context_.px(kDash + kGap) && into < period - context_.px(kGap));
        };
        for (std::size_t i = 0; i + 1 < plot_.meanLine.size(); ++i) {
            const ImVec2 a = at(plot_.meanLine[i]), b = at(plot_.meanLine[i + 1]);
            if (inked(0.5f * (a.x + b.x) - left_)) list_.AddLine(a, b, ink(context_.palette.accent), context_.px(1.6f));
        }
    }

    void label(ImVec2 where, float anchor, const std::string& text, Colour colour) {
        ImFont* font = context_.fonts.small;
        const float width = font->CalcTextSizeA(font->FontSize, 1e9f, 0, text.c_str()).x;
        list_.AddText(font, font->FontSize, {std::round(where.x - anchor * width), std::round(where.y)}, ink(colour),
                      text.c_str());
    }

    void scales() {
        const Palette& palette = context_.palette;
        const ImU32 line = ink(palette.quiet);
        list_.AddLine({left_, top_}, {left_, bottom_}, line);
        list_.AddLine({left_, bottom_}, {right_, bottom_}, line);
        const float half = 0.5f * context_.fonts.small->FontSize;
        const double upStep = niceStep(context_.px(kTickUp) / up_);
        for (double k = std::ceil(plot_.lowest / upStep - 1e-9); y(k * upStep) >= top_ + half; ++k) {
            const float down = std::round(y(k * upStep));
            list_.AddLine({left_ - context_.px(3), down}, {left_, down}, line);
            label({left_ - context_.px(6), down - half - 1}, 1, tableFigure(1e3 * k * upStep), palette.quiet);
        }
        label({left_ + context_.px(3), top_ - context_.px(kAbove)}, 0, "µm", palette.quiet);
        const double step = niceStep(context_.px(kTickEvery) / along_);
        for (double k = std::ceil(report_.from / step - 1e-9); k * step <= report_.from + plot_.length; ++k) {
            const float across = std::round(x(k * step - report_.from));
            if (across > right_ - context_.px(40)) break;  // the unit stands there
            list_.AddLine({across, bottom_}, {across, bottom_ + context_.px(3)}, line);
            label({across, bottom_ + context_.px(4)}, 0.5f, tableFigure(k * step), palette.quiet);
        }
        label({right_, bottom_ + context_.px(4)}, 1, "mm", palette.quiet);
    }

    void theory() {
        const double height = report_.theory->rtParabola;
        const float across = right_ + context_.px(8), end = context_.px(3);
        const float low = y(0), high = y(height);
        const ImU32 colour = ink(context_.palette.rapid);
        list_.AddLine({across, low}, {across, high}, colour, context_.px(1.6f));
        for (float down : {low, high}) {
            list_.AddLine({across - end, down}, {across + end, down}, colour, context_.px(1.6f));
        }
        const float middle = 0.5f * (low + high), line = context_.fonts.small->FontSize;
        label({across + context_.px(7), middle - line}, 0, "f²/8r", context_.palette.text);
        label({across + context_.px(7), middle + 1}, 0, fmt::format("{:.3f}", 1e3 * height), context_.palette.text);
    }

    const PaneContext& context_;
    const ProfilePlot& plot_;
    const FinishReport& report_;
    ImDrawList& list_;
    bool withTheory_ = false;
    float left_ = 0, right_ = 0, top_ = 0, bottom_ = 0;
    double along_ = 1, up_ = 1;  // px for a mm
};

}  // namespace

double drawProfile(const PaneContext& context, const Rect& rect, const FinishAnswer& answer) {
    return Drawing(context, rect, answer).run();
}

}  // namespace firstoff::gui
