// The built command, as a shell and a script see it: exit codes, what goes where, nothing half written.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "tests/cli/command_run.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

using shop::Bench;
using shop::CommandRun;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::StartsWith;

const std::string kJobs = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/jobs/";
const std::string kSpigot = kJobs + "coupling-spigot.nc";
const std::string kBush = kJobs + "bored-bush.nc";
const std::string kTrap = kJobs + "trap.nc";
const std::string kSpigotSetup = kJobs + "coupling-spigot.toml";

int lines(const std::string& text) {
    return static_cast<int>(std::count(text.begin(), text.end(), '\n'));
}

// ---- exit codes ----

TEST(Command, AGoodJobIsClearAndExitsWithNought) {
    for (const std::string& job : {kSpigot, kBush}) {
        const CommandRun run = shop::firstoff("check " + job);
        EXPECT_EQ(run.exitCode, 0) << run.out << run.err;
        EXPECT_THAT(run.out, HasSubstr("CLEAR"));
        EXPECT_THAT(run.out, HasSubstr("does not replace a dry run"));
        EXPECT_THAT(run.err, IsEmpty());
    }
}

TEST(Command, TheTrapHasProblemsAndExitsWithOne) {
    const CommandRun run = shop::firstoff("check " + kTrap);
    EXPECT_EQ(run.exitCode, 1) << run.err;
    EXPECT_THAT(run.out, HasSubstr("PROBLEMS"));
}

TEST(Command, ClearancesAreTablesOfMarginsAndOfPairs) {
    const CommandRun margins = shop::firstoff("clearances " + kSpigot);
    EXPECT_EQ(margins.exitCode, 0) << margins.err;
    EXPECT_THAT(margins.out, StartsWith("subject,way,margin_mm,limited,line,body,other\n"));
    EXPECT_EQ(lines(margins.out), 1 + 4 * 6 + 4);  // four tools, six ways each, and the set-up
    EXPECT_THAT(margins.out, HasSubstr("T7,Z offset towards the chuck,"));

    const CommandRun pairs = shop::firstoff("clearances --pairs " + kSpigot);
    EXPECT_THAT(pairs.out, StartsWith("body,other,gap_at_least_mm,exact,line\n"));
    EXPECT_THAT(pairs.out, HasSubstr("the holder of station 3,the billet,"));

    const CommandRun check = shop::firstoff("check --json - " + kSpigot);
    for (const char* key : {"\"error_bound_mm\"", "\"encounters\"", "\"pairs_checked\"", "\"stick_out_more\""}) {
        EXPECT_THAT(check.out, HasSubstr(key));
    }
}

TEST(Command, WhatIsNotUnderstoodIsNotProvenAndExitsWithThree) {
    const Bench bench;
    std::string text = shop::readFile("assets/jobs/coupling-spigot.nc");
    text.replace(text.find("N30 G54"), 7, "N30 G54 G187");
    const std::string program = bench.put("odd.nc", text);
    const CommandRun run = shop::firstoff("check " + program + " --setup " + kSpigotSetup);
    EXPECT_EQ(run.exitCode, 3) << run.out << run.err;
    EXPECT_THAT(run.out, HasSubstr("NOT PROVEN"));
    EXPECT_THAT(run.out, HasSubstr("G187"));
}

TEST(Command, ReadsCalledProgramsFromFilesBesideTheProgram) {
    const Bench bench;
    const std::string setup = bench.put("job.toml", shop::readFile("assets/jobs/coupling-spigot.toml"));
    const std::string program = bench.put("job.nc", "O1\nT0101\nM98 P77\nM30\n");
    EXPECT_THAT(shop::firstoff("check " + program).out, HasSubstr("[subprogram-not-found]"));
    bench.put("o0077.NC", "O77\nG00 X!\nM99\n");
    const CommandRun run = shop::firstoff("check " + program + " --json " + bench.path("report.json"));
    EXPECT_THAT(run.out, Not(HasSubstr("[subprogram-not-found]")));
    EXPECT_THAT(run.out, HasSubstr("o0077.NC, line 2 column 5"));
    EXPECT_THAT(bench.contents("report.json"), HasSubstr("\"file\": \"o0077.NC\""));
}

