// How long frames of the window take while a very long program is worked on: firstoff_editor_bench [LINES]
//
// Prints for each thing one does the middle, the worst and the number of frames, in ms, drawing on the screen left out.
// For the developers, never a test: what counts is that no row grows with the number of lines beyond a frame of 60 Hz.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <fstream>
#include <functional>

#include "gui/compared_texts.h"
#include "sim/editing/renumber.h"
#include "tests/gui/window_bench.h"
#include "tests/support/shop.h"
#include "tests/support/work_folder.h"

namespace firstoff::gui {
namespace {

namespace fs = std::filesystem;

class Stopwatch {
public:
    double ms() const {
        return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start_).count();
    }

private:
    std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

// `act` before each of `count` frames.
void measure(const char* what, WindowBench& window, int count, const std::function<void(int)>& act) {
    std::vector<double> times;
    for (int i = 0; i < count; ++i) {
        const Stopwatch watch;
        act(i);
        window.frames(1);
        times.push_back(watch.ms());
    }
    std::sort(times.begin(), times.end());
    fmt::print("{:<44}{:>9.2f}{:>9.2f}{:>7}\n", what, times[times.size() / 2], times.back(), times.size());
}

std::string longProgram(int lines) {
    std::string text = "O1 (LONG)\nG21 G40 G99\nG50 S2000\nT0101\nG97 S800 M03\nG00 X60. Z2. M08\n";
    for (int i = 0; i < lines; ++i) {
        text += fmt::format("N{} G01 X{:.3f} Z{:.3f} F.2\n", i + 1, 40 + 0.001 * (i % 997), 1 - 0.00002 * i);
    }
    text += "G28 U0 W0\nM30\n";
    return text;
}

void send(WindowBench& window, Key key, char symbol, char32_t character, bool ctrl) {
    InputEvent event;
    event.key = key;
    event.symbol = symbol;
    event.character = character;
    event.ctrl = ctrl;
    window.app().input(event);
}

void work(WindowBench& window, int lines) {
    const ImVec2 middle = WindowBench::line(10);
    measure("nothing happens", window, 30, [](int) {});
    ImGui::GetIO().MousePos = middle;
    measure("scroll by the wheel", window, 60, [](int) { ImGui::GetIO().MouseWheel = -5; });
    window.click(middle.x, middle.y);
    measure("type near the beginning", window, 60, [&](int) { send(window, Key::None, 0, 'X', false); });
    measure("a new line near the beginning", window, 20, [&](int) { send(window, Key::Enter, 0, 0, false); });
    measure("undo", window, 20, [&](int) { send(window, Key::Character, 'Z', 0, true); });
    window.pressCtrl('G');
    window.frames(2);
    window.typeIntoField(fmt::format("N{}", lines - 5));
    measure("go to a block near the end", window, 3,
            [&](int i) { i == 0 ? send(window, Key::Enter, 0, 0, false) : void(); });
    measure("type near the end", window, 60, [&](int) { send(window, Key::None, 0, 'X', false); });
    window.pressCtrl('F');
    window.frames(2);
    window.typeIntoField("X40.5");
    measure("count matches", window, 60, [](int) {});
    measure("to the next match", window, 60, [&](int) { send(window, Key::F3, 0, 0, false); });
    ImGui::GetIO().MousePos = WindowBench::line(20);
    measure("scroll with matches lit", window, 60, [](int) { ImGui::GetIO().MouseWheel = 5; });
    measure("replace the matches", window, 1, [&](int) {
        const TextChanges changes = replaceAll(window.session().document.text(), TextSearch({"X40.5"}), "X40.6");
        window.app().carryOut(ChangeText{changes, window.session().document.revision()});
    });
    measure("frames after it", window, 60, [](int) {});
    measure("undo that", window, 1, [&](int) { window.app().carryOut(EditProgram{EditProgram::What::Undo}); });
}

void once(const char* what, const std::function<void()>& act) {
    const Stopwatch watch;
    act();
    fmt::print("{:<44}{:>9.2f}\n", what, watch.ms());
}

// The parts alone, which a loaded machine or a slow display does not blur.
void parts(int lines) {
    fmt::print("{} lines, parts alone                                ms\n", lines);
    const std::string text = longProgram(lines);
    TextDocument document;
    once("read", [&] { document = TextDocument(text); });
    once("type a character at the beginning", [&] { document.replace(0, 0, "X", true); });
    once("a new line at the beginning", [&] { document.replace(0, 0, "\n"); });
    once("undo", [&] { document.undo(); });
    once("the copy a trial or a kept text takes", [&] { const std::string copy = document.text(); });
    MatchList matches;
    const TextSearch search({"X40.5"});
    double worst = 0;
    int frames = 0;
    for (; !matches.complete(); ++frames) {
        const Stopwatch watch;
        matches.look(document.text(), document.revision(), search);
        worst = std::max(worst, watch.ms());
    }
    fmt::print("{:<44}{:>9.2f}  in each of {} frames, {} matches\n", "count matches", worst, frames,
               matches.places().size());
    once("a match that is not there", [&] { TextSearch({"Y77"}).next(document.text(), 0); });
    once("the last one before the end", [&] { search.previous(document.text(), document.text().size()); });
    once("line of the last block", [&] { lineAskedFor(document.text(), fmt::format("N{}", lines), 0); });
    TextChanges changes;
    once("find all to be replaced", [&] { changes = replaceAll(document.text(), search, "X40.6"); });
    once("replace them", [&] { document.replace(changes, 0); });
    once("undo that", [&] { document.undo(); });
    ProgramRows rows;
    std::vector<ProgramRows::Extra> extras;
    for (int line = 0; line < lines; line += 10) extras.push_back({static_cast<std::size_t>(line), 3});
    once("rows beneath every tenth line", [&] { rows.set(document.lineCount(), extras); });
    std::size_t sum = 0;
    once("a screen of rows", [&] {
        for (std::size_t row = 0; row < 50; ++row) sum += rows.rowOf(rows.at(rows.count() / 2 + row).line);
    });
    ComparedTexts compared;
    const TextDocument other(text);
    once("compare with another (beside the window)", [&] { compared.finish(document, other); });
    Program program;
    once("read as a program (beside the window)", [&] { program = readProgram(text, "long"); });
    once("number every block anew", [&] { renumber(program, CodeSystem::A, {1, 1, false}); });
    fmt::print("{}\n", sum == 0 ? " " : "");
}

int run(int lines) {
    const shop::WorkFolder folder;
    std::ofstream(folder / "long.nc") << longProgram(lines);
    std::ofstream(folder / "long.toml") << shop::spigotSetupWithoutDrawing();
    parts(lines);
    fmt::print("\n{} lines, whole window                         middle    worst frames\n", lines);
    {
        const Stopwatch watch;
        WindowBench window(folder / "long.nc");
        fmt::print("opened, tried and shown after {:.0f} ms\n", watch.ms());
        work(window, lines);
    }
    return 0;
}

}  // namespace
}  // namespace firstoff::gui

int main(int argc, char** argv) {
    std::setvbuf(stdout, nullptr, _IOLBF, 0);
    testing::InitGoogleTest(&argc, argv);
    return firstoff::gui::run(argc > 1 ? std::max(100, std::atoi(argv[1])) : 1'000'000);
}
