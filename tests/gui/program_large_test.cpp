// A million lines: what is drawn, found and edited must not depend on how many there are. Speeds are measured by
// firstoff_bench; here it is held to what is on screen.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <fstream>

#include "tests/gui/window_bench.h"
#include "tests/support/work_folder.h"

namespace firstoff::gui {
namespace {

namespace fs = std::filesystem;

TEST(LargeProgram, IsEditedFoundAndUndone) {
    const shop::WorkFolder folder;
    std::string text = "%\nO1\n";
    constexpr int kLines = 100'000;  // the million is the bench's; this is enough to be more than any screen
    for (int i = 0; i < kLines; ++i) text += fmt::format("(LINE {})\n", i);
    text += "M30\n%\n";
    std::ofstream(folder / "long.nc") << text;
    WindowBench window(folder / "long.nc");
    window.pressCtrl('G');
    window.frames(2);
    window.typeIntoField("90000");
    window.press(Key::Enter);
    window.frames(3);
    const ProgramPane& pane = window.app().programPane();
    EXPECT_EQ(pane.caretLine(), 89'999u);
    EXPECT_GT(pane.placeOf(89'999).y, 0);
    EXPECT_LT(pane.placeOf(0).y, 0);
    window.click(pane.placeOf(89'999));
    window.press(Key::Home);
    window.type("G");
    EXPECT_EQ(window.session().document.line(89'999), "G(LINE 89997)");
    window.pressCtrl('Z');
    EXPECT_EQ(window.session().document.text(), text);
}

}  // namespace
}  // namespace firstoff::gui
