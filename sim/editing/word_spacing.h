// The blanks between the words of a program.
#pragma once

#include "sim/editing/text_change.h"
#include "sim/program/program.h"

namespace firstoff {

enum class WordSpacing {
    OneBlank,  // one between words; where a line begins is left as it is
    None,      // none at all
};

// Blanks have no meaning between words and inside them (NISTIR 6556 sec. 3.3), so that the program stays the same.
// Left as they are: comments and the blanks beside them, macro statements, lines in which something was not
// understood, and programs in other files than the first.
TextChanges spaceWords(const Program& program, WordSpacing spacing);

}  // namespace firstoff
