// Tables on pages: columns as wide as their contents ask for, heads repeated on every page, rows never cut.
#include <algorithm>
#include <numeric>

#include "sim/output/sheets/paper_parts.h"
#include "sim/output/sheets/sheet_text.h"

namespace firstoff {

namespace {

constexpr TypeStyle kCell{8, false, false, 0};
constexpr TypeStyle kStrongCell{8, true, false, 0};
constexpr TypeStyle kHead{7.5, true, false, 0};
constexpr TypeStyle kUnit{7, false, false, 0};
constexpr double kSide = 3, kAbove = 2;  // pt round the text of a cell
constexpr double kBlankPt = 44;          // width of a box to write in
constexpr double kBlankHeightPt = 20;    // and its height
constexpr double kWidestWordPt = 130;    // longer ones are broken

class SetTable {
public:
    SetTable(const TypeCase& type, const SheetTable& table) : type_(type), table_(table) {
        for (std::size_t c = 0; c < table.columns.size(); ++c) {
            std::vector<std::string> cells;
            for (const auto& row : table.rows) cells.push_back(row[c]);
            const bool figures = table.columns[c].kind == SheetColumn::Kind::Figure;
            cells_.push_back(figures ? onThePoint(cells) : std::move(cells));
        }
        setWidths();
        for (std::size_t c = 0; c < widths_.size(); ++c) {
            const SheetColumn& column = table.columns[c];
            double height = type.height(column.heading, kHead, widths_[c] - 2 * kSide);
            if (!column.unit.empty()) height += type.height(column.unit, kUnit, widths_[c] - 2 * kSide);
            headHeight_ = std::max(headHeight_, height + 2 * kAbove);
        }
    }

    double headHeight() const { return headHeight_; }

    double rowHeight(std::size_t r) const {
        double height = 0;
        for (std::size_t c = 0; c < widths_.size(); ++c) {
            const bool blank = isBlank(c);
            height =
                std::max(height, blank ? kBlankHeightPt
                                       : type_.height(cells_[c][r], styleOf(r), widths_[c] - 2 * kSide) + 2 * kAbove);
        }
        return height;
    }

    void drawHead(double x, double y) const {
        double at = x;
        for (std::size_t c = 0; c < widths_.size(); ++c) {
            const SheetColumn& column = table_.columns[c];
            const double width = widths_[c] - 2 * kSide;
            // On the foot of the head.
            double height = type_.height(column.heading, kHead, width);
            if (!column.unit.empty()) height += type_.height(column.unit, kUnit, width);
            double down = y + headHeight_ - kAbove - height;
            down += put(column.heading, kHead, at, down, c);
            if (!column.unit.empty()) put(column.unit, kUnit, at, down, c);
            at += widths_[c];
        }
        line(x, y + headHeight_, at - x, 0, 1);
    }

    void drawRow(std::size_t r, double x, double y, double height) const {
        double at = x;
        for (std::size_t c = 0; c < widths_.size(); ++c) {
            if (isBlank(c)) {
                cairo_set_source_rgb(type_.cairo(), 0, 0, 0);
                cairo_set_line_width(type_.cairo(), 0.5);
                cairo_rectangle(type_.cairo(), at, y, widths_[c], height);
                cairo_stroke(type_.cairo());
            } else {
                put(cells_[c][r], styleOf(r), at, y + kAbove, c);
            }
            at += widths_[c];
        }
        line(x, y + height, at - x, 0.6, 0.5);
    }

private:
    bool isBlank(std::size_t c) const { return table_.columns[c].kind == SheetColumn::Kind::Blank; }
    const TypeStyle& styleOf(std::size_t r) const {
        const bool strong = std::binary_search(table_.strongRows.begin(), table_.strongRows.end(), r);
        return strong ? kStrongCell : kCell;
    }

