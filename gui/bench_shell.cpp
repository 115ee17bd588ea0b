#include "gui/bench_shell.h"

#include <backends/imgui_impl_opengl3.h>
#include <fmt/format.h>
#include <imgui.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <vector>

#include "gui/app.h"
#include "gui/file_io.h"
#include "gui/frame_times.h"
#include "gui/gl/framebuffer.h"
#include "gui/gl/offscreen.h"
#include "gui/imgui_context.h"
#include "gui/pane_surface.h"
#include "sim/output/shipped_assets.h"

namespace firstoff::gui {

namespace fs = std::filesystem;

namespace {

using Clock = std::chrono::steady_clock;

double secondsSince(Clock::time_point start) {
    return std::chrono::duration<double>(Clock::now() - start).count();
}

// The whole application, drawn into a framebuffer and waited for.
class Stage {
public:
    Stage(const Startup& startup, const fs::path& program)
        : target_(startup.width, startup.height, 1), app_(with(startup, program), {}) {
        ImGuiIO& io = ImGui::GetIO();
        io.DisplaySize = {static_cast<float>(startup.width), static_cast<float>(startup.height)};
        app_.prepare(1);
        ImGui_ImplOpenGL3_CreateFontsTexture();
        drawTypePixelForPixel();
        frame();
        app_.settle(startup);
        frame();
    }

    App& app() { return app_; }

    void frame() {
        const double now = secondsSince(start_);
        ImGui::GetIO().DeltaTime = static_cast<float>(std::max(1e-4, now - last_));
        last_ = now;
        ImGui_ImplOpenGL3_NewFrame();
        ImGui::NewFrame();
        app_.frame(now);
        ImGui::Render();
        target_.bind();
        panes_.paint(app_.ground(), app_.shownPicture());
        glFinish();
    }

private:
    static Startup with(Startup startup, const fs::path& program) {
        if (!program.empty()) {
            startup.program = program;
            startup.setup.reset();
        }
        return startup;
    }