struct BadUse {
    const char* name;
    const char* arguments;  // SPIGOT and SETUP stand for the good files, BENCH for the test's folder
    const char* says;
};

void PrintTo(const BadUse& use, std::ostream* out) {
    *out << use.name;
}

class EveryBadUse : public testing::TestWithParam<BadUse> {};

std::string filledIn(std::string text, const Bench& bench) {
    const std::pair<std::string, std::string> words[] = {
        {"SPIGOT", kSpigot}, {"SETUP", kSpigotSetup}, {"BENCH", bench.path("")}};
    for (const auto& [word, value] : words) {
        for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + value.size())) {
            text.replace(at, word.size(), value);
        }
    }
    return text;
}

TEST_P(EveryBadUse, ExitsWithTwoAndSaysWhy) {
    const Bench bench;
    bench.put("empty.nc", "");
    bench.put("junk.nc", std::string("\x7f"
                                     "ELF\0\0\1\2\0",
                                     9));
    bench.put("alone.nc", "G00 X10\n");
    bench.put("broken.toml", "[machine\nname = 1\n");
    bench.put("empty.toml", "");
    const int before = bench.files();
    const CommandRun run = shop::firstoff(filledIn(GetParam().arguments, bench));
    EXPECT_EQ(run.exitCode, 2) << run.out << run.err;
    EXPECT_THAT(run.out + run.err, HasSubstr(GetParam().says));
    EXPECT_EQ(bench.files(), before) << "something was left behind";
}

INSTANTIATE_TEST_SUITE_P(
    Uses, EveryBadUse,
    testing::Values(
        BadUse{"no words at all", "", "subcommand is required"}, BadUse{"unknown command", "chek SPIGOT", "chek"},
        BadUse{"no program", "check --setup SETUP", "PROGRAM is required"},
        BadUse{"missing program", "check BENCH/none.nc --setup SETUP", "there is no such file"},
        BadUse{"folder as program", "check BENCH --setup SETUP", "is a folder"},
        BadUse{"empty program", "check BENCH/empty.nc --setup SETUP", "is empty"},
        BadUse{"binary junk", "check BENCH/junk.nc --setup SETUP", "NOT TRIED"},
        BadUse{"missing setup", "check SPIGOT --setup BENCH/none.toml", "there is no such file"},
        BadUse{"no setup anywhere", "check BENCH/alone.nc", "--setup FILE"},
        BadUse{"empty setup", "check SPIGOT --setup BENCH/empty.toml", "is empty"},
        BadUse{"setup that is no TOML", "check SPIGOT --setup BENCH/broken.toml", "line 1 column 9"},
        BadUse{"program as setup", "check SPIGOT --setup SPIGOT", "TOML"},
        BadUse{"json into a folder that is not there", "check SPIGOT --json BENCH/none/r.json", "none/r.json"},
        BadUse{"json onto a folder", "check SPIGOT --json BENCH", "is a folder"},
        BadUse{"moves of nothing", "moves BENCH/none.nc --setup SETUP --out BENCH/m.csv", "no such file"},
        BadUse{"moves of junk", "moves BENCH/junk.nc --setup SETUP --out BENCH/m.csv", "nothing was made"},
        BadUse{"moves nowhere", "moves SPIGOT --out BENCH/none/m.csv", "none/m.csv"},
        BadUse{"csv of two programs", "check SPIGOT SPIGOT --csv-moves BENCH/m.csv", "one program"},
        BadUse{"line that is not there", "section SPIGOT --after-line 5000", "lines 1 to"},
        BadUse{"line never carried out", "section SPIGOT --after-line 3", "never carried out"},
        BadUse{"line that is no number", "section SPIGOT --after-line ten", "after-line"},
        BadUse{"line and time", "section SPIGOT --after-line 5 --at-time 3", "excludes"},
        BadUse{"answers", "sheet SPIGOT --kind setup --answers --out BENCH/s.html", "only hand-outs have exercises"},
        BadUse{"handout", "sheet SPIGOT --kind handout --out BENCH/s.txt", "there are html and pdf"},
        BadUse{"sheetKind", "sheet SPIGOT --kind wall --out BENCH/s.html", "setup, inspection, time, findings"},
        BadUse{"sheetEnding", "sheet SPIGOT --kind setup --out BENCH/s.doc", "html and pdf"},
        BadUse{"sheetWithoutKind", "sheet SPIGOT --out BENCH/s.html", "--kind"},
        BadUse{"export without a file", "export SPIGOT", "--out is required"},
        BadUse{"export of an unknown kind", "export SPIGOT --out BENCH/s.step", "stl, 3mf, glb, vdb, svg, dxf, csv"},
        BadUse{"export without an ending", "export SPIGOT --out BENCH/stl", "stl, 3mf, glb, vdb, svg, dxf, csv"},
        BadUse{"export of junk", "export BENCH/junk.nc --setup SETUP --out BENCH/s.stl", "nothing was made"},
        BadUse{"export nowhere", "export SPIGOT --out BENCH/none/s.stl", "none/s.stl"},
        BadUse{"grid nowhere", "export SPIGOT --out BENCH/none/s.vdb --voxel-mm 1", "none/s.vdb"},
        BadUse{"export of a piece that never fell", "export SPIGOT --out BENCH/s.stl --piece 2",
               "pieces 0 (held) to 1"},
        BadUse{"export of a piece before it fell", "export SPIGOT --out BENCH/s.svg --piece 1 --at-time 1",
               "only piece 0"},
        BadUse{"tolerance out of range", "export SPIGOT --out BENCH/s.stl --tolerance-mm 0", "range"},
        BadUse{"voxels too small", "export SPIGOT --out BENCH/s.vdb --voxel-mm 0.01", "or more"}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& c : name) c = c == ' ' ? '_' : c;
        return name;
    });

