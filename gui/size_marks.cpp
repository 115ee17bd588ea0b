#include "gui/size_marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "gui/scene/palette.h"
#include "gui/size_words.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"
#include "sim/output/gauge_report.h"

namespace firstoff::gui {

namespace {

using State = GaugedDimension::State;

constexpr float kRing = 9;      // radius of a balloon
constexpr float kButtons = 42;  // height of the buttons over the picture

Colour hueOf(const Palette& palette, State state) {
    switch (state) {
        case State::Within:
            return hex(palette::kWithinLimits);
        case State::TooSmall:
            return hex(palette::kTooSmall);
        case State::TooLarge:
            return hex(palette::kTooLarge);
        case State::NotFound:
            break;
    }
    return palette.unproven;
}

// On the side of the turret, where the picture of the part shows its outline.
SpacePoint inPicture(Point place, SpacePoint shift) {
    return inSpace(Point{place.z, std::abs(place.r)}) + shift;
}

float widthOf(const ImFont& font, const std::string& text) {
    return font.CalcTextSizeA(font.FontSize, 1e9f, 0, text.c_str()).x;
}

void dashed(ImDrawList& list, ImVec2 a, ImVec2 b, ImU32 colour, float thick, float dash) {
    const float length = std::hypot(b.x - a.x, b.y - a.y);
    if (length < 1e-3f) return;
    const ImVec2 d{(b.x - a.x) / length, (b.y - a.y) / length};
    for (float at = 0; at < length; at += 1.7f * dash) {
        const float to = std::min(length, at + dash);
        list.AddLine({a.x + d.x * at, a.y + d.y * at}, {a.x + d.x * to, a.y + d.y * to}, colour, thick);
    }
}

// One size on screen.
struct Number {
    const GaugedDimension* dimension = nullptr;
    std::string text;  // beside the ring
    std::string number;
    std::vector<ImVec2> places;
};

class SizeMarks {
public:
    SizeMarks(const PaneContext& context, const SceneView& view, const Trial& trial, SpacePoint shift, bool hovered)
        : context_(context),
          view_(view),
          trial_(trial),
          shift_(shift),
          hovered_(hovered),
          list_(*ImGui::GetWindowDrawList()),
          font_(*context.fonts.small) {}

    void draw() {
        drawOutline();
        drawNumbers();
        drawLegend();
    }

private:
    float px(float measure) const { return context_.px(measure); }

    std::vector<ImVec2> onScreen(const std::vector<Point>& points) const {
        std::vector<ImVec2> result;
        for (const Point& p : points) result.push_back(view_.onScreen(inPicture(p, shift_)));
        return result;
    }

    // The stretches of the drawn outline that the part does not meet: full where metal is left, broken where it is
    // missing, with the amount.
    void drawOutline() {
        const GaugedPart& part = trial_.gauged;
        for (const ContourDeviation& d : part.deviations) {
            const bool left = d.amountMm > 0;
            const Colour hue = hex(left ? palette::kTooLarge : palette::kTooSmall);
            const std::vector<ImVec2> line = onScreen(stretch(d));
            for (std::size_t i = 1; i < line.size(); ++i) {
                list_.AddLine(line[i - 1], line[i], ink(context_.palette.panel, 0.8f), px(5));
                if (left) {
                    list_.AddLine(line[i - 1], line[i], ink(hue), px(3));
                } else {
                    dashed(list_, line[i - 1], line[i], ink(hue), px(3), px(7));
                }
            }
        }
    }

    // Of the outline, from the one end of a deviation to the other.
    std::vector<Point> stretch(const ContourDeviation& d) const {
        constexpr double kChordMm = 0.01, kSameMm = 0.02;
        for (const Contour& contour : trial_.gauged.outline) {
            std::vector<Point> points = polyline(contour, kChordMm);
            if (points.empty()) continue;
            if (!trial_.gauged.outlineOpen) points.push_back(points.front());
            std::size_t from = points.size(), to = points.size();
            for (std::size_t i = 0; i + 1 < points.size(); ++i) {
                if (from == points.size() && onEdge(points[i], points[i + 1], d.from, kSameMm)) from = i;
                if (onEdge(points[i], points[i + 1], d.to, kSameMm)) to = i;
            }
            if (from == points.size() || to == points.size() || to < from) continue;
            std::vector<Point> result{d.from};
            result.insert(result.end(), points.begin() + static_cast<std::ptrdiff_t>(from) + 1,
                          points.begin() + static_cast<std::ptrdiff_t>(to) + 1);
            result.push_back(d.to);
            return result;
        }
        return {d.from, d.place, d.to};
    }

