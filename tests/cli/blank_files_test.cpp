// Drawings and trials before, from files beside the set-up.
#include "sim/output/blank_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sim/drawing/dxf_writer.h"
#include "tests/cli/command_run.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

using shop::Bench;
using shop::CommandRun;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

// The set-up of the demo spigot with another [stock].
std::string setupWith(const std::string& stock) {
    std::string text = shop::readFile("assets/jobs/coupling-spigot.toml");
    // Without its drawing, which other programs do not make.
    const std::size_t drawing = text.find("# The drawing of the part");
    text.erase(drawing, text.find("# The offset page.") - drawing);
    const std::size_t begin = text.find("[stock]");
    const std::size_t end = text.find("\n[", begin);
    return text.replace(begin, end - begin, "[stock]\n" + stock);
}

const std::string kBar = "shape = \"bar\"\ndiameter_mm = 50\nlength_mm = 110\nstick_out_mm = 70\n";

std::string after(const std::string& program, const std::string& more = "") {
    return "shape = \"previous\"\nafter_program = \"" + program + "\"\nstick_out_mm = 40\n" + more;
}

firstoff::Setup read(const Bench& bench, const std::string& name) {
    return readSetup(bench.contents(name), name);
}

// Nothing but the beginning and the end of a program: it is clear and leaves the bar as it was.
const std::string kIdle = "O1\nG28 U0\nM30\n";

std::vector<std::string> codesOf(const std::vector<Finding>& findings) {
    std::vector<std::string> codes;
    for (const Finding& finding : findings) codes.push_back(finding.code);
    return codes;
}

TEST(BlankFiles, TheDrawingStandsBesideTheSetUp) {
    const Bench bench;
    const Contour spool = {{{0, 0}, 0}, {{90, 0}, 0}, {{90, 25}, 0}, {{0, 25}, 0}};
    bench.put("spool.dxf", dxfText({{spool, true, {}, 0}}));
    bench.put("job.toml", setupWith("shape = \"half-section\"\ndrawing = \"spool.dxf\"\nstick_out_mm = 60\n"));
    const ReadyBlank ready = readBlank(read(bench, "job.toml"), bench.path("job.toml"));
    EXPECT_THAT(codesOf(ready.setup.findings), IsEmpty());
    EXPECT_EQ(ready.setup.stock.outerRadius, 25);
    EXPECT_EQ(ready.previous, nullptr);
}

TEST(BlankFiles, WhatCannotBeReadIsAFindingAndNotClear) {
    const Bench bench;
    for (const std::string& name : {std::string("missing.dxf"), std::string("."), std::string("/dev/zero")}) {
        bench.put("job.toml", setupWith("shape = \"half-section\"\ndrawing = \"" + name + "\"\nstick_out_mm = 60\n"));
        const ReadyBlank ready = readBlank(read(bench, "job.toml"), bench.path("job.toml"));
        EXPECT_THAT(codesOf(ready.setup.findings), testing::ElementsAre("setup-drawing-not-usable")) << name;
        EXPECT_GT(ready.setup.findings[0].span.line, 0u);
        EXPECT_EQ(verdictOf(ready.setup.findings), Verdict::NotProven);
    }
    // A set-up without a place on disk finds nothing.
    const ReadyBlank lost = readBlank(read(bench, "job.toml"), {});
    EXPECT_EQ(verdictOf(lost.setup.findings), Verdict::NotProven);
}

TEST(BlankFiles, TheTrialBeforeIsRunFirst) {
    const Bench bench;
    bench.put("first.nc", kIdle);
    bench.put("first.toml", setupWith(kBar));
    bench.put("second.nc", kIdle);
    bench.put("second.toml", setupWith(after("first.nc", "turned_round = true\n")));
    const ReadyBlank ready = readBlank(read(bench, "second.toml"), bench.path("second.toml"));
    EXPECT_THAT(codesOf(ready.setup.findings), IsEmpty());
    ASSERT_NE(ready.previous, nullptr);
    TrialOptions options;
    options.previous = ready.previous;
    const auto trial = runTrial(readProgram(kIdle, "second.nc"), ready.setup, options);
    EXPECT_EQ(trial->setup.stock.outerRadius, 25);
    EXPECT_NEAR(trial->setup.stock.frontZ - trial->setup.stock.backZ, 110, 1e-9);
    ASSERT_NE(trial->stock, nullptr);
}

