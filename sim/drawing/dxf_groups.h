// An ASCII DXF file as its groups: a line with a code, then a line with a value. Inside sim/drawing only.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace firstoff {

struct DxfGroup {
    int code = 0;
    std::string_view value;  // without the blanks around it
    std::size_t line = 0;    // of the value, from 1
};

// A decimal number as files hold it, blanks around it and a plus before it allowed, whatever the locale. Nothing for
// anything else, nor for infinity and what is not a number.
std::optional<double> drawnNumber(std::string_view text);
std::optional<long> drawnWhole(std::string_view text);

class DxfGroups {
public:
    explicit DxfGroups(std::string_view text);

    // The next group that is no remark (code 999). Nothing at the end of the text, and nothing where a code should
    // stand but does not: then `broken` says so.
    std::optional<DxfGroup> next();

    bool broken() const { return broken_; }
    std::size_t line() const { return line_; }  // how many lines were read

private:
    std::optional<std::string_view> nextLine();

    std::string_view rest_;
    std::size_t line_ = 0;
    bool broken_ = false;
};

// An entity or another thing that begins with code 0: its kind and its groups.
struct DxfThing {
    std::string_view kind;
    std::size_t line = 0;
    std::vector<DxfGroup> groups;

    const DxfGroup* find(int code) const;             // the first
    std::string_view text(int code) const;            // empty if there is none
    long whole(int code, long otherwise) const;       // also where it is no number
    std::optional<double> number(int code) const;     // nothing if missing or no number
    double number(int code, double otherwise) const;  // if missing; NaN where it is no number
};

}  // namespace firstoff