    static bool onEdge(Point a, Point b, Point p, double near) {
        const Point d = b - a;
        const double size = dot(d, d);
        const double share = size > 0 ? std::clamp(dot(p - a, d) / size, 0.0, 1.0) : 0;
        return distance(p, a + share * d) < near;
    }

    void drawNumbers() {
        std::vector<Number> numbers;
        std::vector<BalloonPlace> balloons;
        const float ring = px(kRing), height = 2 * ring + px(2);
        const auto add = [&](Number number, bool above) {
            if (number.places.empty()) return;
            BalloonPlace place;
            for (const ImVec2& p : number.places) {
                place.at.x += p.x / static_cast<float>(number.places.size());
                place.at.y += p.y / static_cast<float>(number.places.size());
            }
            place.width = 2 * ring + (number.text.empty() ? 0 : widthOf(font_, number.text) + px(8));
            if (number.number.empty()) place.width = widthOf(font_, number.text) + px(8);
            place.above = above;
            balloons.push_back(place);
            numbers.push_back(std::move(number));
        };
        const Measures measures = context_.measures();
        std::size_t number = 0;
        for (const GaugedDimension& d : trial_.gauged.dimensions) {
            ++number;
            if (d.state == State::NotFound) continue;  // told beneath
            add({&d, outInWords(d, measures), fmt::format("{}", number), onScreen(d.places)}, !d.wanted.inside);
        }
        for (const ContourDeviation& d : trial_.gauged.deviations) {
            add({nullptr,
                 d.amountMm > 0 ? say("{} left on", told(measures.length(d.amountMm)))
                                : say("{} missing", told(measures.length(-d.amountMm))),
                 {},
                 onScreen({d.place})},
                true);
        }
        Rect room = view_.rect;
        room.x += px(6);
        room.w -= px(12);
        room.y += px(kButtons);
        room.h -= px(kButtons + 6) + legendHeight();
        placeBalloons(balloons, room, height, px(26));
        for (std::size_t i = 0; i < balloons.size(); ++i) drawLeader(numbers[i], balloons[i], height);
        for (std::size_t i = 0; i < balloons.size(); ++i) drawBalloon(numbers[i], balloons[i], height);
        for (const BalloonPlace& b : balloons) withoutRoom_ += b.placed ? 0 : 1;
    }

    // What lies in a bore is seen through the metal unless that is cut away: broken.
    void drawLeader(const Number& number, const BalloonPlace& balloon, float height) {
        const bool through = number.dimension && number.dimension->wanted.inside && context_.session.view.cutaway == 0;
        const float ring = px(kRing);
        const ImVec2 from =
            balloon.placed ? ImVec2{balloon.corner.x + ring, balloon.corner.y + 0.5f * height} : balloon.at;
        for (const ImVec2& to : number.places) {
            if (balloon.placed) {
                list_.AddLine(from, to, ink(context_.palette.panel, 0.7f), px(3.5f));
                if (through) {
                    dashed(list_, from, to, ink(context_.palette.text), px(1.2f), px(4));
                } else {
                    list_.AddLine(from, to, ink(context_.palette.text), px(1.2f));
                }
            }
            list_.AddCircleFilled(to, px(3), ink(context_.palette.panel), 12);
            list_.AddCircleFilled(to, px(2), ink(context_.palette.text), 12);
        }
    }

