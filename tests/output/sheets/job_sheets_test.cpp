// What must stand on each paper.
#include "sim/output/sheets/job_sheets.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>

#include <fmt/format.h>

#include "sim/output/blank_files.h"
#include "sim/output/setup_files.h"
#include "sim/output/sheets/sheet_html.h"
#include "tests/output/sheets/paper_reader.h"
#include "tests/support/shop.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::HasSubstr;
using testing::Not;

const Trial& job(const std::string& name) {
    static std::map<std::string, std::shared_ptr<const Trial>> tried;
    std::shared_ptr<const Trial>& trial = tried[name];
    if (!trial) {
        const std::string base = "assets/jobs/" + name;
        trial = runTrial(readProgram(shop::readFile(base + ".nc"), name + ".nc"),
                         readSetup(shop::readFile(base + ".toml"), name + ".toml",
                                   setupFilesBeside(std::string(FIRSTOFF_SOURCE_DIR) + "/" + base + ".toml")));
    }
    return *trial;
}

SheetOptions optionsOf(const std::string& name) {
    SheetOptions options;
    options.setupText = shop::readFile("assets/jobs/" + name + ".toml");
    return options;
}

// All words of the page, without markup.
std::string words(const std::string& html) {
    std::string text;
    bool inTag = false;
    for (char c : html.substr(html.find("<body>"))) {
        if (c == '<') {
            inTag = true;
            text += ' ';
        } else if (c == '>') {
            inTag = false;
        } else if (!inTag) {
            text += c;
        }
    }
    return text;
}

// Without the whole page in the message.
bool has(const std::string& text, const std::string& what) {
    return text.find(what) != std::string::npos;
}

struct Content {
    const char* name;
    const char* job;
    SheetKind kind;
    std::vector<const char*> has;
};
void PrintTo(const Content& content, std::ostream* out) {
    *out << content.name;
}

class SheetOfJob : public testing::TestWithParam<Content> {};

TEST_P(SheetOfJob, SaysWhatItMust) {
    const Sheet sheet = makeSheet(job(GetParam().job), GetParam().kind, optionsOf(GetParam().job));
    const std::string html = sheetHtml(sheet);
    EXPECT_EQ(shop::xmlComplaints(html), "");
    const std::string text = words(html);
    const std::string pdf = sheetPdf(sheet);
    EXPECT_GE(shop::pdfPages(pdf), 1);
    for (const char* what : GetParam().has) EXPECT_TRUE(has(text, what)) << what;
    // On every paper: what it was made from, and what it does not replace.
    EXPECT_THAT(text, HasSubstr("SHA-256 "));
    EXPECT_THAT(text, HasSubstr("This does not replace a dry run"));
    EXPECT_THAT(shop::pdfText(pdf), HasSubstr("This does not replace a dry run"));
}

