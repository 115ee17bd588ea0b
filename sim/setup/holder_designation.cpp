#include "sim/setup/holder_designation.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <iterator>

#include "sim/base/say.h"

namespace firstoff {

namespace {

// Angles of A B D E F G J K L N S T Y H P as read in tables of makers, of C M Q R U V W from memory; side or end
// cutting from memory (holders_iso5608.csv of the reference values says which).
constexpr HolderStyle kStyles[] = {
    {'A', 90, false}, {'B', 75, false},    {'C', 90, true},    {'D', 45, false}, {'E', 60, false}, {'F', 90, true},
    {'G', 90, false}, {'H', 107.5, false}, {'J', 93, false},   {'K', 75, true},  {'L', 95, false}, {'M', 50, false},
    {'N', 63, false}, {'P', 117.5, false}, {'Q', 107.5, true}, {'R', 75, false}, {'S', 45, false}, {'T', 60, false},
    {'U', 93, true},  {'V', 72.5, false},  {'W', 60, true},    {'Y', 85, true},
};

struct LengthLetter {
    char letter;
    double mm;
};
// As read in a table of a dealer; G, W and Y from memory. X is special.
constexpr LengthLetter kLengths[] = {{'A', 32},  {'B', 40},  {'C', 50},  {'D', 60},  {'E', 70},  {'F', 80},
                                     {'G', 90},  {'H', 100}, {'J', 110}, {'K', 125}, {'L', 140}, {'M', 150},
                                     {'N', 160}, {'P', 170}, {'Q', 180}, {'R', 200}, {'S', 250}, {'T', 300},
                                     {'U', 350}, {'V', 400}, {'W', 450}, {'X', 0},   {'Y', 500}};

// ISO 5610, from memory: f by shank width, a column for each group of styles.
struct HeadWidths {
    double shank, dnv, bt, a, r, fghjkls;
};
constexpr HeadWidths kHeads[] = {
    {8, 4, 7, 8.5, 9, 10},     {10, 5, 9, 10.5, 11, 12},   {12, 6, 11, 12.5, 13, 16},
    {16, 8, 13, 16.5, 17, 20}, {20, 10, 17, 20.5, 22, 25}, {25, 12.5, 22, 25.5, 27, 32},
    {32, 16, 27, 33, 35, 40},  {40, 20, 35, 41, 43, 50},   {50, 25, 43, 51, 53, 60},
};

// ISO 5609, from memory.
struct BarWidth {
    double bar, f;
};
constexpr BarWidth kBars[] = {{8, 6},   {10, 7},  {12, 9},  {16, 11}, {20, 13},
                              {25, 17}, {32, 22}, {40, 27}, {50, 35}, {60, 43}};

class Designation {
public:
    explicit Designation(std::string_view text) : text_(text) {}

    HolderReading run() {
        skip();
        // The letters of a square shank are five in a row; a bar begins with one letter and its diameter.
        const bool bar = text_.size() - at_ >= 2 && isFigure(text_[at_ + 1]);
        d_.bar = bar;
        const bool good = bar ? readBar() && readLetters() && readSize() : readLetters() && readShank() && readSize();
        if (good && readEnd()) return {d_, {}};
        return {std::nullopt, fault_};
    }

private:
    static bool isFigure(char c) { return c >= '0' && c <= '9'; }

    bool fail(std::string what) {
        if (fault_.empty()) fault_ = std::move(what);
        return false;
    }

    void skip() {
        while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '-')) ++at_;
    }

    char letter() {
        skip();
        if (at_ >= text_.size()) return '\0';
        return static_cast<char>(std::toupper(static_cast<unsigned char>(text_[at_++])));
    }

    // Two figures; below zero where there are none.
    double figures() {
        skip();
        if (text_.size() - at_ < 2 || !isFigure(text_[at_]) || !isFigure(text_[at_ + 1])) return -1;
        const double value = 10 * (text_[at_] - '0') + (text_[at_ + 1] - '0');
        at_ += 2;
        return value;
    }

    static std::string shown(char c) { return c == '\0' ? tr("nothing") : fmt::format("\"{}\"", c); }

