// What the window writes, reads from its command line and keeps of its settings.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "gui/figures.h"
#include "gui/frame_times.h"
#include "gui/measures.h"
#include "gui/program_text.h"
#include "gui/section/section_words.h"
#include "gui/startup.h"
#include "gui/view_settings.h"

namespace firstoff::gui {
namespace {

TEST(Figures, WriteTimesAsAClock) {
    EXPECT_EQ(clockTime(0), "0:00.00");
    EXPECT_EQ(clockTime(7.254), "0:07.25");
    EXPECT_EQ(clockTime(59.996), "1:00.00");
    EXPECT_EQ(clockTime(3727.5), "1:02:07.50");
    EXPECT_EQ(tickTime(62, 1), "1:02");
    EXPECT_EQ(tickTime(0.25, 0.05), "0:00.25");
    EXPECT_EQ(tickTime(0.2, 0.2), "0:00.2");
}

TEST(Figures, WriteNoNoughtWithASign) {
    EXPECT_EQ(withDecimals(-0.0004, 3), "0.000");
    EXPECT_EQ(withDecimals(-0.0006, 3), "-0.001");
    EXPECT_EQ(withDecimals(48, 3), "48.000");
}

TEST(Measures, TellInTheUnitsAskedFor) {
    constexpr Measures kMm(Units::Millimetres), kInch(Units::Inches);
    struct Row {
        Figure figure;
        const char* words;
    };
    // One inch is 25.4 mm, one foot 304.8 mm exactly (ISO 31-1).
    for (const auto& [figure, words] : {
             Row{kMm.length(12.7), "12.700 mm"},
             Row{kInch.length(12.7), "0.5000 in"},
             Row{kMm.length(-0.0004), "0.000 mm"},
             Row{kInch.length(-0.0012), "0.0000 in"},
             Row{kInch.length(-0.00128), "-0.0001 in"},
             Row{kMm.smallLength(0.0127), "+0.0127 mm"},
             Row{kInch.smallLength(-0.0127), "-0.00050 in"},
             Row{kMm.roughLength(127), "127 mm"},
             Row{kInch.roughLength(127), "5.0 in"},
             Row{kMm.limit(0.5), "0.5 mm"},
             Row{kMm.limit(12.345), "12.345 mm"},
             Row{kMm.limit(0.0126), "0.012 mm"},
             Row{kInch.limit(0.5), "0.0196 in"},
             Row{kMm.gap(1.249), "1.24 mm"},
             Row{kMm.thickness(0.12345), "0.1235 mm"},
             Row{kInch.thickness(0.127), "0.00500 in"},
             Row{kMm.atMost(0.0101), "0.011 mm"},
             Row{kInch.atMost(0), "0.0001 in"},
             Row{kMm.feedPerRev(0.254), "0.254 mm/rev"},
             Row{kInch.feedPerRev(0.254), "0.0100 in/rev"},
             Row{kMm.feedPerMinute(508), "508 mm/min"},
             Row{kInch.feedPerMinute(508), "20.00 in/min"},
             Row{kMm.surfaceSpeed(152.4), "152 m/min"},
             Row{kInch.surfaceSpeed(152.4), "500 ft/min"},
             Row{kMm.chipArea(0.64516), "0.6452 mm²"},
             Row{kInch.chipArea(0.64516), "0.001000 in²"},
             Row{kMm.removalRate(1000), "60.00 cm³/min"},
             Row{kInch.removalRate(16387.064 / 60), "1.00 in³/min"},
         }) {
        EXPECT_EQ(told(figure), words);
    }
    EXPECT_EQ(kMm.position(25.4, -5.08), "X 25.400  Z -5.080 mm");
    EXPECT_EQ(kInch.position(25.4, -5.08), "X 1.0000  Z -0.2000 in");
}

TEST(ReadingInWords, NamesTheUnitOfLengthsAlone) {
    constexpr Measures kMm(Units::Millimetres), kInch(Units::Inches);
    using Kind = FeatureReading::Kind;
    const auto words = [](Kind kind, double value, double second, Measures measures) {
        FeatureReading reading;
        reading.kind = kind;
        reading.value = value;
        reading.second = second;
        return readingInWords(reading, measures);
    };
    EXPECT_EQ(words(Kind::Diameter, 48, 0, kMm), "Ø 48.000 mm");
    EXPECT_EQ(words(Kind::Diameter, 50.8, 0, kInch), "Ø 2.0000 in");
    EXPECT_EQ(words(Kind::Position, -12.7, 25.4, kInch), "X 1.0000  Z -0.5000 in");
    EXPECT_EQ(words(Kind::Radius, 0.8, 0, kInch), "R 0.0315 in");
    EXPECT_EQ(words(Kind::EdgeAngle, std::acos(-1.0) / 4, 0, kInch), "45.000° to the axis");
}

TEST(Figures, GroupLargeNumbers) {
    EXPECT_EQ(wholeNumber(1459.2), "1459");
    EXPECT_EQ(wholeNumber(12500), "12\u2009500");
    EXPECT_EQ(wholeNumber(-1234567), "-1\u2009234\u2009567");
    EXPECT_EQ(wholeNumber(-0.2), "0");
}

TEST(Figures, StepByOneTwoFive) {
    for (const auto& [least, step] : {std::pair{0.011, 0.02}, {0.02, 0.02}, {0.3, 0.5}, {0.7, 1.0}, {6.0, 10.0}}) {
        EXPECT_DOUBLE_EQ(niceStep(least), step) << least;
    }
}

TEST(FrameTimes, TellPercentilesByCounting) {
    FrameTimes times;
    for (int i = 1; i <= 100; ++i) times.add(i * 1e-3);
    EXPECT_DOUBLE_EQ(times.percentile(0.5), 0.050);
    EXPECT_DOUBLE_EQ(times.percentile(0.99), 0.099);
    EXPECT_DOUBLE_EQ(times.percentile(1), 0.100);
    EXPECT_NEAR(times.framesPerSecond(), 100 / 5.05, 1e-9);  // sum 1 to 100 ms; rounding of doubles
    EXPECT_THAT(times.report(), testing::HasSubstr("frames 100"));
}

Startup read(std::vector<const char*> words) {
    words.insert(words.begin(), "firstoff-window");
    return readCommandLine(static_cast<int>(words.size()), words.data());
}

TEST(CommandLine, ReadsWhatIsPromised) {
    const Startup startup =
        read({"part.nc", "--setup", "bar.toml", "--picture", "p.png", "--at-line", "12", "--size", "640x400", "--view",
              "end-on", "--cutaway=half", "--colour-by-tool", "--light", "--scene-only"});
    EXPECT_EQ(startup.program, "part.nc");
    EXPECT_EQ(startup.setup, "bar.toml");
    EXPECT_EQ(startup.picture, "p.png");
    EXPECT_EQ(startup.atLine, 12);
    EXPECT_EQ(startup.width, 640);
    EXPECT_EQ(startup.height, 400);
    EXPECT_EQ(startup.view, ViewName::EndOn);
    EXPECT_EQ(startup.cutaway, 2);
    EXPECT_EQ(startup.colouring, Colouring::Tool);
    EXPECT_EQ(read({"--view", "by-size"}).colouring, Colouring::Size);
    EXPECT_EQ(read({"--view", "by-size"}).view, ViewName::Part);
    EXPECT_EQ(startup.dark, false);
    EXPECT_TRUE(startup.sceneOnly);
    EXPECT_EQ(read({"--at-time", "12.5", "--picture", "p.png"}).atTimeS, 12.5);
    EXPECT_EQ(read({"--bench-frames", "300"}).benchFrames, 300);
    EXPECT_TRUE(read({"--view", "finish", "--picture", "p.png", "--at-line", "3"}).finishView);
    EXPECT_FALSE(read({}).finishView);
    EXPECT_FALSE(read({}).program);
}

TEST(CommandLine, NamesWhatItCannotUse) {
    struct Row {
        std::vector<const char*> words;
        const char* says;
    };
    const Row rows[] = {
        {{"a.nc", "b.nc"}, "a.nc or b.nc"},
        {{"--setup"}, "--setup needs something"},
        {{"--shiny"}, "no option --shiny"},
        {{"--size", "640"}, "640x"},
        {{"--size", "0x10"}, "--size"},
        {{"--size", "99999x10"}, "--size"},
        {{"--at-line", "0"}, "--at-line"},
        {{"--at-line", "3x"}, "3x"},
        {{"--at-time", "nan"}, "nan"},
        {{"--view", "sky"}, "sky"},
        {{"--at-line", "3", "--at-time", "4"}, "not both"},
        {{"--scene-only"}, "--picture"},
        {{"--view", "finish"}, "--at-line"},
        {{"--view", "finish", "--picture", "p.png"}, "--at-line"},
    };
    for (const Row& row : rows) {
        try {
            read(row.words);
            ADD_FAILURE() << "took " << row.words.front();
        } catch (const UsageError& error) {
            EXPECT_THAT(error.what(), testing::AnyOf(testing::HasSubstr(row.says), testing::HasSubstr("WxH")));
        }
    }
}

TEST(CommandLine, SaysWhatThePictureMayCostAndForWhom) {
    const Startup startup = read({"--quality", "fine", "--neighbours", "left-out", "--projector", "--chips",
                                  "--bench-frames", "5", "--bench-moves", "0"});
    EXPECT_EQ(startup.quality, QualityChoice::Fine);
    EXPECT_EQ(startup.neighbours, Neighbours::LeftOut);
    EXPECT_TRUE(startup.projector && startup.chips);
    EXPECT_FALSE(read({}).chips);
    EXPECT_EQ(startup.benchMoves, 0);
    EXPECT_EQ(read({"--quality", "automatic"}).quality, QualityChoice::Automatic);
    EXPECT_THROW(read({"--quality", "best"}), UsageError);
    EXPECT_THROW(read({"--neighbours", "gone"}), UsageError);
    EXPECT_EQ(read({}).language, std::nullopt);  // as chosen in the window, or as the environment asks
    EXPECT_EQ(read({"--language", "de"}).language, "de");
    EXPECT_THROW(read({"--language", "tlh"}), UsageError);
}

TEST(ViewSettings, HaveALookOfTheirOwnBeforeAProjector) {
    ViewSettings view;
    view.setDarkLook(true);
    view.projector = true;
    EXPECT_FALSE(view.darkLook());  // walls are light
    view.setDarkLook(true);
    view.projector = false;
    view.setDarkLook(false);
    view.projector = true;
    EXPECT_TRUE(view.darkLook());
}

TEST(ViewSettings, ComeBackAsTheyWereLeft) {
    ViewSettings view;
    view.projector = view.projectorDark = view.followTool = view.lessMotion = view.chips = true;
    view.quality = QualityChoice::Fine;
    view.neighbours = Neighbours::LeftOut;
    view.dark = false;
    view.cutaway = 2;
    view.colouring = Colouring::Size;
    view.programWidth = 412.5f;
    view.playSpeed = 25;
    view.windowWidth = 1500;
    view.playByBlock = true;
    view.panel = false;
    view.foldedLanes = {"Grip", "Bending"};
    view.section = {SectionSettings::Shown::Both, 0.25f, false, true, true, 500};
    view.language = "de";
    view.units = Units::Inches;
    view.below = Tab::Sizes;
    view.inPlace = Tab::Changes;
    view.clearancesByTime = true;
    view.recent = {"/jobs/a \"odd\" name.nc", "/jobs/b.nc"};
    EXPECT_EQ(readViewSettings(writeViewSettings(view)), view);
}

TEST(ViewSettings, PassOverWhatTheyCannotUse) {
    const ViewSettings usual;
    for (const char* text :
         {"", "not toml [[[", "dark = 3\nprogram_width = \"wide\"\nscale = 1e9\ncutaway = -1\nrecent = 4",
          "unknown = 1", "language = \"tlh\"", "language = 3", "page = \"no such page\"", "page = 3",
          "units = \"furlong\"",
          "page = \"program\"",  // has its own place, and stands there already
          "page_in_low_window = \"\"", "clearances_by_time = \"late\""}) {
        EXPECT_EQ(readViewSettings(text), usual) << text;
    }
}

TEST(Tabs, AreCalledByOneNameEach) {
    for (int i = 0; i <= static_cast<int>(Tab::Finish); ++i) {
        EXPECT_EQ(tabNamed(nameOf(static_cast<Tab>(i))), static_cast<Tab>(i));
    }
    EXPECT_EQ(tabNamed("Sizes"), std::nullopt);
    EXPECT_EQ(tabNamed(""), std::nullopt);
}

TEST(ViewSettings, KeepEightRecentProgramsNewestFirst) {
    ViewSettings view;
    for (int i = 0; i < 12; ++i) rememberProgram(view, "/jobs/" + std::to_string(i) + ".nc");
    rememberProgram(view, "/jobs/6.nc");
    EXPECT_EQ(view.recent.size(), kRecentPrograms);
    EXPECT_EQ(view.recent[0], "/jobs/6.nc");
    EXPECT_EQ(view.recent[1], "/jobs/11.nc");
}

TEST(ProgramText, CutsALineIntoRunsWithoutGaps) {
    const std::string line = "N10 G01X20. ,C1. F.2 (chamfer) T0303 M08";
    std::string kinds;
    std::size_t at = 0;
    for (const TextRun& run : runsOf(line)) {
        EXPECT_EQ(run.from, at);
        at = run.to;
        kinds += "pmaftsoc"[static_cast<std::size_t>(run.kind)];
    }
    EXPECT_EQ(at, line.size());
    // o: N10, m: G01, a: axes and chamfer, f: feed, c: comment, t: tool, s: M word; p: spaces between.
    EXPECT_EQ(kinds, "opmapapfpcptps");
}

}  // namespace
}  // namespace firstoff::gui