    void drawBalloon(const Number& number, const BalloonPlace& balloon, float height) {
        if (!balloon.placed) return;
        const Palette& p = context_.palette;
        const float ring = px(kRing);
        const ImVec2 low = balloon.corner, high{low.x + balloon.width, low.y + height};
        const bool worded = !number.text.empty();
        const State state = number.dimension ? number.dimension->state : State::NotFound;
        const Colour hue = number.dimension ? hueOf(p, state) : p.text;
        if (worded) list_.AddRectFilled(low, high, ink(p.panel, 0.93f), ring);
        if (!number.number.empty()) {
            const ImVec2 centre{low.x + ring, low.y + 0.5f * height};
            list_.AddCircleFilled(centre, ring, ink(p.panel), 24);
            list_.AddCircle(centre, ring, ink(hue), 24, px(worded ? 3 : 1.8f));
            const ImVec2 at{std::round(centre.x - 0.5f * widthOf(font_, number.number)),
                            std::round(centre.y - 0.5f * font_.FontSize)};
            list_.AddText(&font_, font_.FontSize, at, ink(p.text), number.number.c_str());
        }
        if (worded) {
            const float x = number.number.empty() ? low.x + px(4) : low.x + 2 * ring + px(4);
            list_.AddText(&font_, font_.FontSize, {std::round(x), std::round(low.y + 0.5f * (height - font_.FontSize))},
                          ink(p.text), number.text.c_str());
        }
        const ImVec2 mouse = ImGui::GetIO().MousePos;
        const bool over = hovered_ && mouse.x >= low.x && mouse.x < high.x && mouse.y >= low.y && mouse.y < high.y;
        if (over && number.dimension) tell(*number.dimension, number.number);
    }

    void tell(const GaugedDimension& d, const std::string& number) const {
        const Measures measures = context_.measures();
        const std::string is = sizeTold(d, d.expected(), measures), least = sizeFigure(d, d.least, measures),
                          most = sizeFigure(d, d.most, measures);
        std::string text =
            say("{}: {}\n{} within {} to {}: {}", number, d.name, is, least, most, stateInWords(d.state));
        if (d.state != State::Within) {
            text = say("{}: {}\n{}, wanted {} to {}: {}", number, d.name, is, least, most, stateInWords(d.state));
        }
        if (d.block != kNoBlock) text += fmt::format("\n{}", trial_.program.lineName(d.block));
        ImGui::SetTooltip("%s", wrapped(*context_.fonts.text, px(380), text).c_str());
    }

    std::vector<std::string> remarks() const {
        const GaugedPart& part = trial_.gauged;
        std::vector<std::string> lines;
        if (part.dimensions.empty() && part.outline.empty()) {
            lines.push_back(tr("The set-up gives no sizes, so none is coloured."));
            return lines;
        }
        lines.push_back(tr("Sizes as they are at the end of the cycle."));
        std::string missing;
        for (std::size_t i = 0; i < part.dimensions.size(); ++i) {
            if (part.dimensions[i].state == State::NotFound)
                missing += fmt::format("{}{}", missing.empty() ? "" : ", ", i + 1);
        }
        if (!missing.empty()) lines.push_back(say("Not gauged: {}.", missing));
        if (withoutRoom_ > 0) lines.push_back(say("{} without room for their numbers: come nearer.", withoutRoom_));
        return lines;
    }

    float legendHeight() const { return px(16) * 4 + px(10); }

    // What the colours and lines mean, in the lower left.
    void drawLegend() {
        struct Row {
            std::uint32_t hue;
            int hatch;
            const char* text;
        };
        static constexpr Row kRows[] = {{palette::kWithinLimits, 0, later("within its limits")},
                                        {palette::kTooSmall, 1, later("too small")},
                                        {palette::kTooLarge, 2, later("too large")},
                                        {palette::kNotMeasured, 0, later("not measured")}};
        const Palette& p = context_.palette;
        std::vector<std::string> lines = remarks();
        const bool none = trial_.gauged.dimensions.empty();
        if (!trial_.gauged.deviations.empty())
            lines.push_back(tr("Lines: the drawn outline; full metal left on, broken missing."));
        const float line = px(16), swatch = px(22), pad = px(7);
        float width = 0;
        for (const std::string& text : lines) width = std::max(width, widthOf(font_, text));
        float rowWidth = 0;
        for (const Row& row : kRows) rowWidth += swatch + px(6) + widthOf(font_, tr(row.text)) + px(12);
        if (!none) width = std::max(width, rowWidth);
        const float height = line * static_cast<float>(lines.size() + (none ? 0 : 1)) + 1.4f * pad;
        const ImVec2 low{view_.rect.x + px(8), view_.rect.bottom() - height - px(8)};
        list_.AddRectFilled(low, {low.x + width + 2 * pad, low.y + height}, ink(p.panel, 0.85f), px(4));
        float y = low.y + 0.7f * pad, x = low.x + pad;
        if (!none) {
            for (const Row& row : kRows) {
                drawSwatch({x, y + px(2)}, {swatch, px(11)}, hex(row.hue), row.hatch);
                x += swatch + px(6);
                list_.AddText(&font_, font_.FontSize, {std::round(x), std::round(y)}, ink(p.text), tr(row.text));
                x += widthOf(font_, tr(row.text)) + px(12);
            }
            y += line;
        }
        for (const std::string& text : lines) {
            list_.AddText(&font_, font_.FontSize, {std::round(low.x + pad), std::round(y)}, ink(p.quiet), text.c_str());
            y += line;
        }
    }

