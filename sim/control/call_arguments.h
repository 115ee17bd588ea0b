// The words of a macro call as the local variables of the macro.
#pragma once

#include "sim/control/expression_values.h"
#include "sim/control/variables.h"

namespace firstoff {

struct CallArguments {
    Variables::Locals locals = Variables::none();
    const Word* unsure = nullptr;   // I, J and K in an order that two rules read differently
    const Word* tooMany = nullptr;  // a word beyond the tenth set of I, J, K
    const Word* noPoint = nullptr;  // a length without decimal point
    std::uint32_t letters = 0;      // of the words that are arguments, as in BlockWords
    bool failed = false;            // a value could not be calculated
};

// The letters behind the G65 or G66 of `block`, in their order (common practice, no source):
//   A #1  B #2  C #3  D #7  E #8  F #9  H #11  I #4  J #5  K #6  M #13  Q #17  R #18  S #19  T #20
//   U #21  V #22  W #23  X #24  Y #25  Z #26;  G L N O P are no arguments.
// I, J, K given more than once go to #4 #5 #6, #7 #8 #9, … #31 #32 #33, set after set. Where two words set the same
// variable the later one counts.
CallArguments callArguments(const Program& program, BlockId block, ExpressionValues& values);

}  // namespace firstoff
