// The language of the window: which one it is, that a change tells the job again, and that no layout hangs on it.
#include <gtest/gtest.h>
#include <imgui_internal.h>

#include <cstdlib>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>

#include "gui/state_report.h"
#include "sim/base/language_choice.h"
#include "sim/base/say.h"
#include "tests/gui/job_folder.h"
#include "tests/gui/window_bench.h"

namespace firstoff::gui {
namespace {

namespace fs = std::filesystem;

TEST(LanguageChoice, GoesByTheUserThenByTheEnvironmentThenIsEnglish) {
    struct Row {
        const char* chosen;
        const char* asked;
        const char* language;
    };
    for (const Row& row :
         {Row{"", "", "en"}, Row{"", "C", "en"}, Row{"", "POSIX", "en"}, Row{"", "de", "de"}, Row{"", "deutsch", "en"},
          Row{"", "de_AT.UTF-8@euro", "de"}, Row{"", "en_GB.UTF-8", "en"}, Row{"", "tlh_AQ", "en"},  // no texts in it
          Row{"en", "de_DE.UTF-8", "en"}, Row{"de", "en_GB.UTF-8", "de"}, Row{"de", "", "de"},
          Row{"tlh", "de_DE.UTF-8", "de"}}) {  // a spoilt choice is none
        EXPECT_EQ(languageFor(row.chosen, row.asked), row.language) << row.chosen << " " << row.asked;
    }
}

// The three variables as they were, once the test is over.
class KeptEnvironment {
public:
    KeptEnvironment() {
        for (const char* name : {"LC_ALL", "LC_MESSAGES", "LANG"}) {
            const char* value = std::getenv(name);
            before_[name] = value != nullptr ? std::optional<std::string>(value) : std::nullopt;
            unsetenv(name);
        }
    }
    ~KeptEnvironment() {
        for (const auto& [name, value] : before_) {
            if (value) {
                setenv(name.c_str(), value->c_str(), 1);
            } else {
                unsetenv(name.c_str());
            }
        }
    }
    KeptEnvironment(const KeptEnvironment&) = delete;
    KeptEnvironment& operator=(const KeptEnvironment&) = delete;

private:
    std::map<std::string, std::optional<std::string>> before_;
};

TEST(LanguageChoice, TakesTheFirstVariableThatIsSet) {
    const KeptEnvironment kept;
    EXPECT_EQ(languageAskedByEnvironment(), "");
    setenv("LANG", "de_DE.UTF-8", 1);
    EXPECT_EQ(languageAskedByEnvironment(), "de_DE.UTF-8");
    setenv("LC_MESSAGES", "en_GB.UTF-8", 1);
    EXPECT_EQ(languageAskedByEnvironment(), "en_GB.UTF-8");
    setenv("LC_ALL", "", 1);  // set to nothing is not set
    EXPECT_EQ(languageAskedByEnvironment(), "en_GB.UTF-8");
    setenv("LC_ALL", "C", 1);
    EXPECT_EQ(languageAskedByEnvironment(), "C");
}

// Without the clamp of the spindle speed there is something to be told.
constexpr const char* kProgram =
    "O0001 (FACE AND TURN)\nG21 G40 G99\nT0101\nG96 S200 M03\nG00 X54. Z0 M08\nG01 X-1.6 F0.2\nG00 X40. Z2.\n"
    "G01 Z-20.\nX54.\nG28 U0 W0\nM30\n";

class WindowLanguage : public JobFolder {
protected:
    WindowLanguage() : JobFolder(kProgram) {}

    static void choose(WindowBench& window, const char* code) {
        window.app().carryOut(ChooseLanguage{code});
        window.frames(1);
        window.settle();
        window.frames(2);
    }
    static std::vector<std::string> messages(const WindowBench& window) {
        std::vector<std::string> all;
        for (const Finding& finding : window.session().trial()->findings) all.push_back(finding.message);
        return all;
    }

