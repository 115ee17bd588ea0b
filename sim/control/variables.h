// The variables a program calculates with: locals #1 to #33, of each level of macro calls its own, and commons #100 to
// #199 and #500 to #999, which all programs share (common practice, no source). Null where nothing was set.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "sim/program/expression.h"

namespace firstoff {

class Variables {
public:
    static constexpr std::int32_t kLocals = 33;
    using Locals = std::array<double, kLocals + 1>;  // by number; [0] is not used

    Variables();

    static bool isLocal(std::int32_t index) { return index >= 1 && index <= kLocals; }
    static bool isCommon(std::int32_t index) { return (index >= 100 && index <= 199) || isKept(index); }
    // These a machine keeps when it is switched off, so that a program may find something in them.
    static bool isKept(std::int32_t index) { return index >= 500 && index <= 999; }

    // `index` is a local or a common.
    double get(std::int32_t index) const { return isLocal(index) ? levels_.back()[at(index)] : commons_[at(index)]; }
    void set(std::int32_t index, double value);
    bool wasSet(std::int32_t common) const { return written_[at(common)]; }

    void enter(const Locals& arguments) { levels_.push_back(arguments); }
    void leave() { levels_.pop_back(); }
    static Locals none();

private:
    static std::size_t at(std::int32_t index) { return static_cast<std::size_t>(index); }

    std::vector<Locals> levels_;
    std::array<double, 1000> commons_;
    std::array<bool, 1000> written_{};
};

}  // namespace firstoff
