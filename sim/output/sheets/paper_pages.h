// A4 pages filled from top to bottom, with what stands on every one of them. Inside sim/output/sheets only.
#pragma once

#include <string>
#include <vector>

#include "sim/output/sheets/paper_text.h"

namespace firstoff {

inline constexpr double kPageWidthPt = 210 * kPointsPerMm, kPageHeightPt = 297 * kPointsPerMm;
inline constexpr double kMarginPt = 14 * kPointsPerMm;
inline constexpr double kBodyPt = kPageWidthPt - 2 * kMarginPt;

class PaperPages {
public:
    // `pages`: how many there will be, for "page n of m"; 0 while that is not known.
    PaperPages(const TypeCase& type, std::string running, std::vector<std::string> cautions, int pages);

    const TypeCase& type() const { return type_; }
    double left() const { return kMarginPt; }
    // Where the next thing goes, and how far it may go.
    double y() const { return y_; }
    double bottom() const { return bottom_; }
    double room() const { return bottom_ - y_; }
    // The room of a page with nothing on it yet.
    double wholeRoom() const { return bottom_ - top_; }
    bool isEmpty() const { return y_ <= top_; }

    void advance(double by) { y_ += by; }
    // Begins a page where less than `height` is left, unless this one is empty.
    void need(double height);
    void nextPage();
    // Ends the last page; returns how many there are.
    int finish();

private:
    void begin();
    void end();

    const TypeCase& type_;
    std::string running_;
    std::vector<std::string> cautions_;
    int pages_ = 0, page_ = 1;
    double top_ = 0, bottom_ = 0, y_ = 0;
};

}  // namespace firstoff