    bool readLetters() {
        const char clamping = letter();
        if (clamping == '\0' || std::string_view("CDMPSW").find(clamping) == std::string_view::npos) {
            return fail(say("the clamping is C, D, M, P, S or W, not {}", shown(clamping)));
        }
        d_.insertShape = letter();
        if (d_.insertShape < 'A' || d_.insertShape > 'Z') {
            return fail(say("{} is no shape of an insert", shown(d_.insertShape)));
        }
        const char style = letter();
        const auto known = holderStyle(style);
        if (style == 'X') return fail(tr("style X is special: its angle is in no table"));
        if (!known) return fail(say("{} is no style of a holder", shown(style)));
        d_.style = *known;
        d_.insertClearance = letter();
        if (d_.insertClearance == '\0' ||
            std::string_view("ABCDEFGNPO").find(d_.insertClearance) == std::string_view::npos) {
            return fail(say("{} is no clearance of an insert", shown(d_.insertClearance)));
        }
        d_.hand = letter();
        if (d_.hand == 'R' || d_.hand == 'L' || d_.hand == 'N') return true;
        return fail(say("the hand is R, L or N, not {}", shown(d_.hand)));
    }

    bool readLength() {
        const char length = letter();
        const auto mm = holderLengthMm(length);
        if (!mm) return fail(say("{} is no length of a holder", shown(length)));
        d_.lengthMm = *mm;
        return true;
    }

    bool readShank() {
        d_.shankHeightMm = figures();
        d_.shankWidthMm = d_.shankHeightMm < 0 ? -1 : figures();
        if (d_.shankHeightMm > 0 && d_.shankWidthMm > 0) return readLength();
        return fail(tr("behind the hand come two figures for the height of the shank and two for its width"));
    }

    bool readBar() {
        const char make = letter();
        if (make == '\0' || std::string_view("SABCDEFGHJ").find(make) == std::string_view::npos) {
            return fail(say("{} is no make of a bar", shown(make)));
        }
        d_.shankHeightMm = d_.shankWidthMm = figures();
        if (d_.shankWidthMm <= 0) return fail(tr("behind the make come two figures for the diameter of the bar"));
        return readLength();
    }

    bool readSize() {
        d_.insertSizeMm = figures();
        if (d_.insertSizeMm > 0) return true;
        return fail(tr("the size of the insert is missing: two figures such as 12 or 09"));
    }

    bool readEnd() {
        std::string_view rest = text_.substr(at_);
        while (!rest.empty() && rest.back() == ' ') rest.remove_suffix(1);
        if (rest.empty()) return true;
        constexpr std::size_t kMostOfTheMaker = 4;  // with its hyphen
        const bool makers = rest.front() == '-' && rest.size() > 1 && rest.size() <= kMostOfTheMaker &&
                            std::all_of(rest.begin() + 1, rest.end(), [](unsigned char c) { return std::isalnum(c); });
        return makers || fail(say("\"{}\" behind the size of the insert is in no table", rest));
    }

    std::string_view text_;
    std::size_t at_ = 0;
    HolderDesignation d_;
    std::string fault_;
};

}  // namespace

std::optional<HolderStyle> holderStyle(char letter) {
    for (const HolderStyle& style : kStyles) {
        if (style.letter == letter) return style;
    }
    return std::nullopt;
}

std::optional<double> holderLengthMm(char letter) {
    for (const LengthLetter& length : kLengths) {
        if (length.letter == letter) return length.mm;
    }
    return std::nullopt;
}

std::optional<double> holderHeadWidthMm(char style, double shankWidthMm) {
    for (const HeadWidths& head : kHeads) {
        if (head.shank != shankWidthMm) continue;
        const auto isOneOf = [&](std::string_view styles) { return styles.find(style) != std::string_view::npos; };
        if (isOneOf("DNV")) return head.dnv;
        if (isOneOf("BT")) return head.bt;
        if (style == 'A') return head.a;
        if (style == 'R') return head.r;
        if (isOneOf("FGHJKLS")) return head.fghjkls;
    }
    return std::nullopt;
}

std::optional<double> barHeadWidthMm(double barDiameterMm) {
    for (const BarWidth& bar : kBars) {
        if (bar.bar == barDiameterMm) return bar.f;
    }
    return std::nullopt;
}

HolderReading readHolderDesignation(std::string_view text) {
    return Designation(text).run();
}

}  // namespace firstoff
