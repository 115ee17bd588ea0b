#include "sim/output/sheets/paper_pages.h"

#include <utility>

#include <fmt/format.h>

#include "sim/base/say.h"

namespace firstoff {

namespace {

constexpr TypeStyle kFoot{6.5, false, false, 0};
constexpr double kFootGap = 4;  // pt

void rule(cairo_t* cr, double y, double width) {
    cairo_set_source_rgb(cr, 0, 0, 0);
    cairo_set_line_width(cr, width);
    cairo_set_dash(cr, nullptr, 0, 0);
    cairo_move_to(cr, kMarginPt, y);
    cairo_line_to(cr, kMarginPt + kBodyPt, y);
    cairo_stroke(cr);
}

}  // namespace

PaperPages::PaperPages(const TypeCase& type, std::string running, std::vector<std::string> cautions,
                       const Filling& filling)
    : type_(type), running_(std::move(running)), cautions_(std::move(cautions)), filling_(filling) {
    double foot = kFootGap + type_.height("x", kFoot, 0);
    for (const std::string& caution : cautions_) foot += type_.height(caution, kFoot, kBodyPt) + 1;
    wholeBottom_ = kPageHeightPt - kMarginPt - foot - kFootGap;
    begin();
}

void PaperPages::begin() {
    top_ = kMarginPt;
    if (page_ > 1) {
        const double height = type_.draw(running_, kFoot, kMarginPt, top_ - 14);
        rule(type_.cairo(), top_ - 14 + height + 2, 0.5);
    }
    y_ = top_;
    bottom_ = wholeBottom_ - (page_ + 1 == filling_.pages ? filling_.lessPt : 0);
}

void PaperPages::end() {
    double y = wholeBottom_ + kFootGap;
    rule(type_.cairo(), y, 0.75);
    y += 2;
    for (const std::string& caution : cautions_) y += type_.draw(caution, kFoot, kMarginPt, y, kBodyPt) + 1;
    y += 1;
    const std::string number = say("page {} of {}", page_, filling_.pages);
    const double width = type_.width(number, kFoot);
    type_.draw(number, kFoot, kMarginPt + kBodyPt - width, y);
    cairo_show_page(type_.cairo());
}

void PaperPages::need(double height) {
    if (height > room() && !isEmpty()) nextPage();
}

void PaperPages::nextPage() {
    end();
    ++page_;
    begin();
}

int PaperPages::finish(double& lastFill) {
    lastFill = (y_ - top_) / wholeRoom();
    end();
    return page_;
}

}  // namespace firstoff
