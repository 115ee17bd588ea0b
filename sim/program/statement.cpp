#include "sim/program/statement.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/program/expression_parser.h"

namespace firstoff {

namespace {

constexpr std::size_t kMostAssignments = std::numeric_limits<std::uint16_t>::max();

using Error = ExpressionError;

class StatementReader {
public:
    StatementReader(ExpressionParser& parser, std::vector<Assignment>& assignments,
                    const std::vector<Instruction>& code)
        : parser_(parser), assignments_(assignments), code_(code) {}

    Statement read() {
        if (parser_.takeWord("IF")) {
            ifStatement();
        } else if (parser_.takeWord("WHILE")) {
            statement_.condition = condition();
            if (!loop(Statement::Kind::Do, "DO")) parser_.fail(Error::NoAction, parser_.at());
        } else if (parser_.takeWord("GOTO")) {
            jump();
        } else if (parser_.next() == '#') {
            assign();
        } else if (!loop(Statement::Kind::Do, "DO") && !loop(Statement::Kind::End, "END")) {
            parser_.fail(Error::StrayText, parser_.at());
        }
        if (parser_.error() == Error::None && !parser_.atEnd()) parser_.fail(Error::StrayText, parser_.at());
        if (parser_.error() != Error::None) statement_.kind = Statement::Kind::Unreadable;
        return statement_;
    }

private:
    Expression condition() {
        if (parser_.next() != '[') parser_.fail(Error::BracketMissing, parser_.at());
        return parser_.operand();
    }

    void ifStatement() {
        statement_.condition = condition();
        if (parser_.error() != Error::None) return;
        if (parser_.takeWord("GOTO")) return jump();
        if (parser_.takeWord("THEN")) {
            if (parser_.takeWord("GOTO")) return jump();
            return assign();
        }
        parser_.fail(Error::NoAction, parser_.at());
    }

    void jump() {
        statement_.kind = Statement::Kind::Goto;
        parser_.take('N');  // GOTO N100, as some write it
        parser_.take('n');
        statement_.target = parser_.operand();
    }

    void assign() {
        statement_.kind = Statement::Kind::Assign;
        statement_.firstAssignment = static_cast<std::uint32_t>(assignments_.size());
        do {
            if (!parser_.take('#')) return parser_.fail(Error::StrayText, parser_.at());
            Assignment one;
            one.index = parser_.index();
            if (parser_.error() != Error::None) return;
            if (!parser_.take('=')) return parser_.fail(Error::EqualsMissing, parser_.at());
            one.value = parser_.expression();
            if (parser_.error() != Error::None) return;
            if (statement_.assignmentCount == kMostAssignments) return parser_.fail(Error::StrayText, parser_.at());
            statement_.readsWhatItSets |= statement_.assignmentCount > 0 && readsVariables(one);
            assignments_.push_back(one);
            ++statement_.assignmentCount;
            parser_.take(',');
        } while (parser_.next() == '#');
    }

    // Of those set before in the same block; a variable found by calculation could be any.
    bool readsVariables(const Assignment& one) const {
        const auto reads = [&](const Instruction& at) {
            if (at.op == Instruction::Op::Indirect) return true;
            return at.op == Instruction::Op::Variable && setBefore(at.number);
        };
        const auto any = [&](const Expression& e) {
            return std::any_of(code_.begin() + e.first, code_.begin() + e.first + e.count, reads);
        };
        return any(one.index) || any(one.value);
    }

    // The first few are enough for what people write, and keep long lines cheap.
    bool setBefore(double index) const {
        const std::size_t count = std::min<std::size_t>(statement_.assignmentCount, 16);
        for (std::size_t i = 0; i < count; ++i) {
            const Expression& set = assignments_[statement_.firstAssignment + i].index;
            const Instruction& first = code_[set.first];
            if (set.count > 1 || first.op != Instruction::Op::Number || first.number == index) return true;
        }
        return statement_.assignmentCount > count;
    }

    bool loop(Statement::Kind kind, const char* word) {
        if (parser_.error() != Error::None) return true;
        if (!parser_.takeWord(word)) return false;
        statement_.kind = kind;
        const char c = parser_.next();
        if (c < '1' || c > '3') {
            parser_.fail(Error::BadLoop, parser_.at());
            return true;
        }
        parser_.take(c);
        statement_.loop = static_cast<std::uint8_t>(c - '0');
        const char behind = parser_.next();
        if ((behind >= '0' && behind <= '9') || behind == '.') parser_.fail(Error::BadLoop, parser_.at());
        return true;
    }

    ExpressionParser& parser_;
    std::vector<Assignment>& assignments_;
    const std::vector<Instruction>& code_;
    Statement statement_;
};

}  // namespace

Statement parseStatement(ExpressionParser& parser, std::vector<Assignment>& assignments,
                         const std::vector<Instruction>& code) {
    return StatementReader(parser, assignments, code).read();
}

}  // namespace firstoff
