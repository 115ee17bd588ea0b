// The whole application without a display, driven as a user would: keys, characters and the mouse.
#pragma once

#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <filesystem>
#include <string_view>

#include "gui/app.h"
#include "gui/gl/framebuffer.h"
#include "gui/gl/offscreen.h"
#include "gui/imgui_context.h"

namespace firstoff::gui {

class WindowBench {
public:
    explicit WindowBench(const std::filesystem::path& program, int width = 1280, int height = 800,
                         const std::filesystem::path& stateFolder = {}, const std::filesystem::path& settingsFile = {});
    // As this command line says.
    explicit WindowBench(const Startup& startup, int width = 1280, int height = 800);
    ~WindowBench();

    App& app() { return *app_; }
    const Session& session() const { return app_->session(); }
    const Trial& trial() const { return *session().trial(); }

    void frames(int count = 1);
    // Until the trial of the text as it stands is shown. Fails the test after `kPatienceFrames`.
    void settle();
    // Until the finish that the window wants to show is there. Fails the test after `kPatienceFrames`.
    void settleFinish();
    void resize(int width, int height);

    void press(Key key, bool ctrl = false, bool shift = false, bool alt = false);
    void pressCtrl(char letter, bool shift = false);
    void pressLetter(char letter, bool shift = false);
    void type(std::string_view ascii);
    // Into the field of the drawing library that has the keyboard.
    void typeIntoField(std::string_view ascii);
    void moveTo(float x, float y);
    void click(float x, float y);
    void click(ImVec2 at) { click(at.x, at.y); }
    void doubleClick(float x, float y);
    void drag(float x0, float y0, float x1, float y1, int button = 0);
    void wheel(float notches);
    // Clicks the tab whose name in English begins so; fails the test where there is none in sight.
    void openPage(std::string_view tab);
    Image picture();

    // Where line `number` (1-based) of the program stands on screen when the first line is on top, at 1280 x 800.
    static ImVec2 line(int number);

private:
    static constexpr int kPatienceFrames = 2000;
    OffscreenContext offscreen_;
    ImguiContext imgui_;
    std::unique_ptr<App> app_;
    double now_ = 0;
};

}  // namespace firstoff::gui
