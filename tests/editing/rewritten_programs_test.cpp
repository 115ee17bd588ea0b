// Programs renumbered and spaced anew still do what they did: every move of theirs is the same.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <fmt/format.h>

#include <filesystem>
#include <functional>

#include "sim/control/toolpath.h"
#include "sim/editing/renumber.h"
#include "sim/editing/word_spacing.h"
#include "tests/control/case_file.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

bool same(const Point& a, const Point& b) {
    return a.z == b.z && a.r == b.r;
}

// Text differs, so places in it do; everything else is exactly the same, as the figures are.
std::string difference(const Toolpath& a, const Toolpath& b) {
    if (a.moves.size() != b.moves.size()) return fmt::format("{} moves became {}", a.moves.size(), b.moves.size());
    for (std::size_t i = 0; i < a.moves.size(); ++i) {
        const Move &x = a.moves[i], &y = b.moves[i];
        const bool equal = same(x.from, y.from) && same(x.to, y.to) && same(x.centre, y.centre) && x.feed == y.feed &&
                           x.seconds == y.seconds && x.block == y.block && x.cycleBlock == y.cycleBlock &&
                           x.modal == y.modal && x.extra == y.extra && x.call == y.call && x.pass == y.pass &&
                           x.kind == y.kind && x.compensation == y.compensation;
        if (!equal) return fmt::format("move {} of line {} is another one", i, x.block + 1);
    }
    if (a.modals != b.modals) return "modal states differ";
    if (a.extras != b.extras) return "threads differ";
    if (a.stops.size() != b.stops.size()) return "stops differ";
    return {};
}

using Rewrite = std::function<TextChanges(const Program&, CodeSystem)>;

std::vector<std::pair<const char*, Rewrite>> rewrites() {
    const auto numbered = [](Renumbering wish) {
        return [wish](const Program& p, CodeSystem system) { return renumber(p, system, wish).changes; };
    };
    const auto spaced = [](WordSpacing spacing) {
        return [spacing](const Program& p, CodeSystem) { return spaceWords(p, spacing); };
    };
    return {{"every block", numbered({10, 10, true})},
            {"numbered ones", numbered({1000, 1, false})},
            {"from 1 on", numbered({1, 1, true})},
            {"one blank", spaced(WordSpacing::OneBlank)},
            {"no blanks", spaced(WordSpacing::None)}};
}

TEST(RewrittenPrograms, OfTheDemoJobsMoveAsBefore) {
    const std::filesystem::path jobs = std::filesystem::path(FIRSTOFF_SOURCE_DIR) / "assets/jobs";
    int count = 0, changed = 0;
    for (const auto& entry : std::filesystem::directory_iterator(jobs)) {
        if (entry.path().extension() != ".nc") continue;
        SCOPED_TRACE(entry.path().filename());
        ++count;
        const std::string name = "assets/jobs/" + entry.path().stem().string();
        const std::string text = shop::readFile(name + ".nc");
        const firstoff::Setup setup = readSetup(shop::readFile(name + ".toml"), "setup");
        const Program program = readProgram(text, "job");
        const Toolpath before = interpret(program, setup);
        EXPECT_GT(before.moves.size(), 10u);
        for (const auto& [what, rewrite] : rewrites()) {
            const std::string after = changedText(text, rewrite(program, setup.control.codeSystem));
            changed += after != text;
            EXPECT_EQ(difference(before, interpret(readProgram(after, "job"), setup)), "") << what;
        }
        EXPECT_TRUE(renumber(program, setup.control.codeSystem, {}).refusals.empty());
    }
    EXPECT_GE(count, 8);
    EXPECT_GE(changed, 3 * count);
}

// The cases of the control have every code, fault and oddity that is known here.
TEST(RewrittenPrograms, OfAllCasesMoveAsBefore) {
    int numbered = 0;
    for (const std::string& name : cases::listed()) {
        SCOPED_TRACE(name);
        const std::string text = shop::readFile("tests/cases/" + name + ".nc");
        const bool b = text.find("(option system-b)") != std::string::npos;
        const bool c = text.find("(option system-c)") != std::string::npos;
        const CodeSystem system = b ? CodeSystem::B : c ? CodeSystem::C : CodeSystem::A;
        const Program program = readProgram(text, name);
        const Toolpath before = cases::carryOut(text);
        for (const auto& [what, rewrite] : rewrites()) {
            const std::string after = changedText(text, rewrite(program, system));
            numbered += after != text;
            EXPECT_EQ(difference(before, cases::carryOut(after)), "") << what << "\n" << after;
        }
    }
    EXPECT_GT(numbered, 400);
}

// Blocks of jumps, cycles and calls in any order. Mostly each has a number of its own and those that are named are
// there; sometimes numbers are missing, or stand twice.
std::string randomProgram() {
    const int count = *rc::gen::inRange(3, 20);
    const bool tidy = *rc::gen::inRange(0, 4) > 0;
    const auto number = [&] { return 3 * *rc::gen::inRange(1, count + 1); };
    const auto axis = [] { return fmt::format("{:.1f}", 0.1 * *rc::gen::inRange(100, 500)); };
    const auto block = [&](int at) {
        const std::string gap(*rc::gen::inRange<std::size_t>(0, 3), ' ');
        const bool numbered = tidy || *rc::gen::inRange(0, 3) > 0;
        const std::string line = numbered ? fmt::format("N{}{}", tidy ? 3 * at : number(), gap) : "";
        switch (*rc::gen::inRange(0, 9)) {
            case 0:
                return line + fmt::format("IF[#1GT{}]GOTO {}", *rc::gen::inRange(0, 3), number());
            case 1:
                return line + "#1=#1+1";
            case 2:
                return fmt::format("G71U2.R1.\n{}G71P{}{}Q{}U.4F.3", line, number(), gap, number());
            case 3:
                return line + fmt::format("G70{}P{}Q{}", gap, number(), number());
            case 4:
                return line + "M98P2";
            case 5:
                return line + fmt::format("G04{}P{}", gap, number());
            case 6:
                return "/" + gap + line + fmt::format("G00X{}{}Z{}", axis(), gap, axis());
            default:
                return line + fmt::format("G01{}X{}{}Z-{}F.2", gap, axis(), gap, axis());
        }
    };
    std::string text = "O1\nT0101\nG97 S800 M03\nG00 X50. Z2.\n";
    for (int at = 1; at <= count; ++at) text += block(at) + "\n";
    text += "M30\nO2\nN3 G00 U1.\n";
    text += *rc::gen::element(std::string("M99\n"), fmt::format("M99 P{}\n", number()));
    return text;
}

RC_GTEST_PROP(RewrittenPrograms, MoveAsBefore, ()) {
    const std::string text = randomProgram();
    firstoff::Setup setup = shop::barStock(60, 100, 0);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    setup.control.maxBlocks = 2000;
    const Program program = readProgram(text, "random");
    const Toolpath before = interpret(program, setup);
    for (const auto& [what, rewrite] : rewrites()) {
        const std::string after = changedText(text, rewrite(program, CodeSystem::A));
        const std::string differs = difference(before, interpret(readProgram(after, "random"), setup));
        if (!differs.empty()) RC_LOG() << what << ": " << differs << "\n" << text << "\nbecame\n" << after;
        RC_ASSERT(differs.empty());
    }
    const Renumbered numbers = renumber(program, CodeSystem::A, {});
    RC_CLASSIFY(numbers.refusals.empty());
    RC_ASSERT(numbers.refusals.empty() == !numbers.changes.empty());
}

}  // namespace
}  // namespace firstoff