TEST(Command, TellsBadUseInTheLanguageAskedFor) {
    const auto told = [](const std::string& arguments) {
        const CommandRun run = shop::firstoff("--language de " + arguments);
        EXPECT_EQ(run.exitCode, 2) << arguments;
        return run.out + run.err;
    };
    EXPECT_THAT(told("check"), HasSubstr("PROGRAM fehlt"));
    EXPECT_THAT(told("check x.nc --nope"), HasSubstr("Nicht erwartet: --nope"));
    EXPECT_THAT(told("moves a b c"), HasSubstr("Nicht erwartet: c b"));
    EXPECT_THAT(told("export x --out"), HasSubstr("--out: Angabe fehlt"));
    EXPECT_THAT(told("section x --after-line ten"), HasSubstr("--after-line: ten ist nicht lesbar"));
    EXPECT_THAT(told("export x --out f --tolerance-mm 5"), HasSubstr("5 liegt nicht im Bereich 0.0005 bis 1\n"));
    EXPECT_THAT(told("finish x --z-from 1"), HasSubstr("--z-from verlangt --z-to"));
    EXPECT_THAT(told("section x --after-line 3 --at-time 4"), HasSubstr("--after-line schließt --at-time aus"));
    EXPECT_THAT(told("check"), HasSubstr("Mehr dazu mit --help."));
    EXPECT_THAT(shop::firstoff("--language tlh check x").err, HasSubstr("tlh is none of en,de"));
}

// Programs read those: names of bodies are the same in every language.
TEST(Command, JsonNamesBodiesInEnglish) {
    const std::string bodies = R"("body": "the block of station 1")";
    for (const std::string language : {"en", "de"})
        EXPECT_THAT(shop::firstoff("--language " + language + " check " + kSpigot + " --json -").out,
                    AllOf(HasSubstr(bodies), HasSubstr(R"("other": "the jaws")")))
            << language;
}

TEST(Command, HelpAndVersionAreNoFailure) {
    EXPECT_EQ(shop::firstoff("--help").exitCode, 0);
    EXPECT_EQ(shop::firstoff("check --help").exitCode, 0);
    EXPECT_THAT(shop::firstoff("--version").out, StartsWith("firstoff "));
}

// ---- several programs ----

TEST(Command, OneBadProgramHidesNoOther) {
    const CommandRun run = shop::firstoff("check " + kSpigot + " /nowhere/none.nc " + kTrap + " " + kBush);
    EXPECT_EQ(run.exitCode, 2);
    EXPECT_THAT(run.out, HasSubstr("coupling-spigot.nc on"));
    EXPECT_THAT(run.out, HasSubstr("trap.nc on"));
    EXPECT_THAT(run.out, HasSubstr("bored-bush.nc on"));
    EXPECT_THAT(run.err, HasSubstr("/nowhere/none.nc"));
    EXPECT_EQ(shop::firstoff("check " + kSpigot + " " + kTrap).exitCode, 1);
    EXPECT_EQ(shop::firstoff("check " + kTrap + " " + kSpigot).exitCode, 1);
}

