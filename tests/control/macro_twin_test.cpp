// A program with variables, loops, jumps and macro calls moves like the same program written out by hand. Programs are
// made at random; the hand that writes them out is a second reckoning that shares nothing with the control's.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "sim/control/toolpath.h"
#include "sim/program/program.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

constexpr double kDegree = 3.14159265358979323846 / 180;
constexpr int kVariables = 6;

// Decisions one after the other; 0 for ever when there are no more, so that what is left of a program is short.
class Choices {
public:
    explicit Choices(const std::vector<std::uint8_t>& choices) : choices_(choices) {}
    int below(int n) { return at_ < choices_.size() ? choices_[at_++] % n : 0; }
    bool left() const { return at_ < choices_.size(); }

private:
    const std::vector<std::uint8_t>& choices_;
    std::size_t at_ = 0;
};

using Shelf = std::array<double, kVariables + 1>;

// Text and value of an expression, made together.
struct Term {
    std::string text;
    double value = 0;
};

// Writes the macro program and its twin at the same time, carrying out each statement as it is written. What runs in a
// loop is written once and carried out each time with the same decisions.
class TwinWriter {
public:
    explicit TwinWriter(const std::vector<std::uint8_t>& choices) : choices_(choices) {}

    void write() {
        macro_ = "O1\nT0101\nG97S1000M03\nG00X60.Z5.\nG01F.2\n";
        longhand_ = macro_;
        for (int i = 1; i <= kVariables; ++i) {
            shelf_[static_cast<std::size_t>(i)] = i;
            macro_ += fmt::format("#{}={}\n", i, i);
        }
        while (choices_.left()) statement(0);
        macro_ += "M30\n" + macros_;
        longhand_ += "M30\n";
    }

    const std::string& macro() const { return macro_; }
    const std::string& longhand() const { return longhand_; }

private:
    double& held(int variable) { return shelf_[static_cast<std::size_t>(variable)]; }
    int anyVariable() { return 1 + choices_.below(kVariables); }

    Term term(int depth) {
        if (depth > 2) {
            const int number = choices_.below(20);
            return {fmt::format("{}", number), static_cast<double>(number)};
        }
        switch (choices_.below(8)) {
            case 0: {
                const int number = choices_.below(40);
                return {fmt::format("{}.5", number), number + 0.5};
            }
            case 1: {
                const int v = anyVariable();
                return {fmt::format("#{}", v), held(v)};
            }
            case 2: {
                const Term a = term(depth + 1), b = term(depth + 1);
                return {fmt::format("[{}+{}]", a.text, b.text), a.value + b.value};
            }
            case 3: {
                const Term a = term(depth + 1), b = term(depth + 1);
                return {fmt::format("[{}-{}/4]", a.text, b.text), a.value - b.value / 4};
            }
            case 4: {
                const Term a = term(depth + 1);
                return {fmt::format("SIN[{}]", a.text), std::sin(a.value * kDegree)};
            }
            case 5: {
                const Term a = term(depth + 1);
                return {fmt::format("ABS[{}]", a.text), std::abs(a.value)};
            }
            case 6: {
                const Term a = term(depth + 1);
                return {fmt::format("SQRT[ABS[{}]]", a.text), std::sqrt(std::abs(a.value))};
            }
            default: {
                const Term a = term(depth + 1);
                return {fmt::format("[-{}*.5]", a.text), -a.value * 0.5};
            }
        }
    }

    // Kept small, whatever the term is.
    Term length(double about) {
        const Term t = term(0);
        return {fmt::format("[{}+5*COS[{}]]", about, t.text), about + 5 * std::cos(t.value * kDegree)};
    }

    void statement(int depth) {
        switch (choices_.below(depth < 2 ? 7 : 3)) {
            case 0:
                return move();
            case 1:
                return assign();
            case 2:
                return incremental();
            case 3:
                return conditional();
            case 4:
                return jumpOver(depth);
            case 5:
                return loop();
            default:
                return call();
        }
    }

    void move() {
        const Term x = length(40), z = length(-20);
        macro_ += fmt::format("X{}Z{}\n", x.text, z.text);
        longhand_ += fmt::format("X{:.12f}Z{:.12f}\n", x.value, z.value);
    }

