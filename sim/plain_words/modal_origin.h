// Where what is in force modally came from: the word that set it, for any move of a trial.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/trial/trial.h"

namespace firstoff {

enum class ModalField : std::uint8_t {
    Motion,
    Spindle,
    Speed,  // how fast, and whether surface or spindle speed
    Clamp,
    Feed,  // how fast, and per revolution or per minute
    Compensation,
    WorkOffset,
    Coolant,
    Units,
};
inline constexpr std::size_t kModalFields = static_cast<std::size_t>(ModalField::Units) + 1;

struct ModalOrigin {
    BlockId block = kNoBlock;
    SourceSpan span;   // of the word
    std::string word;  // as it is written
};

// Made once per trial, in time proportional to its moves; asked in logarithmic time. Holds no reference to the trial.
class ModalOrigins {
public:
    ModalOrigins() = default;
    explicit ModalOrigins(const Trial& trial);

    // Of what is in force while `move` (index into Toolpath::moves of the same trial) runs. Nothing where the control
    // has held it from its start, or where no word of the blocks before the move is seen to set it.
    std::optional<ModalOrigin> of(const Trial& trial, ModalField field, std::size_t move) const;

private:
    // Moves from which on a field has another value than before, ascending.
    std::array<std::vector<std::uint32_t>, kModalFields> changes_;
    // Steps up to the first of these whose block says what has held from the start all the same, ascending.
    std::array<std::vector<std::uint32_t>, kModalFields> said_;
};

}  // namespace firstoff