    Clock::time_point start_ = Clock::now();
    double last_ = 0;
    Framebuffer target_;
    PaneSurface panes_;
    App app_;
};

FrameTimes played(Stage& stage, int frames) {
    constexpr int kWarmUp = 5;  // shaders are compiled, buffers made
    FrameTimes times;
    for (int i = -kWarmUp; i < frames; ++i) {
        stage.app().setTime(stage.app().cycleTimeS() * (std::max(i, 0) + 1) / frames);
        const Clock::time_point start = Clock::now();
        stage.frame();
        if (i >= 0) times.add(secondsSince(start));
    }
    return times;
}

void playAtEachQuality(Stage& stage, const Startup& startup) {
    std::vector<QualityChoice> choices{QualityChoice::Plain, QualityChoice::Fine, QualityChoice::Finest,
                                       QualityChoice::Automatic};
    if (startup.quality) choices = {*startup.quality};
    for (const QualityChoice choice : choices) {
        stage.app().setQuality(choice);
        const std::clock_t processor = std::clock();
        const FrameTimes times = played(stage, startup.benchFrames);
        const double busyS = static_cast<double>(std::clock() - processor) / CLOCKS_PER_SEC;
        const char* words = choice == QualityChoice::Automatic ? "automatic" : name(fixedQuality(choice));
        fmt::print("\nquality {}\n{}processor time a frame {:.1f} ms, all threads together\n", words, times.report(),
                   1e3 * busyS / startup.benchFrames);
        std::fflush(stdout);  // what comes after may take minutes
    }
}

// The program and a set-up for it, in a folder of their own that goes with the object.
class ManyMovesJob {
public:
    explicit ManyMovesJob(int moves) : folder_(fs::temp_directory_path() / fmt::format("firstoff-bench-{}", getpid())) {
        fs::create_directories(folder_);
        writeWholeFile(program(), manyMovesProgram(moves));
        fs::path setup = shippedAsset("jobs/coupling-spigot.nc");
        setup.replace_extension(".toml");
        fs::copy_file(setup, folder_ / "many-moves.toml", fs::copy_options::overwrite_existing);
    }
    ~ManyMovesJob() {
        std::error_code error;
        fs::remove_all(folder_, error);
    }
    ManyMovesJob(const ManyMovesJob&) = delete;
    ManyMovesJob& operator=(const ManyMovesJob&) = delete;
    fs::path program() const { return folder_ / "many-moves.nc"; }

private:
    fs::path folder_;
};

// From an event to the end of the frame in which it shows: the one that reads it.
double answered(Stage& stage, float x, float y) {
    const Clock::time_point start = Clock::now();
    ImGui::GetIO().MousePos = {x, y};
    stage.frame();
    return secondsSince(start);
}

// The scrubber dragged over the lanes by steps of many sizes, as hands do.
FrameTimes scrubbed(Stage& stage, int events) {
    const Rect lanes = stage.app().timelinePlace();
    const float y = lanes.y + 14 * stage.app().fonts().scale;
    ImGui::GetIO().MousePos = {lanes.x + 0.5f * lanes.w, y};
    stage.frame();
    ImGui::GetIO().MouseDown[0] = true;
    stage.frame();
    FrameTimes times;
    for (int i = 0; i < events; ++i) {
        const double share = 0.5 + 0.33 * std::sin(0.21 * i) + 0.06 * std::sin(2.3 * i);
        times.add(answered(stage, lanes.x + static_cast<float>(share) * lanes.w, y));
    }
    ImGui::GetIO().MouseDown[0] = false;
    stage.frame();
    return times;
}

// The camera turned with the mouse while the job plays.
FrameTimes turned(Stage& stage, const Startup& startup, int events) {
    const float x = 0.45f * static_cast<float>(startup.width), y = 0.35f * static_cast<float>(startup.height);
    stage.app().setTime(0.3 * stage.app().cycleTimeS());
    InputEvent space;
    space.key = Key::Space;
    stage.app().input(space);
    ImGui::GetIO().MousePos = {x, y};
    stage.frame();
    ImGui::GetIO().MouseDown[0] = true;
    stage.frame();
    FrameTimes times;
    for (int i = 0; i < events; ++i) {
        const Clock::time_point start = Clock::now();
        ImGui::GetIO().MousePos = {x + 60 * std::sin(0.1f * static_cast<float>(i)), y};
        stage.frame();  // the camera turns in the frame that reads the mouse
        times.add(secondsSince(start));
    }
    ImGui::GetIO().MouseDown[0] = false;
    stage.frame();
    return times;
}

void answerTimes(const Startup& startup) {
    const ManyMovesJob job(startup.benchMoves);
    const Clock::time_point start = Clock::now();
    Stage stage(startup, job.program());
    const Trial* trial = stage.app().session().trial();
    if (!trial) {
        fmt::print("\nThe job of many moves made no trial: {}\n", stage.app().session().message);
        return;
    }
    fmt::print("\nfrom the mouse to the finished frame, a job of {} moves (its trial and first picture: {:.1f} s)\n",
               trial->toolpath.moves.size(), secondsSince(start));
    stage.app().setQuality(startup.quality.value_or(QualityChoice::Automatic));
    const int events = std::max(100, startup.benchFrames);
    const FrameTimes scrub = scrubbed(stage, events), turn = turned(stage, startup, events);
    fmt::print("time dragged, ms: median {:.1f}   99 % {:.1f}   worst {:.1f}\n", 1e3 * scrub.percentile(0.5),
               1e3 * scrub.percentile(0.99), 1e3 * scrub.percentile(1));
    fmt::print("camera turned while playing, ms: median {:.1f}   99 % {:.1f}   worst {:.1f}\n",
               1e3 * turn.percentile(0.5), 1e3 * turn.percentile(0.99), 1e3 * turn.percentile(1));
}

}  // namespace

std::string manyMovesProgram(int moves) {
    constexpr int kOfAPass = 4000;
    std::string text = "%\nO0001 (MANY MOVES)\nG28 U0 W0\nG50 S2800\nT0101\nG96 S240 M03\nG00 X52. Z2.\n";
    double diameter = 49;
    for (int made = 0; made < moves; diameter -= 20.0 * kOfAPass / std::max(moves, kOfAPass)) {
        text += fmt::format("G00 X{:.3f} Z1.\n", diameter);
        for (int i = 1; i <= kOfAPass && made < moves; ++i, ++made) {
            text +=
                fmt::format("G01 X{:.3f} Z{:.3f} F0.15\n", diameter + 0.05 * std::sin(0.05 * i), -40.0 * i / kOfAPass);
        }
        text += "G00 X52.\nZ1.\n";
    }
    text += "G28 U0 W0\nM30\n%\n";
    return text;
}

void runBench(const Startup& startup) {
    const Clock::time_point start = Clock::now();
    const OffscreenContext offscreen;
    const ImguiContext imgui;
    ImGui_ImplOpenGL3_Init("#version 410 core");
    {
        Stage stage(startup, {});
        fmt::print("{}\n{} x {} pixels, {}\ntime to the first picture {:.2f} s, trial and all\n", describeOpenGl(),
                   startup.width, startup.height, stage.app().session().programName(), secondsSince(start));
        playAtEachQuality(stage, startup);
    }
    if (startup.benchMoves > 0) answerTimes(startup);
    ImGui_ImplOpenGL3_Shutdown();
}

}  // namespace firstoff::gui