INSTANTIATE_TEST_SUITE_P(
    Table, SheetOfJob,
    testing::Values(
        // Figures as the set-up and the program give them.
        Content{"setup",
                "hose-adapter",
                SheetKind::Setup,
                {"Set-up sheet",
                 "O3360",
                 "CLEAR",
                 "3 jaws, hard",
                 "Stick-out from the jaws",
                 "75 mm",
                 "145 mm",
                 "Ø165",
                 "stick-out 75",
                 "in the jaws 30",
                 "G54 Z0 104",
                 "11SMn30",
                 "4000 rev/min",
                 "T1  face and rough",
                 "insert C 80°",
                 "nose R0.8",
                 "200 m/min, at most 2800 rev/min",
                 "0.2 to 0.3 mm/rev",
                 "tap Ø10, pitch 1.5",
                 "lead 1.5 mm",
                 "Gauge X",
                 "-120.000",
                 "First moves of each tool",
                 "Edge to metal",
                 "How wrong it may be",
                 "Not checked",
                 "BAR D45 11SMN30, 75 OUT OF THE JAWS",
                 "a hand on the feed hold, guards shut"}},
        Content{"setupOfHexagon",
                "drain-plug",
                SheetKind::Setup,
                {"hexagon 30 across flats", "corners Ø34.64", "T9  thread 60 degrees"}},
        Content{"setupOfTwelveTools",
                "union-sleeve",
                SheetKind::Setup,
                {"Second spindle", "T9  thread 60 degrees", "PCLNR 2020 K12", "C45"}},
        Content{
            "setupOfTrap", "trap", SheetKind::Setup, {"PROBLEMS", "Do not go by this sheet", "no tool in the set-up"}},
        Content{"findings",
                "trap",
                SheetKind::Findings,
                {"Findings report", "PROBLEMS", " stops, ", "[tool-into-jaws]", "N680 Z-66.", "Do: ", "Not checked"}},
        Content{"findingsOfAClearJob",
                "hose-adapter",
                SheetKind::Findings,
                {"CLEAR", "Notes: worth knowing", "[thread-gauged]", "N640 G76 X33.25"}},
        Content{"time",
                "hose-adapter",
                SheetKind::Time,
                {"Cycle-time sheet", "Cycle time", "Parts per hour", "By tool, in order of use", "By operation",
                 "spindle speed", "Taken for granted"}},
        Content{"finishOfEverySurface",
                "coupling-spigot",
                SheetKind::Inspection,
                {"Finish that the feed leaves", "f²/8R", "outside", "wear, vibration, built-up edge"}},
        Content{"inspection",
                "bored-bush",
                SheetKind::Inspection,
                {"First-off inspection sheet", "piece 1 of those cut off", "Ø30 H7", "30.021", "counterbore Ø38 H8",
                 "within", "Bending", "Expected", "Gauged by, date", "They stand in for no gauge"}},
        Content{"inspectionWithoutADrawing",
                "drain-plug",
                SheetKind::Inspection,
                {"gives no dimensions", "Gauged by, date"}}),
    [](const auto& row) { return std::string(row.param.name); });

TEST(SheetOfTime, TakesItsFiguresFromTheAccount) {
    Trial trial = job("hose-adapter");
    trial.time = {};
    trial.time.whole.seconds = {60, 20, 10, 5, 4, 1, 0};
    TimeRow row;
    row.name = "T1 rough";
    row.block = 9;
    row.share.seconds = {30, 10, 5, 0, 0, 0, 0};
    trial.time.tools = {row};
    row.name = "N100 (ROUGH)";
    trial.time.operations = {row};
    TimeWaste waste;
    waste.kind = TimeWaste::Kind::LongRetract;
    waste.block = 12;
    waste.seconds = 3.25;
    waste.times = 4;
    waste.lengthMm = 120;
    trial.time.wastes = {waste};
    trial.time.assumed = {"Coolant is taken to be there at once."};
    trial.setup.machine.times.changePartS = 30;
    trial.timeline.cycleTimeS = 100;
    const std::string text = words(sheetHtml(makeSheet(trial, SheetKind::Time, {})));
    for (const char* what :
         {"60.0 s  60.0 %", "at feed in air", "T1 rough", "45.0", "N100 (ROUGH)", "retract longer than needed", "3.25",
          "120.0", "Coolant is taken to be there at once.", "27.7"}) {  // 3600 / 130
        EXPECT_TRUE(has(text, what)) << what;
    }
}

TEST(SheetOfTime, GivesNoSharesThatNobodyReckoned) {
    Trial trial = job("hose-adapter");
    trial.time = {};
    const std::string text = words(sheetHtml(makeSheet(trial, SheetKind::Time, {})));
    EXPECT_THAT(text, HasSubstr("not broken down"));
    EXPECT_THAT(text, Not(HasSubstr("By tool")));
}

