// What must stand on a hand-out.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "sim/output/sheets/cycle_runs.h"
#include "sim/output/sheets/exercises.h"
#include "sim/output/sheets/job_sheets.h"
#include "sim/output/sheets/sheet_html.h"
#include "tests/output/sheets/paper_reader.h"
#include "tests/support/demo_trials.h"
#include "tests/support/shop.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::HasSubstr;
using testing::Not;

Sheet handout(const Trial& trial, bool answers) {
    SheetOptions options;
    options.answers = answers;
    return makeSheet(trial, SheetKind::Handout, options);
}

template <class Part>
std::vector<Part> partsOf(const Sheet& sheet) {
    std::vector<Part> found;
    for (const SheetSection& section : sheet.sections) {
        for (const SheetPart& part : section.parts) {
            if (const auto* one = std::get_if<Part>(&part)) found.push_back(*one);
        }
    }
    return found;
}

class HandoutOfJob : public testing::TestWithParam<const char*> {};

TEST_P(HandoutOfJob, HasEveryLineEveryCycleAndEveryQuestion) {
    const Trial& trial = shop::demoTrial(GetParam());
    const Sheet sheet = handout(trial, false);
    EXPECT_EQ(partsOf<SheetProgramLine>(sheet).size(), trial.program.endBlockOf(0));
    EXPECT_EQ(partsOf<SheetFigure>(sheet).size(), cycleRuns(trial).size());
    const std::vector<Exercise> exercises = exercisesOf(trial);
    const std::vector<SheetQuestion> questions = partsOf<SheetQuestion>(sheet);
    ASSERT_EQ(questions.size(), exercises.size());
    const std::string html = sheetHtml(sheet), pdf = shop::pdfText(sheetPdf(sheet));
    EXPECT_EQ(shop::xmlComplaints(html), "");
    const std::string withAnswers = sheetHtml(handout(trial, true));
    EXPECT_NE(html.find("a hand on the feed hold"), std::string::npos);
    EXPECT_NE(pdf.find("This does not replace a dry run"), std::string::npos);
    EXPECT_EQ(html.find(">Answers<"), std::string::npos);
    EXPECT_NE(withAnswers.find(">Answers<"), std::string::npos);
    const std::vector<CycleRun> runs = cycleRuns(trial);
    const std::vector<SheetFigure> figures = partsOf<SheetFigure>(sheet);
    for (std::size_t i = 0; i < exercises.size(); ++i) {
        const Exercise& exercise = exercises[i];
        EXPECT_NE(withAnswers.find(exercise.answer), std::string::npos) << exercise.answer;
        if (exercise.kind != Exercise::Kind::PassesOfCycle) {
            EXPECT_EQ(html.find(exercise.answer), std::string::npos) << exercise.answer;
            continue;
        }
        // Another cycle may have as many passes; the figure of this one leaves them to be counted.
        for (std::size_t run = 0; run < runs.size(); ++run) {
            if (runs[run].block != exercise.block) continue;
            EXPECT_THAT(figures[run].caption, HasSubstr(": see exercise " + std::to_string(i + 1) + "."));
            EXPECT_THAT(figures[run].caption, Not(HasSubstr("passes")));
        }
    }
}

TEST_P(HandoutOfJob, ComesOutTheSameEachTime) {
    const Trial& trial = shop::demoTrial(GetParam());
    EXPECT_EQ(sheetHtml(handout(trial, true)), sheetHtml(handout(trial, true)));
    EXPECT_EQ(sheetPdf(handout(trial, true)), sheetPdf(handout(trial, true)));
}

INSTANTIATE_TEST_SUITE_P(Jobs, HandoutOfJob,
                         testing::Values("coupling-spigot", "grooved-pulley", "hose-adapter", "trap"),
                         [](const auto& row) {
                             std::string name = row.param;
                             std::erase(name, '-');
                             return name;
                         });

TEST(Handout, ExplainsAWordOnceAndSaysWhatSetTheRest) {
    const std::vector<SheetProgramLine> lines =
        partsOf<SheetProgramLine>(handout(shop::demoTrial("coupling-spigot"), false));
    const auto words = [&](std::size_t line) {
        std::string all;
        for (const SheetFact& word : lines[line - 1].words) all += word.label + "=" + word.value + "|";
        return all;
    };
    const auto remarks = [&](std::size_t line) {
        std::string all;
        for (const std::string& remark : lines[line - 1].remarks) all += remark + "|";
        return all;
    };
    EXPECT_THAT(words(5), HasSubstr("G21=Lengths in millimetres."));
    EXPECT_THAT(words(14), HasSubstr("G01=Straight line at feed."));
    EXPECT_THAT(words(20), Not(HasSubstr("G01=")));  // told in line 14
    EXPECT_THAT(words(17), HasSubstr("U2.5=Depth of cut of each pass, on radius: 2.5 mm."));
    EXPECT_THAT(remarks(18), HasSubstr("Drawn in figure 1."));
    EXPECT_THAT(remarks(19), HasSubstr("the figures are those when N430 runs along it"));
    EXPECT_THAT(remarks(21), Not(HasSubstr("runs along it")));
    EXPECT_THAT(remarks(44), HasSubstr("S120 of N510"));
    EXPECT_TRUE(lines[2].quiet);
    EXPECT_FALSE(lines[13].quiet);
}

TEST(Handout, SaysWhatItDoesNotKnow) {
    auto setup = shop::barStock(40, 60);
    const auto trial = shop::run("G21 G40 G99\nG123 X20.\nM177\nM30\n", std::move(setup));
    const std::string html = sheetHtml(handout(*trial, true));
    const auto has = [&](const char* text) { return html.find(text) != std::string::npos; };
    EXPECT_TRUE(has("NOT PROVEN"));
    EXPECT_TRUE(has("Not in the table: see the machine's manual."));
    EXPECT_FALSE(has("Exercises"));
}

}  // namespace
}  // namespace firstoff
