#include "tests/gui/window_bench.h"

#include <gtest/gtest.h>

#include <chrono>
#include <thread>

namespace firstoff::gui {

namespace {

Startup startupFor(const std::filesystem::path& program, const std::filesystem::path& stateFolder,
                   const std::filesystem::path& settingsFile) {
    Startup startup;
    if (!program.empty()) startup.program = program;
    // A picture: the user's own settings are neither read nor written.
    startup.picture = "unused.png";
    startup.stateFolder = stateFolder;
    startup.settingsFile = settingsFile;
    return startup;
}

}  // namespace

WindowBench::WindowBench(const std::filesystem::path& program, int width, int height,
                         const std::filesystem::path& stateFolder, const std::filesystem::path& settingsFile)
    : WindowBench(startupFor(program, stateFolder, settingsFile), width, height) {}

WindowBench::WindowBench(const Startup& startup, int width, int height) {
    ImGui_ImplOpenGL3_Init("#version 410 core");
    // The drawing library insists on it where keys walk through a page.
    ImGui::GetIO().KeyMap[ImGuiKey_Space] = ImGuiKey_Space;
    app_ = std::make_unique<App>(startup, std::function<void()>());
    resize(width, height);
    app_->prepare(1);
    settle();
    frames(3);
}

WindowBench::~WindowBench() {
    app_.reset();
    ImGui_ImplOpenGL3_Shutdown();
}

void WindowBench::resize(int width, int height) {
    ImGui::GetIO().DisplaySize = {static_cast<float>(width), static_cast<float>(height)};
}

void WindowBench::frames(int count) {
    for (int i = 0; i < count; ++i) {
        now_ += 1.0 / 60;
        ImGui::GetIO().DeltaTime = 1.0f / 60;
        if (app_->prepare(1)) {
            ImGui_ImplOpenGL3_DestroyFontsTexture();
            ImGui_ImplOpenGL3_CreateFontsTexture();
        }
        ImGui_ImplOpenGL3_NewFrame();
        ImGui::NewFrame();
        app_->frame(now_);
        ImGui::Render();
    }
}

void WindowBench::settle() {
    frames(1);
    for (int i = 0;
         i < kPatienceFrames && ((session().stale() && !session().programPath.empty()) || session().progress.busy);
         ++i) {
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
        frames(1);
    }
    EXPECT_TRUE(!session().stale() || session().programPath.empty()) << "no trial came";
}

void WindowBench::settleFinish() {
    const auto wanting = [this] {
        const auto& wanted = session().finishWanted;
        return wanted && !(session().finish && session().finish->question == *wanted);
    };
    frames(2);
    for (int i = 0; i < kPatienceFrames && wanting(); ++i) {
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
        frames(1);
    }
    EXPECT_FALSE(wanting()) << "no finish came";
}

void WindowBench::press(Key key, bool ctrl, bool shift, bool alt) {
    InputEvent event;
    event.key = key;
    event.ctrl = ctrl;
    event.shift = shift;
    event.alt = alt;
    app_->input(event);
    frames(1);
}

void WindowBench::pressCtrl(char letter, bool shift) {
    InputEvent event;
    event.key = Key::Character;
    event.symbol = letter;
    event.ctrl = true;
    event.shift = shift;
    app_->input(event);
    frames(1);
}

void WindowBench::pressLetter(char letter, bool shift) {
    InputEvent event;
    event.key = Key::Character;
    event.symbol = letter;
    event.shift = shift;
    app_->input(event);
    frames(2);
}

void WindowBench::type(std::string_view ascii) {
    for (const char c : ascii) {
        InputEvent event;
        event.character = static_cast<char32_t>(c);
        app_->input(event);
    }
    frames(1);
}

void WindowBench::typeIntoField(std::string_view ascii) {
    for (const char c : ascii) {
        ImGui::GetIO().AddInputCharacter(static_cast<unsigned>(c));
        frames(1);
    }
}

void WindowBench::moveTo(float x, float y) {
    ImGui::GetIO().MousePos = {x, y};
    frames(2);
}

void WindowBench::click(float x, float y) {
    moveTo(x, y);
    ImGui::GetIO().MouseDown[0] = true;
    frames(2);
    ImGui::GetIO().MouseDown[0] = false;
    frames(2);
    now_ += 1;  // the next click is no double click
}

void WindowBench::doubleClick(float x, float y) {
    moveTo(x, y);
    for (int i = 0; i < 2; ++i) {
        ImGui::GetIO().MouseDown[0] = true;
        frames(2);
        ImGui::GetIO().MouseDown[0] = false;
        frames(2);
    }
    now_ += 1;
}

void WindowBench::drag(float x0, float y0, float x1, float y1, int button) {
    moveTo(x0, y0);
    ImGui::GetIO().MouseDown[button] = true;
    frames(2);
    for (int i = 1; i <= 4; ++i)
        moveTo(x0 + (x1 - x0) * static_cast<float>(i) / 4, y0 + (y1 - y0) * static_cast<float>(i) / 4);
    ImGui::GetIO().MouseDown[button] = false;
    frames(2);
}

void WindowBench::wheel(float notches) {
    ImGui::GetIO().MouseWheel = notches;
    frames(2);
}

void WindowBench::openPage(std::string_view tab) {
    const Rect place = app_->tabPlace(tab);
    ASSERT_FALSE(place.empty()) << tab;
    click(place.x + 0.5f * place.w, place.y + 0.5f * place.h);
}

Image WindowBench::picture() {
    const ImVec2 size = ImGui::GetIO().DisplaySize;
    frames(1);
    const Framebuffer target(static_cast<int>(size.x), static_cast<int>(size.y), 1);
    target.bind();
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    return target.read();
}

ImVec2 WindowBench::line(int number) {
    return {1060, 60.0f + 18.0f * static_cast<float>(number - 1)};
}

}  // namespace firstoff::gui
