#include "gui/section/section_dimensions.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "gui/section/section_pen.h"
#include "gui/size_words.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr float kArrow = 9, kLevel = 20, kPad = 4;

bool isLength(const GaugedDimension& d) {
    using Kind = WantedDimension::Kind;
    return d.places.size() >= 2 && (d.wanted.kind == Kind::Length || d.wanted.kind == Kind::GrooveWidth);
}

class Dimensions {
public:
    Dimensions(const PaneContext& context, const SectionView& view, const Trial& trial, double lowest)
        : context_(context),
          view_(view),
          trial_(trial),
          list_(*ImGui::GetWindowDrawList()),
          font_(*context.fonts.small),
          line_(ink(context.palette.text, 0.85f)),
          nextLevel_(view.at({0, -lowest}).y + context.px(kLevel)) {}

    void draw() {
        const auto& all = trial_.gauged.dimensions;
        for (std::size_t i = 0; i < all.size(); ++i) drawOne(all[i], i + 1);
    }

private:
    void drawOne(const GaugedDimension& d, std::size_t number) {
        if (d.places.empty() || d.state == GaugedDimension::State::NotFound) return;
        using Kind = WantedDimension::Kind;
        if (d.wanted.kind == Kind::Diameter) {
            across(d, number);
        } else if (isLength(d)) {
            along(d, number);
        } else {
            leader(d, number);
        }
    }

    std::string words(const GaugedDimension& d, std::size_t number) const {
        const Measures measures = context_.measures();
        std::string text = say("{}: {}  is {}", number, d.name, sizeTold(d, d.expected(), measures));
        const std::string out = outInWords(d, measures);
        if (!out.empty()) {
            text += "  ";
            text += out;
        }
        return text;
    }

    // From the surface to its mirror below the axis.
    void across(const GaugedDimension& d, std::size_t number) {
        const Point p = d.places.front();
        const ImVec2 high = view_.at(p), low = view_.at({p.z, -p.r});
        list_.AddLine(high, low, line_, context_.px(1));
        drawArrow(list_, high, {0, -1}, context_.px(kArrow), line_);
        drawArrow(list_, low, {0, 1}, context_.px(kArrow), line_);
        const ImVec2 axis = view_.at({p.z, 0});
        label(d, number, {high.x, 0.5f * (axis.y + low.y)}, 1);
    }

    // Beneath the part, each one level lower than the last.
    void along(const GaugedDimension& d, std::size_t number) {
        const float y = nextLevel_;
        nextLevel_ += context_.px(kLevel);
        const Point a = d.places[0], b = d.places[1];
        const ImVec2 from = view_.at({a.z, -a.r}), to = view_.at({b.z, -b.r});
        const float past = context_.px(3);
        list_.AddLine({from.x, from.y}, {from.x, y + past}, line_, context_.px(1));
        list_.AddLine({to.x, to.y}, {to.x, y + past}, line_, context_.px(1));
        list_.AddLine({from.x, y}, {to.x, y}, line_, context_.px(1));
        const float way = from.x < to.x ? 1.0f : -1.0f;
        drawArrow(list_, {from.x, y}, {-way, 0}, context_.px(kArrow), line_);
        drawArrow(list_, {to.x, y}, {way, 0}, context_.px(kArrow), line_);
        label(d, number, {0.5f * (from.x + to.x), y}, 0);
    }

    void leader(const GaugedDimension& d, std::size_t number) {
        const ImVec2 at = view_.at(d.places.front());
        const float out = context_.px(24);
        const ImVec2 end{at.x + 0.6f * out, at.y - out};
        list_.AddLine(at, end, line_, context_.px(1));
        drawArrow(list_, at, {-0.514f, 0.857f}, context_.px(kArrow), line_);
        label(d, number, end, -1);
    }

    // On a ground of its own, moved up or down until it covers no other one.
    void label(const GaugedDimension& d, std::size_t number, ImVec2 centre, float way) {
        const std::string text = words(d, number);
        const ImVec2 size = font_.CalcTextSizeA(font_.FontSize, 1e9f, 0, text.c_str());
        const float pad = context_.px(kPad);
        Rect box{centre.x - 0.5f * size.x - pad, centre.y - 0.5f * size.y - 1, size.x + 2 * pad, size.y + 2};
        const Rect& area = view_.area();
        box.x = std::clamp(box.x, area.x + pad, std::max(area.x + pad, area.right() - box.w - pad));
        const float step = (way == 0 ? 1 : way) * (box.h + 2);
        for (int tries = 0; tries < 12 && covers(box); ++tries) box.y += step;
        taken_.push_back(box);
        const bool good = d.state == GaugedDimension::State::Within;
        list_.AddRectFilled({box.x, box.y}, {box.right(), box.bottom()}, ink(context_.palette.panel, 0.94f),
                            context_.px(3));
        if (!good)
            list_.AddRect({box.x, box.y}, {box.right(), box.bottom()}, ink(context_.palette.severity[2]),
                          context_.px(3), 0, context_.px(1.5f));
        list_.AddText(&font_, font_.FontSize, {std::round(box.x + pad), std::round(box.y + 1)},
                      ink(context_.palette.text), text.c_str());
    }

    bool covers(const Rect& box) const {
        return std::any_of(taken_.begin(), taken_.end(), [&](const Rect& other) {
            return box.x < other.right() && other.x < box.right() && box.y < other.bottom() && other.y < box.bottom();
        });
    }

    const PaneContext& context_;
    const SectionView& view_;
    const Trial& trial_;
    ImDrawList& list_;
    const ImFont& font_;
    ImU32 line_;
    float nextLevel_;
    std::vector<Rect> taken_;
};

}  // namespace

float heightOfLengths(const PaneContext& context, const Trial& trial) {
    const auto& all = trial.gauged.dimensions;
    return context.px(kLevel) * static_cast<float>(std::count_if(all.begin(), all.end(), isLength));
}

void drawDimensions(const PaneContext& context, const SectionView& view, const Trial& trial, double lowest) {
    Dimensions(context, view, trial, lowest).draw();
}

}  // namespace firstoff::gui
