// Carries out the expressions of words and statements and says what was wrong with them.
#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <vector>

#include "sim/control/remarks.h"
#include "sim/program/program.h"

namespace firstoff {

class ExpressionValues {
public:
    ExpressionValues(const Program& program, Remarks& remarks, VariableReader& variables)
        : program_(program), remarks_(remarks), variables_(variables) {}

    // Nothing where the expression has no value because of a fault, which was reported; kNull is a value.
    std::optional<double> value(BlockId block, const Expression& expression);

    // A copy of the word that holds its value; it stays where it is, with its value until the word is asked for again.
    // Null when the value is null, as if the word were not written, and when it cannot be had: `failed` is then set.
    const Word* valued(BlockId block, const Word& word, bool& failed);

private:
    void report(BlockId block, const ExpressionTrouble& trouble);
    void noteNull(BlockId block, const Word& word);
    void reportRounding(BlockId block, const Word& word, const Expression& expression, double value);

    const Program& program_;
    Remarks& remarks_;
    VariableReader& variables_;
    std::vector<Word> words_;       // by place in Program::expressions; made at the first one
    std::set<std::uint32_t> said_;  // places in the text of what was reported: loops come by often
};

}  // namespace firstoff
