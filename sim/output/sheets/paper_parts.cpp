#include "sim/output/sheets/paper_parts.h"

#include <algorithm>
#include <cmath>

namespace firstoff {

namespace {

constexpr TypeStyle kText{9, false, false, 0};
constexpr TypeStyle kStrong{9, true, false, 0};
constexpr TypeStyle kSmall{7.5, false, false, 0};
constexpr TypeStyle kLabel{6.8, false, false, 0.25};
constexpr TypeStyle kQuote{7.5, false, true, 0};
constexpr TypeStyle kVerdict{11, true, false, 0};
constexpr double kAfter = 3;      // pt below a part
constexpr double kColumnPt = 96;  // least width of a column of facts
constexpr double kPictureGapPt = 8;
constexpr double kSigningPt = 44;
constexpr double kWritingPt = 20;  // from line to line of handwriting

void hairline(cairo_t* cr, double x, double y, double width) {
    cairo_set_source_rgb(cr, 0.5, 0.5, 0.5);
    cairo_set_line_width(cr, 0.5);
    cairo_move_to(cr, x, y);
    cairo_line_to(cr, x + width, y);
    cairo_stroke(cr);
}

void frame(cairo_t* cr, double x, double y, double width, double height, double line) {
    cairo_set_source_rgb(cr, 0, 0, 0);
    cairo_set_line_width(cr, line);
    cairo_rectangle(cr, x, y, width, height);
    cairo_stroke(cr);
}

// Line by line over the pages, two lines at least before a break.
void drawLines(PaperPages& pages, std::string_view text, const TypeStyle& style, double indent) {
    const TypeCase& type = pages.type();
    const TypeCase::Layout layout = type.set(text, style, kBodyPt - indent);
    const int lines = pango_layout_get_line_count(layout.get());
    const double each = heightOf(layout.get()) / lines;
    pages.need(each * std::min(lines, lines == 3 ? 3 : 2));
    for (int i = 0; i < lines; ++i) {
        pages.need(each);
        PangoLayoutLine* line = pango_layout_get_line_readonly(layout.get(), i);
        PangoRectangle logical;
        pango_layout_line_get_extents(line, nullptr, &logical);
        cairo_move_to(type.cairo(), pages.left() + indent, pages.y() - static_cast<double>(logical.y) / PANGO_SCALE);
        cairo_set_source_rgb(type.cairo(), style.grey, style.grey, style.grey);
        pango_cairo_show_layout_line(type.cairo(), line);
        pages.advance(each);
    }
}

struct Framed {
    TypeStyle style;
    double line = 1, bar = 0;
};
constexpr double kFrameInside = 5;

double framedHeight(const TypeCase& type, const std::string& text, const Framed& f) {
    return type.height(text, f.style, kBodyPt - 2 * kFrameInside - f.bar) + 2 * kFrameInside;
}

void drawFramed(PaperPages& pages, const std::string& text, const Framed& f) {
    const TypeCase& type = pages.type();
    const double height = framedHeight(type, text, f);
    pages.need(height + kAfter);
    cairo_t* cr = type.cairo();
    frame(cr, pages.left(), pages.y(), kBodyPt, height, f.line);
    if (f.bar > 0) {
        cairo_rectangle(cr, pages.left(), pages.y(), f.bar, height);
        cairo_fill(cr);
    }
    type.draw(text, f.style, pages.left() + f.bar + kFrameInside, pages.y() + kFrameInside,
              kBodyPt - 2 * kFrameInside - f.bar);
    pages.advance(height);
    pages.space(kAfter + 2);
}

constexpr Framed kCautionFrame{kText, 1, 5}, kVerdictFrame{kVerdict, 2, 0};

void drawQuote(PaperPages& pages, const std::string& text) {
    const TypeCase& type = pages.type();
    const double height = type.height(text, kQuote, kBodyPt - 8) + 4;
    pages.need(height);
    cairo_t* cr = type.cairo();
    cairo_set_source_rgb(cr, 0.94, 0.94, 0.94);
    cairo_rectangle(cr, pages.left(), pages.y(), kBodyPt, height);
    cairo_fill(cr);
    type.draw(text, kQuote, pages.left() + 4, pages.y() + 2, kBodyPt - 8);
    pages.advance(height + 2);
}

void drawParagraph(PaperPages& pages, const SheetParagraph& p) {
    constexpr double kIndent = 9;
    switch (p.kind) {
        case SheetParagraph::Kind::Item: {
            const double line = pages.type().height("x", kText, 0);
            pages.need(line * 2);
            pages.type().draw("•", kText, pages.left() + 1, pages.y());
            drawLines(pages, p.text, kText, kIndent);
            return pages.space(2);
        }
        case SheetParagraph::Kind::Quote:
            return drawQuote(pages, p.text);
        case SheetParagraph::Kind::Caution:
            return drawFramed(pages, p.text, kCautionFrame);
        case SheetParagraph::Kind::Verdict:
            return drawFramed(pages, p.text, kVerdictFrame);
        case SheetParagraph::Kind::Minor:
            drawLines(pages, p.text, kSmall, 0);
            return pages.space(kAfter);
        case SheetParagraph::Kind::Plain:
            drawLines(pages, p.text, kText, 0);
            return pages.space(kAfter);
    }
}

double leastParagraph(const TypeCase& type, const SheetParagraph& p) {
    if (p.kind == SheetParagraph::Kind::Caution) return framedHeight(type, p.text, kCautionFrame);
    if (p.kind == SheetParagraph::Kind::Verdict) return framedHeight(type, p.text, kVerdictFrame);
    if (p.kind == SheetParagraph::Kind::Quote) return type.height(p.text, kQuote, kBodyPt - 8) + 4;
    return 2 * type.height("x", kText, 0);
}

double figureHeight(const TypeCase& type, const SheetFigure& f) {
    const double caption = f.caption.empty() ? 0 : type.height(f.caption, kSmall, kBodyPt) + 2;
    return f.sketch.height * kPointsPerMm + caption;
}

void drawFigure(PaperPages& pages, const SheetFigure& f) {
    const TypeCase& type = pages.type();
    pages.need(figureHeight(type, f));
    drawSketch(type, f.sketch, pages.left() + (kBodyPt - f.sketch.width * kPointsPerMm) / 2, pages.y());
    pages.advance(f.sketch.height * kPointsPerMm);
    if (!f.caption.empty()) {
        pages.advance(2);
        drawLines(pages, f.caption, kSmall, 0);
    }
    pages.space(kAfter);
}

struct CardPlace {
    double pictureWidth = 0, pictureHeight = 0, textX = 0, textWidth = 0, height = 0;
};

CardPlace placeCard(const TypeCase& type, const SheetCard& card) {
    CardPlace place;
    if (card.picture) {
        place.pictureWidth = card.picture->width * kPointsPerMm;
        place.pictureHeight = card.picture->height * kPointsPerMm;
        place.textX = place.pictureWidth + kPictureGapPt;
    }
    place.textWidth = kBodyPt - place.textX;
    double text = type.height(card.heading, kStrong, place.textWidth) + 2;
    text += heightOfFacts(type, card.facts, place.textWidth);
    for (const std::string& remark : card.remarks) text += type.height(remark, kSmall, place.textWidth) + 1;
    place.height = std::max(text, place.pictureHeight) + 6;
    return place;
}

void drawCard(PaperPages& pages, const SheetCard& card) {
    const TypeCase& type = pages.type();
    const CardPlace place = placeCard(type, card);
    pages.need(place.height);
    hairline(type.cairo(), pages.left(), pages.y(), kBodyPt);
    const double top = pages.y() + 3;
    if (card.picture) drawSketch(type, *card.picture, pages.left(), top);
    const double x = pages.left() + place.textX;
    double y = top + type.draw(card.heading, kStrong, x, top, place.textWidth) + 2;
    y += drawFacts(type, card.facts, x, y, place.textWidth);
    for (const std::string& remark : card.remarks) y += type.draw(remark, kSmall, x, y, place.textWidth) + 1;
    pages.advance(place.height);
}

constexpr double kMarkGap = 6;

double entryHead(const TypeCase& type, const SheetEntry& entry) {
    const double mark = type.width(entry.mark, kStrong) + 8;
    return type.height(entry.heading, kStrong, kBodyPt - mark - kMarkGap) + 3;
}

double leastEntry(const TypeCase& type, const SheetEntry& entry) {
    double height = entryHead(type, entry) + 3;
    // The quoted line and the beginning of what is said about it stay with the head.
    for (std::size_t i = 0; i < std::min<std::size_t>(entry.text.size(), 2); ++i) {
        height += leastParagraph(type, entry.text[i]) + 2;
    }
    return height;
}

void drawEntry(PaperPages& pages, const SheetEntry& entry) {
    const TypeCase& type = pages.type();
    pages.need(leastEntry(type, entry));
    cairo_t* cr = type.cairo();
    hairline(cr, pages.left(), pages.y(), kBodyPt);
    pages.advance(3);
    const double mark = type.width(entry.mark, kStrong) + 8;
    const double line = type.height("x", kStrong, 0);
    TypeStyle style = kStrong;
    frame(cr, pages.left(), pages.y(), mark, line + 1, 0.75);
    if (entry.grave) {
        cairo_rectangle(cr, pages.left(), pages.y(), mark, line + 1);
        cairo_fill(cr);
        style.grey = 1;
    }
    type.draw(entry.mark, style, pages.left() + 4, pages.y() + 0.5);
    type.draw(entry.heading, kStrong, pages.left() + mark + kMarkGap, pages.y(), kBodyPt - mark - kMarkGap);
    pages.advance(entryHead(type, entry));
    for (const SheetParagraph& p : entry.text) drawParagraph(pages, p);
    pages.space(3);
}

void drawSigning(PaperPages& pages, const SheetSigning& signing) {
    const TypeCase& type = pages.type();
    pages.need(kSigningPt);
    const double width = kBodyPt / static_cast<double>(std::max<std::size_t>(1, signing.labels.size()));
    for (std::size_t i = 0; i < signing.labels.size(); ++i) {
        const double x = pages.left() + width * static_cast<double>(i);
        frame(type.cairo(), x, pages.y(), width, kSigningPt, 0.75);
        type.draw(signing.labels[i], kLabel, x + 3, pages.y() + 2, width - 6);
    }
    pages.advance(kSigningPt);
    pages.space(kAfter);
}

double questionHead(const TypeCase& type, const SheetQuestion& question) {
    const double mark = type.width(question.mark, kStrong) + 8;
    return std::max(type.height(question.text, kText, kBodyPt - mark - kMarkGap), type.height("x", kStrong, 0) + 1);
}

double questionHeight(const TypeCase& type, const SheetQuestion& question) {
    return questionHead(type, question) + question.lines * kWritingPt;
}

void drawQuestion(PaperPages& pages, const SheetQuestion& question) {
    const TypeCase& type = pages.type();
    pages.need(questionHeight(type, question));
    const double mark = type.width(question.mark, kStrong) + 8;
    frame(type.cairo(), pages.left(), pages.y(), mark, type.height("x", kStrong, 0) + 1, 0.75);
    type.draw(question.mark, kStrong, pages.left() + 4, pages.y() + 0.5);
    type.draw(question.text, kText, pages.left() + mark + kMarkGap, pages.y() + 0.5, kBodyPt - mark - kMarkGap);
    pages.advance(questionHead(type, question));
    for (int i = 0; i < question.lines; ++i) {
        pages.advance(kWritingPt);
        hairline(type.cairo(), pages.left(), pages.y(), kBodyPt);
    }
    pages.space(kAfter + 8);
}

// Facts beside one another by their widest value, so that few of them are broken.
std::size_t factColumns(double width) {
    return std::max<std::size_t>(1, static_cast<std::size_t>(width / kColumnPt));
}

// Walks through the facts row by row: `place(fact, x, y, width)` for each, returns the height.
template <typename Place>
double walkFacts(const TypeCase& type, const std::vector<SheetFact>& facts, double width, Place place) {
    const std::size_t columns = factColumns(width);
    const double each = width / static_cast<double>(columns), gap = 6;
    double y = 0, row = 0;
    std::size_t column = 0;
    for (const SheetFact& fact : facts) {
        // A long value takes as many columns as it needs to stay on one line, or a whole row.
        const double needs = std::max(type.width(fact.value, kText), type.width(fact.label, kLabel)) + gap;
        const auto takes =
            static_cast<std::size_t>(std::clamp(std::ceil(needs / each), 1.0, static_cast<double>(columns)));
        if (column + takes > columns) {
            y += row;
            row = 0;
            column = 0;
        }
        const double room = each * static_cast<double>(takes) - gap;
        place(fact, each * static_cast<double>(column), y, room);
        row = std::max(row, type.height(fact.label, kLabel, room) + type.height(fact.value, kText, room) + 3);
        column += takes;
    }
    return y + row;
}

}  // namespace

double heightOfFacts(const TypeCase& type, const std::vector<SheetFact>& facts, double width) {
    return walkFacts(type, facts, width, [](const SheetFact&, double, double, double) {});
}

double drawFacts(const TypeCase& type, const std::vector<SheetFact>& facts, double x, double y, double width) {
    return walkFacts(type, facts, width, [&](const SheetFact& fact, double dx, double dy, double room) {
        const double label = type.draw(fact.label, kLabel, x + dx, y + dy, room);
        type.draw(fact.value, kText, x + dx, y + dy + label, room);
    });
}

void drawPart(PaperPages& pages, const SheetPart& part, double after) {
    struct Draw {
        PaperPages& pages;
        double after;
        void operator()(const SheetParagraph& p) const { drawParagraph(pages, p); }
        void operator()(const SheetFacts& f) const {
            pages.need(heightOfFacts(pages.type(), f.facts, kBodyPt));
            pages.advance(drawFacts(pages.type(), f.facts, pages.left(), pages.y(), kBodyPt) + kAfter);
        }
        void operator()(const SheetFigure& f) const { drawFigure(pages, f); }
        void operator()(const SheetCard& c) const { drawCard(pages, c); }
        void operator()(const SheetEntry& e) const { drawEntry(pages, e); }
        void operator()(const SheetTable& t) const { drawTable(pages, t, after); }
        void operator()(const SheetSigning& s) const { drawSigning(pages, s); }
        void operator()(const SheetProgramLine& l) const { drawProgramLine(pages, l); }
        void operator()(const SheetQuestion& q) const { drawQuestion(pages, q); }
    };
    std::visit(Draw{pages, after}, part);
}

double leastHeight(const TypeCase& type, const SheetPart& part) {
    struct Least {
        const TypeCase& type;
        double operator()(const SheetParagraph& p) const { return leastParagraph(type, p); }
        double operator()(const SheetFacts& f) const { return heightOfFacts(type, f.facts, kBodyPt); }
        double operator()(const SheetFigure& f) const { return figureHeight(type, f); }
        double operator()(const SheetCard& c) const { return placeCard(type, c).height; }
        double operator()(const SheetEntry& e) const { return leastEntry(type, e); }
        double operator()(const SheetTable& t) const { return leastTableHeight(type, t); }
        double operator()(const SheetSigning&) const { return kSigningPt; }
        double operator()(const SheetProgramLine& l) const { return programLineHeight(type, l); }
        double operator()(const SheetQuestion& q) const { return questionHeight(type, q); }
    };
    return std::visit(Least{type}, part);
}

}  // namespace firstoff
