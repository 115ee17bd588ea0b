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
    // How the pages are filled.
    struct Filling {
        int pages = 0;      // how many there will be, for "page n of m"; 0 while that is not known
        double gaps = 1;    // between parts, of what they would be
        double lessPt = 0;  // room left free on the last page but one, so that more stands on the last
    };
    PaperPages(const TypeCase& type, std::string running, std::vector<std::string> cautions, const Filling& filling);

    const TypeCase& type() const { return type_; }
    double left() const { return kMarginPt; }
    // Where the next thing goes, and how far it may go.
    double y() const { return y_; }
    double bottom() const { return bottom_; }
    double room() const { return bottom_ - y_; }
    // The room of a page with nothing on it yet.
    double wholeRoom() const { return wholeBottom_ - top_; }
    bool isEmpty() const { return y_ <= top_; }

    void advance(double by) { y_ += by; }
    // The same for a gap between parts.
    void space(double by) { y_ += by * filling_.gaps; }
    // Begins a page where less than `height` is left, unless this one is empty.
    void need(double height);
    void nextPage();
    // Ends the last page; returns how many there are. `lastFill` gets how much of that page is used, 0 … 1.
    int finish(double& lastFill);

private:
    void begin();
    void end();

    const TypeCase& type_;
    std::string running_;
    std::vector<std::string> cautions_;
    Filling filling_;
    double wholeBottom_ = 0;
    int page_ = 1;
    double top_ = 0, bottom_ = 0, y_ = 0;
};

}  // namespace firstoff