TEST(BlankFiles, ATrialBeforeThatIsNotClearIsToldAsNotProven) {
    const Bench bench;
    bench.put("first.nc", "O1\nG187\nM30\n");
    bench.put("first.toml", setupWith(kBar));
    bench.put("second.toml", setupWith(after("first.nc")));
    const ReadyBlank ready = readBlank(read(bench, "second.toml"), bench.path("second.toml"));
    EXPECT_THAT(codesOf(ready.setup.findings), testing::ElementsAre("setup-previous-not-clear"));
    EXPECT_THAT(ready.setup.findings[0].message, HasSubstr("not-proven"));
    EXPECT_NE(ready.previous, nullptr);
    EXPECT_EQ(verdictOf(ready.setup.findings), Verdict::NotProven);
}

TEST(BlankFiles, APieceThatNeverFellIsAFinding) {
    const Bench bench;
    bench.put("first.nc", kIdle);
    bench.put("first.toml", setupWith(kBar));
    bench.put("second.nc", kIdle);
    bench.put("second.toml", setupWith(after("first.nc", "piece = 2\n")));
    const CommandRun run = shop::firstoff("check " + bench.path("second.nc"));
    EXPECT_EQ(run.exitCode, 3) << run.out;
    EXPECT_THAT(run.out, HasSubstr("[previous-leaves-nothing]"));
    EXPECT_THAT(run.out, HasSubstr("[no-usable-bar]"));
}

TEST(BlankFiles, SetUpsInACircleAreRefused) {
    const Bench bench;
    for (const char* name : {"a.nc", "b.nc"}) bench.put(name, kIdle);
    bench.put("a.toml", setupWith(after("b.nc")));
    bench.put("b.toml", setupWith(after("./a.nc")));
    const CommandRun run = shop::firstoff("check " + bench.path("a.nc"));
    EXPECT_EQ(run.exitCode, 3) << run.out << run.err;
    EXPECT_THAT(run.out, HasSubstr("[setup-previous-not-usable]"));
    const ReadyBlank inner = readBlank(read(bench, "b.toml"), bench.path("b.toml"));
    EXPECT_THAT(codesOf(inner.setup.findings), testing::ElementsAre("setup-previous-not-usable"));
    bench.put("own.toml", setupWith(after("a.nc", "after_setup = \"own.toml\"\n")));
    const ReadyBlank own = readBlank(read(bench, "own.toml"), bench.path("own.toml"));
    ASSERT_THAT(own.setup.findings, testing::SizeIs(1));
    EXPECT_THAT(own.setup.findings[0].message, HasSubstr("before itself"));
}

TEST(BlankFiles, ALongRowOfTrialsEnds) {
    const Bench bench;
    bench.put("0.nc", kIdle);
    bench.put("0.toml", setupWith(kBar));
    for (int i = 1; i <= 12; ++i) {
        bench.put(std::to_string(i) + ".nc", kIdle);
        bench.put(std::to_string(i) + ".toml", setupWith(after(std::to_string(i - 1) + ".nc")));
    }
    const auto codes = [&](int i) {
        const std::string name = std::to_string(i) + ".toml";
        return codesOf(readBlank(read(bench, name), bench.path(name)).setup.findings);
    };
    EXPECT_THAT(codes(12), Not(IsEmpty()));
    EXPECT_THAT(codes(2), Not(testing::Contains("setup-previous-not-usable")));
}

TEST(BlankFiles, TheCommandReadsThemToo) {
    const Bench bench;
    const std::string program = bench.put("job.nc", kIdle);
    bench.put("job.toml", setupWith("shape = \"half-section\"\ndrawing = \"d.dxf\"\nstick_out_mm = 60\n"));
    EXPECT_THAT(shop::firstoff("check " + program).out, HasSubstr("d.dxf: there is no such file"));
    const Contour open = {{{0, 10}, 0}, {{90, 10}, 0}, {{90, 25}, 0}, {{0, 25}, 0}};
    bench.put("d.dxf", dxfText({{open, false, {}, 0}}));
    const CommandRun run = shop::firstoff("check " + program);
    EXPECT_EQ(run.exitCode, 3);
    EXPECT_THAT(run.out, HasSubstr("[drawing-open-end]"));
    EXPECT_THAT(run.out, HasSubstr("The outline is open at x 0.0000 y 10.0000"));
}

}  // namespace
}  // namespace firstoff
