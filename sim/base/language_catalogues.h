// The catalogues of texts as msgfmt made them from assets/languages, built into the program.
#pragma once

#include <span>

namespace firstoff {

std::span<const unsigned char> germanCatalogue();

}  // namespace firstoff
