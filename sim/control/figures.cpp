#include "sim/control/figures.h"

#include <fmt/format.h>

namespace firstoff {

std::string figure(double value) {
    std::string text = fmt::format("{:.4f}", value);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text == "-0" ? "0" : text;
}

std::string place(Point work) {
    return fmt::format("X{} Z{}", figure(2 * work.r), figure(work.z));
}

}  // namespace firstoff