    void incremental() {
        const Term w = length(0);
        macro_ += fmt::format("W-{}\n", w.text);
        longhand_ += fmt::format("W{:.12f}\n", -w.value);
    }

    void assign() {
        const int v = anyVariable();
        const Term value = length(10);
        macro_ += fmt::format("#{}={}\n", v, value.text);
        held(v) = value.value;
    }

    // Compared with a half that no variable comes near, so that rounding decides nothing.
    Term condition() {
        const int v = anyVariable();
        const bool greater = choices_.below(2) == 0;
        return {fmt::format("[#{}{}10.123]", v, greater ? "GT" : "LE"), (held(v) > 10.123) == greater ? 1.0 : 0.0};
    }

    void conditional() {
        const Term when = condition();
        const int v = anyVariable();
        const Term value = length(12);
        macro_ += fmt::format("IF{}THEN#{}={}\n", when.text, v, value.text);
        if (when.value != 0) held(v) = value.value;
    }

    void jumpOver(int depth) {
        const Term when = condition();
        const int label = ++label_;
        macro_ += fmt::format("IF{}GOTO{}\n", when.text, label);
        const std::string before = longhand_;
        const Shelf shelf = shelf_;
        for (int i = 1 + choices_.below(3); i > 0; --i) statement(depth + 1);
        macro_ += fmt::format("N{}\n", label);
        if (when.value == 0) return;
        longhand_ = before;
        shelf_ = shelf;
    }

    // A staircase: every pass deeper by a step that a variable holds.
    void loop() {
        const int times = choices_.below(5);
        const int v = anyVariable();
        macro_ += fmt::format("#10=0\nWHILE[#10LT{}]DO1\n#10=#10+1\nU-[#{}/50]\nW-[#10/10]\n#{}=#{}*.9\nEND1\n", times,
                              v, v, v);
        for (int i = 1; i <= times; ++i) {
            longhand_ += fmt::format("U{:.12f}\nW{:.12f}\n", -held(v) / 50, -i / 10.0);
            held(v) *= 0.9;
        }
    }

    void call() {
        const int number = 100 + ++label_;
        const int times = 1 + choices_.below(3);
        const Term x = length(30), k = length(3);
        macro_ += fmt::format("G65P{}X{}K{}L{}\n", number, x.text, k.text, times);
        macros_ += fmt::format("O{}\n#1=#24+#6\nX#1\n#24=#24-1.\nX[#24]W-#6\nM99\n", number);
        for (int i = 0; i < times; ++i) {
            longhand_ += fmt::format("X{:.12f}\nX{:.12f}W{:.12f}\n", x.value + k.value, x.value - 1, -k.value);
        }
    }

    Choices choices_;
    Shelf shelf_{};
    std::string macro_, macros_, longhand_;
    int label_ = 0;
};

Toolpath carriedOut(const std::string& text) {
    auto setup = shop::barStock(60, 100, 0);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    return interpret(readProgram(text, "twin"), setup);
}

bool sameMoves(const Toolpath& a, const Toolpath& b) {
    if (a.moves.size() != b.moves.size()) return false;
    for (std::size_t i = 0; i < a.moves.size(); ++i) {
        // The twin's figures have twelve decimals, and incremental ones add up.
        if (a.moves[i].kind != b.moves[i].kind || distance(a.moves[i].to, b.moves[i].to) > 1e-8) return false;
    }
    return true;
}

RC_GTEST_PROP(MacroTwin, MovesLikeItsLonghand, (const std::vector<std::uint8_t>& choices)) {
    TwinWriter twins(choices);
    twins.write();
    const Toolpath macro = carriedOut(twins.macro());
    const Toolpath longhand = carriedOut(twins.longhand());
    RC_LOG() << twins.macro() << "\n---\n" << twins.longhand();
    for (const Finding& finding : macro.findings) {
        RC_LOG() << finding.code << " line " << finding.span.line << ": " << finding.message << "\n";
        RC_ASSERT(finding.severity == Severity::Note);
    }
    RC_ASSERT(sameMoves(macro, longhand));
}

}  // namespace
}  // namespace firstoff