TEST(Command, JsonOfSeveralProgramsHasOneReportEach) {
    const CommandRun run = shop::firstoff("check " + kSpigot + " /nowhere/none.nc " + kTrap + " --json -");
    EXPECT_EQ(run.exitCode, 2);
    EXPECT_EQ(run.out.front(), '[');
    int reports = 0;
    for (std::size_t at = run.out.find("firstoff-report"); at != std::string::npos;
         at = run.out.find("firstoff-report", at + 1)) {
        ++reports;
    }
    EXPECT_EQ(reports, 3);
    EXPECT_THAT(run.out, HasSubstr("file-not-usable"));
}

// ---- what is written ----

TEST(Command, JsonOnStandardOutputStandsAlone) {
    const CommandRun run = shop::firstoff("check " + kSpigot + " --json -");
    EXPECT_EQ(run.exitCode, 0);
    EXPECT_EQ(run.out.front(), '{');
    EXPECT_THAT(run.out, Not(HasSubstr("CLEAR")));
    EXPECT_THAT(run.out, HasSubstr("\"verdict\": \"clear\""));
}

TEST(Command, JsonAndMovesIntoFilesLeaveTheTextOnStandardOutput) {
    const Bench bench;
    const CommandRun run =
        shop::firstoff("check " + kSpigot + " --json " + bench.path("r.json") + " --csv-moves " + bench.path("m.csv"));
    EXPECT_EQ(run.exitCode, 0);
    EXPECT_THAT(run.out, HasSubstr("CLEAR"));
    EXPECT_THAT(bench.contents("r.json"), HasSubstr("\"cycle_time_s\""));
    EXPECT_EQ(bench.contents("m.csv"), shop::firstoff("moves " + kSpigot).out);
    EXPECT_EQ(bench.files(), 2);
}

TEST(Command, TwoRunsGiveTheSameBytes) {
    const std::string arguments = "check " + kTrap + " --json -";
    EXPECT_EQ(shop::firstoff(arguments).out, shop::firstoff(arguments).out);
}

TEST(Moves, HasTheHeadingOfTheContractAndARowPerMove) {
    const CommandRun run = shop::firstoff("moves " + kSpigot);
    EXPECT_EQ(run.exitCode, 0);
    EXPECT_THAT(run.out,
                StartsWith("line,block,pass,tool,kind,x0,z0,x1,z1,xc,zc,feed_mm_per_rev,rpm_start,rpm_end,t0_s,"
                           "t1_s,comp\n"));
    std::istringstream rows(run.out);
    std::string row, line140;
    while (std::getline(rows, row)) {
        EXPECT_EQ(std::count(row.begin(), row.end(), ','), 16) << row;
        if (row.find(",140,") != std::string::npos) line140 = row;
    }
    // N140 G01 X-1.6 F0.2 from X54 at Z0: X as diameter, work coordinates.
    EXPECT_THAT(line140, HasSubstr(",140,0,1,feed,54,0,-1.6,0,,,0.2,"));
}

struct Point2 {
    double z, r;
};

// Loops of a section table by "piece,loop".
std::map<std::string, std::vector<Point2>> loopsOf(const std::string& table) {
    std::istringstream rows(table);
    std::string row;
    std::getline(rows, row);
    EXPECT_EQ(row, "piece,loop,z_mm,r_mm");
    std::map<std::string, std::vector<Point2>> loops;
    while (std::getline(rows, row)) {
        const std::size_t second = row.find(',', row.find(',') + 1);
        Point2 p{};
        EXPECT_EQ(std::sscanf(row.c_str() + second + 1, "%lf,%lf", &p.z, &p.r), 2) << row;
        loops[row.substr(0, second)].push_back(p);
    }
    return loops;
}