    double put(const std::string& text, const TypeStyle& style, double x, double y, std::size_t c) const {
        const double room = widths_[c] - 2 * kSide;
        const bool right = table_.columns[c].kind == SheetColumn::Kind::Figure;
        const TypeCase::Layout layout = type_.set(text, style, room);
        if (right) pango_layout_set_alignment(layout.get(), PANGO_ALIGN_RIGHT);
        cairo_move_to(type_.cairo(), x + kSide, y);
        cairo_set_source_rgb(type_.cairo(), 0, 0, 0);
        pango_cairo_show_layout(type_.cairo(), layout.get());
        return heightOf(layout.get());
    }

    void line(double x, double y, double width, double grey, double weight) const {
        cairo_t* cr = type_.cairo();
        cairo_set_source_rgb(cr, grey, grey, grey);
        cairo_set_line_width(cr, weight);
        cairo_move_to(cr, x, y);
        cairo_line_to(cr, x + width, y);
        cairo_stroke(cr);
    }

    // What each column would like, and what it can do with.
    void setWidths() {
        std::vector<double> least, liked;
        for (std::size_t c = 0; c < table_.columns.size(); ++c) {
            const SheetColumn& column = table_.columns[c];
            double narrow = std::max(type_.widestWord(column.heading, kHead), type_.widestWord(column.unit, kUnit));
            double wide = std::max(narrow, type_.width(column.heading, kHead) / 2);
            if (isBlank(c)) {
                narrow = wide = std::max(narrow, kBlankPt);
            } else {
                for (std::size_t r = 0; r < cells_[c].size(); ++r) {
                    const bool whole = column.kind == SheetColumn::Kind::Figure;
                    const double all = type_.width(cells_[c][r], styleOf(r));
                    wide = std::max(wide, all);
                    const double word = whole ? all : type_.widestWord(cells_[c][r], styleOf(r));
                    narrow = std::max(narrow, std::min(word, kWidestWordPt));
                }
            }
            least.push_back(narrow + 2 * kSide + 0.5);
            liked.push_back(wide + 2 * kSide + 0.5);
        }
        share(least, liked);
    }

    void share(const std::vector<double>& least, const std::vector<double>& liked) {
        const double sumLeast = std::accumulate(least.begin(), least.end(), 0.0);
        const double sumLiked = std::accumulate(liked.begin(), liked.end(), 0.0);
        widths_ = liked;
        if (sumLiked <= kBodyPt) {
            // What is left over goes between the columns.
            const double more = (kBodyPt - sumLiked) / static_cast<double>(widths_.size());
            for (double& width : widths_) width += more;
            return;
        }
        for (std::size_t c = 0; c < widths_.size(); ++c) {
            widths_[c] = sumLeast >= kBodyPt
                             ? least[c] * kBodyPt / sumLeast
                             : least[c] + (liked[c] - least[c]) * (kBodyPt - sumLeast) / (sumLiked - sumLeast);
        }
    }

    const TypeCase& type_;
    const SheetTable& table_;
    std::vector<std::vector<std::string>> cells_;  // by column
    std::vector<double> widths_;
    double headHeight_ = 0;
};

}  // namespace

double leastTableHeight(const TypeCase& type, const SheetTable& table) {
    const SetTable set(type, table);
    double height = set.headHeight();
    for (std::size_t r = 0; r < std::min<std::size_t>(table.rows.size(), 2); ++r) height += set.rowHeight(r);
    return height;
}

void drawTable(PaperPages& pages, const SheetTable& table, double after) {
    const SetTable set(pages.type(), table);
    pages.need(leastTableHeight(pages.type(), table));
    set.drawHead(pages.left(), pages.y());
    pages.advance(set.headHeight());
    for (std::size_t r = 0; r < table.rows.size(); ++r) {
        const double height = set.rowHeight(r);
        const bool last = r + 1 == table.rows.size();
        // The last row does not stand on a page by itself.
        const bool lastButOne = r > 0 && r + 2 == table.rows.size();
        const double stays = last ? after : lastButOne ? set.rowHeight(r + 1) + after : 0;
        if (height + stays > pages.room() && !pages.isEmpty()) {
            pages.nextPage();
            set.drawHead(pages.left(), pages.y());
            pages.advance(set.headHeight());
        }
        set.drawRow(r, pages.left(), pages.y(), height);
        pages.advance(height);
    }
    pages.space(6);
}

}  // namespace firstoff
