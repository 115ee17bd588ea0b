// What the control holds modally, in words.
#pragma once

#include <string>
#include <vector>

#include "gui/instant.h"
#include "gui/measures.h"
#include "sim/plain_words/modal_origin.h"

namespace firstoff::gui {

struct ModalWord {
    const char* label;
    std::string value;
    std::optional<ModalOrigin> setBy;  // nothing: the control holds it from its start
};

std::vector<ModalWord> modalWords(const Trial& trial, const Instant& instant, const ModalOrigins& origins,
                                  Measures measures);

}  // namespace firstoff::gui