TEST(Section, BeforeAnythingIsCutIsTheBarWithItsFaceOneMillimetreProud) {
    const CommandRun run = shop::firstoff("section " + kSpigot + " --at-time 0");
    EXPECT_EQ(run.exitCode, 0) << run.err;
    const auto loops = loopsOf(run.out);
    ASSERT_EQ(loops.size(), 1u);
    double zMax = -1e9, rMax = 0;
    for (const Point2& p : loops.begin()->second) {
        EXPECT_GE(p.r, 0);
        zMax = std::max(zMax, p.z);
        rMax = std::max(rMax, p.r);
    }
    EXPECT_NEAR(zMax, 1, 0.002);  // one column of 2 µm
    EXPECT_NEAR(rMax, 25, 1e-6);
}

TEST(Section, IsClosedAndShowsThePartedPieceAtTheEnd) {
    const CommandRun run = shop::firstoff("section " + kSpigot);
    EXPECT_EQ(run.exitCode, 0) << run.err;
    const auto loops = loopsOf(run.out);
    ASSERT_TRUE(loops.count("0,0"));
    ASSERT_TRUE(loops.count("1,0")) << "the spigot was parted off";
    for (const auto& [name, points] : loops) {
        ASSERT_GT(points.size(), 3u) << name;
        EXPECT_EQ(points.front().z, points.back().z) << name;
        EXPECT_EQ(points.front().r, points.back().r) << name;
    }
}

TEST(Section, AfterALineIsTheBilletOnceThatLineIsDone) {
    // After N140 the face stands at Z0; nothing else is cut.
    const std::string program = shop::readFile("assets/jobs/coupling-spigot.nc");
    const int line = 1 + lines(program.substr(0, program.find("N140")));
    const CommandRun run = shop::firstoff("section " + kSpigot + " --after-line " + std::to_string(line));
    EXPECT_EQ(run.exitCode, 0) << run.err;
    double zMax = -1e9;
    for (const auto& [name, points] : loopsOf(run.out)) {
        for (const Point2& p : points) zMax = std::max(zMax, p.z);
    }
    EXPECT_NEAR(zMax, 0, 0.003);  // faces within 3 µm
}

// A mistyped number would otherwise look like a change that alters nothing.
TEST(Command, ComparesNoWearOfAnOffsetThatIsNotThere) {
    const std::string job = FIRSTOFF_SOURCE_DIR "/assets/jobs/coupling-spigot";
    const auto run = shop::firstoff("compare " + job + ".nc --setup " + job + ".toml --wear-x 9=-0.05");
    EXPECT_EQ(run.exitCode, 2);
    EXPECT_THAT(run.err, testing::HasSubstr("neither an offset 9 nor a tool at that station"));
}

// The words of a line, with what the figures come to.
TEST(Command, TellsCodesInPlainWordsBySearch) {
    const CommandRun run = shop::firstoff("reference DEPTH of cut --code-system c");
    EXPECT_EQ(run.exitCode, 0) << run.err;
    EXPECT_THAT(run.out, testing::StartsWith("G73 "));
    EXPECT_THAT(run.out, HasSubstr("G73 P100 Q120 U0.4 W0.1 F0.25"));
    EXPECT_THAT(shop::firstoff("reference g76").out, testing::StartsWith("G76 "));
    EXPECT_THAT(shop::firstoff("reference").out, HasSubstr("Macro statements"));
    EXPECT_THAT(shop::firstoff("reference xyzzy").out, HasSubstr("Nothing in the reference"));
    const CommandRun bad = shop::firstoff("reference --code-system D");
    EXPECT_EQ(bad.exitCode, 2);
    EXPECT_THAT(bad.err, HasSubstr("--code-system D: there are A, B and C"));
}

TEST(Command, TellsALineWordByWord) {
    const std::string job = FIRSTOFF_SOURCE_DIR "/assets/jobs/coupling-spigot";
    const auto run = shop::firstoff("words " + job + ".nc --setup " + job + ".toml --line 17");
    EXPECT_EQ(run.exitCode, 0);
    EXPECT_THAT(run.out, testing::HasSubstr("U2.5    Depth of cut of each pass, on radius: 2.5 mm."));
    EXPECT_EQ(shop::firstoff("words " + job + ".nc --setup " + job + ".toml --line 9999").exitCode, 2);
}

}  // namespace
}  // namespace firstoff