    const LanguageForNow english{"en"};  // and again at the end, whatever was chosen
};

TEST_F(WindowLanguage, IsChangedAndTheJobToldAgain) {
    std::vector<std::string> openedInGerman;
    {
        const LanguageForNow german("de");
        openedInGerman = messages(WindowBench(folder / "job.nc"));
    }
    WindowBench window(folder / "job.nc");
    const auto before = window.session().outcome;
    ASSERT_FALSE(window.trial().findings.empty());
    choose(window, "de");
    EXPECT_EQ(languageInUse(), "de");
    EXPECT_EQ(window.session().view.language, "de");
    EXPECT_NE(window.session().outcome, before);
    EXPECT_EQ(window.trial().verdict, before->trial->verdict);
    EXPECT_EQ(window.trial().findings.size(), before->trial->findings.size());
    EXPECT_EQ(window.app().tabs().front().text.rfind(tr("Findings"), 0), 0u);
    EXPECT_EQ(messages(window), openedInGerman);
    choose(window, "en");
    EXPECT_EQ(languageInUse(), "en");
    EXPECT_EQ(window.trial().findings.front().message, before->trial->findings.front().message);
}

TEST_F(WindowLanguage, LeavesTextAndChangesAtTheMachineAsTheyAre) {
    WindowBench window(folder / "job.nc");
    window.click(WindowBench::line(2));
    window.press(Key::End);
    window.type(" (A)");
    window.settle();
    WhatIf slow;
    slow.feed = 0.5;
    window.app().carryOut(TryChanges{slow});
    window.frames(1);
    window.settle();
    const std::string text = window.session().document.text();
    choose(window, "de");
    window.settle();  // the changes are tried once more on the new trial
    window.frames(2);
    EXPECT_EQ(window.session().document.text(), text);
    EXPECT_TRUE(window.session().modified());
    EXPECT_EQ(window.session().whatIf, slow);
    EXPECT_TRUE(window.session().showsChanges());
}

TEST_F(WindowLanguage, LeavesAMistakeInTheJobAndTellsItAnew) {
    WindowBench window(folder / "job.nc");
    const Mistake mistake = possibleMistakes(window.trial()).front();
    window.app().carryOut(TryMistake{mistake});
    window.frames(1);
    window.settle();
    choose(window, "de");
    window.settle();
    window.frames(2);
    ASSERT_TRUE(window.session().mistake);
    Mistake same = *window.session().mistake;
    EXPECT_NE(same.told, mistake.told);
    same.told = mistake.told;
    EXPECT_EQ(same, mistake);
    EXPECT_TRUE(window.session().showsChanges());
    EXPECT_EQ(window.session().outcome->mistake, window.session().mistake);
}

TEST_F(WindowLanguage, StaysWhereItIsChosenAgain) {
    WindowBench window(folder / "job.nc");
    const auto before = window.session().outcome;
    choose(window, "en");  // as it is already
    EXPECT_EQ(window.session().outcome, before);
    EXPECT_EQ(languageInUse(), "en");
}

// Every pane, page and dialog once.
void lookEverywhere(WindowBench& window) {
    for (const char* tab : {"Words", "Lessons", "Sizes", "Clearances", "Cut", "Time", "Finish", "Bodies", "What",
                            "Mistakes", "Findings"}) {
        window.openPage(tab);
        window.frames(2);
    }
    window.press(Key::F1);
    window.frames(2);
    window.press(Key::Escape);
    window.frames(2);
}

std::set<ImGuiID> idsOfWindows() {
    std::set<ImGuiID> ids;
    for (const ImGuiWindow* window : ImGui::GetCurrentContext()->Windows) {
        // What the mouse happens to stand on is no matter of the layout.
        if ((window->Flags & ImGuiWindowFlags_Tooltip) == 0) ids.insert(window->ID);
    }
    return ids;
}

std::set<std::string> keysIn(const nlohmann::json& report) {
    std::set<std::string> keys;
    for (const auto& [key, value] : report.items()) keys.insert(key);
    return keys;
}

TEST_F(WindowLanguage, ChangesNoIdOfTheLayout) {
    WindowBench window(folder / "job.nc");
    lookEverywhere(window);
    const std::set<ImGuiID> before = idsOfWindows();
    EXPECT_GT(before.size(), 15u);
    const auto report = nlohmann::json::parse(windowReport(window.app()));
    choose(window, "de");
    lookEverywhere(window);
    EXPECT_EQ(idsOfWindows(), before);  // the library forgets none: another id would be one more
    const auto german = nlohmann::json::parse(windowReport(window.app()));
    EXPECT_EQ(keysIn(german), keysIn(report));
    EXPECT_EQ(keysIn(german["tabs_at"]), keysIn(report["tabs_at"]));
    for (const char* key : {"program", "setup", "verdict", "page", "half_section", "findings"})
        EXPECT_EQ(german[key], report[key]) << key;
}

}  // namespace
}  // namespace firstoff::gui