    void drawSwatch(ImVec2 low, ImVec2 size, Colour hue, int hatch) {
        const ImVec2 high{low.x + size.x, low.y + size.y};
        list_.AddRectFilled(low, high, ink(hue));
        const ImU32 dark = ink(mixed(hue, hex(0x000000), 0.6));
        list_.PushClipRect(low, high, true);
        for (float x = low.x - size.y; hatch > 0 && x < high.x; x += px(5.5f)) {
            list_.AddLine({x, high.y}, {x + size.y, low.y}, dark, px(1.2f));
            if (hatch > 1) list_.AddLine({x, low.y}, {x + size.y, high.y}, dark, px(1.2f));
        }
        list_.PopClipRect();
    }

    const PaneContext& context_;
    const SceneView& view_;
    const Trial& trial_;
    SpacePoint shift_;
    bool hovered_;
    ImDrawList& list_;
    ImFont& font_;
    int withoutRoom_ = 0;
};

bool overlaps(const BalloonPlace& a, const BalloonPlace& b, float height) {
    constexpr float kApart = 2;
    return a.corner.x < b.corner.x + b.width + kApart && b.corner.x < a.corner.x + a.width + kApart &&
           a.corner.y < b.corner.y + height + kApart && b.corner.y < a.corner.y + height + kApart;
}

}  // namespace

// In order, each at the nearest place of a grid about what it numbers that is free: first straight above or below it,
// then sideways, then further away, then on the other side.
void placeBalloons(std::vector<BalloonPlace>& balloons, const Rect& room, float height, float away) {
    constexpr int kSteps = 6, kSideways = 5;
    for (std::size_t i = 0; i < balloons.size(); ++i) {
        BalloonPlace& b = balloons[i];
        const auto fits = [&](ImVec2 corner) {
            b.corner = corner;
            if (corner.x < room.x || corner.x + b.width > room.right() || corner.y < room.y ||
                corner.y + height > room.bottom()) {
                return false;
            }
            return std::none_of(balloons.begin(), balloons.begin() + static_cast<std::ptrdiff_t>(i),
                                [&](const BalloonPlace& other) { return other.placed && overlaps(b, other, height); });
        };
        for (int side = 0; side < 2 && !b.placed; ++side) {
            const float down = (side == 0) == b.above ? -1.0f : 1.0f;
            for (int step = 0; step < kSteps * (2 * kSideways + 1) && !b.placed; ++step) {
                const int row = step / (2 * kSideways + 1), k = step % (2 * kSideways + 1);
                const auto sideways = static_cast<float>((k + 1) / 2) * (k % 2 == 0 ? 1.0f : -1.0f);
                const float centre = b.at.y + down * (away + static_cast<float>(row) * (height + 4));
                b.placed = fits({b.at.x - 0.5f * height + sideways * (height + 4), centre - 0.5f * height});
            }
        }
    }
}

void drawSizeMarks(const PaneContext& context, const SceneView& view, const Trial& trial, SpacePoint shift,
                   bool hovered) {
    SizeMarks(context, view, trial, shift, hovered).draw();
}

}  // namespace firstoff::gui