TEST(SheetOfSetup, ShowsLoadsAndGripOnlyWhereTheyAreKnown) {
    Trial trial = job("hose-adapter");
    trial.loads = {};
    trial.holding = {};
    trial.holding.missing = {"gripForce of the chuck"};
    std::string text = words(sheetHtml(makeSheet(trial, SheetKind::Setup, {})));
    EXPECT_THAT(text, HasSubstr("Not estimated"));
    EXPECT_THAT(text, HasSubstr("gripForce of the chuck"));
    EXPECT_THAT(text, Not(HasSubstr("Power at the cut")));

    trial.loads.forcesKnown = true;
    ToolLoad load;
    load.call = 1;
    load.powerKw = {4.25f, 0, 3};
    load.cuttingN = {1234, 0, 3};
    load.torqueNm = {27.5f, 0, 3};
    trial.loads.tools = {load};
    trial.loads.assumed = {"Edges are taken as sharp."};
    GripEstimate grip;
    grip.neededStandingN = 41000;
    grip.neededN = 30000;
    grip.leftN = 24000;
    grip.revPerMin = 2800;
    grip.forceSafety = 2;
    grip.speedSafety = 1.5;
    grip.friction = 0.15;
    trial.holding.missing.clear();
    trial.holding.grip = grip;
    trial.holding.grip->standingN = 35000;
    text = words(sheetHtml(makeSheet(trial, SheetKind::Setup, {})));
    for (const char* what : {"Power at the cut", "4.25", "1234", "27.5", "Edges are taken as sharp.", "41000 N",
                             "24000 N", "the grip as it is set is less than the cut asks for", "authorised people"}) {
        EXPECT_TRUE(has(text, what)) << what;
    }
}

TEST(Sheets, CarryADateOnlyIfOneIsGiven) {
    SheetOptions options;
    EXPECT_THAT(words(sheetHtml(makeSheet(job("hose-adapter"), SheetKind::Findings, options))), Not(HasSubstr("Date")));
    options.date = "28 November";
    EXPECT_THAT(words(sheetHtml(makeSheet(job("hose-adapter"), SheetKind::Findings, options))),
                HasSubstr("28 November"));
}

class SheetOfNothing : public testing::TestWithParam<SheetKind> {};

TEST_P(SheetOfNothing, IsMadeAllTheSame) {
    for (const Trial& trial : {Trial{}, *shop::run("M30\n", shop::lathe()), *shop::run("", shop::barStock(40, 50))}) {
        const Sheet sheet = makeSheet(trial, GetParam(), {});
        EXPECT_EQ(shop::xmlComplaints(sheetHtml(sheet)), "");
        EXPECT_GE(shop::pdfPages(sheetPdf(sheet)), 1);
    }
}

TEST_P(SheetOfNothing, KeepsHostileNamesAsText) {
    firstoff::Setup setup = shop::barStock(40, 50);
    const std::string hostile = "\"><script>alert('x')</script>\xff\u202E&";
    shop::addTurningTool(setup, 1, 'C', 0.8).name = hostile;
    setup.machine.name = setup.stock.material = hostile;
    setup.name = hostile + "/../" + std::string(3000, 'n') + ".toml";
    const auto trial = runTrial(
        readProgram("O1 (" + hostile + ")\nT0101\nG97 S500 M03\nG00 X50. Z2.\nG01 Z-5. F0.2 (</svg><b>)\nG123\nM30\n",
                    hostile + ".nc"),
        setup);
    const Sheet sheet = makeSheet(*trial, GetParam(), {});
    const std::string html = sheetHtml(sheet);
    EXPECT_EQ(shop::xmlComplaints(html), "");
    EXPECT_THAT(html, Not(HasSubstr("<script")));
    EXPECT_GE(shop::pdfPages(sheetPdf(sheet)), 1);
}

INSTANTIATE_TEST_SUITE_P(Kinds, SheetOfNothing,
                         testing::Values(SheetKind::Setup, SheetKind::Inspection, SheetKind::Time, SheetKind::Findings),
                         [](const auto& row) { return fmt::format("kind{}", static_cast<int>(row.param)); });

TEST(SheetOfFindings, HoldsThreeHundred) {
    Trial trial = job("trap");
    const Finding one = trial.findings.front();
    trial.findings.assign(300, one);
    const std::string text = words(sheetHtml(makeSheet(trial, SheetKind::Findings, {})));
    std::size_t warnings = 0;
    for (std::size_t at = text.find("WARNING"); at != std::string::npos; at = text.find("WARNING", at + 1)) ++warnings;
    EXPECT_EQ(warnings, 300u);
}

}  // namespace
}  // namespace firstoff
