// What the control holds modally, in words.
#pragma once

#include <string>
#include <vector>

#include "gui/instant.h"

namespace firstoff::gui {

struct ModalWord {
    const char* label;
    std::string value;
};

std::vector<ModalWord> modalWords(const Trial& trial, const Instant& instant);

}  // namespace firstoff::gui
