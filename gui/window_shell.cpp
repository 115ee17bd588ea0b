#include "gui/window_shell.h"

#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

#include "gui/app.h"
#include "gui/file_io.h"
#include "gui/gl/loader.h"
#include "gui/gl/png.h"
#include "gui/glfw_input.h"
#include "gui/imgui_context.h"
#include "gui/pane_surface.h"
#include "gui/state_report.h"
#include "gui/video_export.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

std::string lastGlfwError() {
    const char* text = nullptr;
    glfwGetError(&text);
    return text ? text : tr("no reason given");
}

class Glfw {
public:
    Glfw() {
        if (!glfwInit())
            throw GraphicsError(
                say("There is no display to open a window on ({}). Use --picture FILE.png to draw without one.",
                    lastGlfwError()));
    }
    ~Glfw() { glfwTerminate(); }
    Glfw(const Glfw&) = delete;
    Glfw& operator=(const Glfw&) = delete;
};

class Window {
public:
    Window(int width, int height) : Window(width, height, true) {}
    ~Window() { glfwDestroyWindow(handle_); }
    Window(const Window&) = delete;
    Window& operator=(const Window&) = delete;
    GLFWwindow* handle() const { return handle_; }

    // The driver has given up what it drew with: nothing of it is of use any more.
    bool lost() const { return resetStatus_ != nullptr && resetStatus_() != GL_NO_ERROR; }

private:
    using ResetStatus = GLenum (*)();

    Window(int width, int height, bool robust) {
        glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 4);
        glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 1);
        glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
        glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);
        glfwWindowHint(GLFW_DEPTH_BITS, 0);
        // So that it is told when the driver starts anew, after a fault or a sleep.
        glfwWindowHint(GLFW_CONTEXT_ROBUSTNESS, robust ? GLFW_LOSE_CONTEXT_ON_RESET : GLFW_NO_ROBUSTNESS);
        handle_ = glfwCreateWindow(width, height, "firstoff", nullptr, nullptr);
        if (!handle_ && robust) {
            // Not every driver has such a context.
            glfwWindowHint(GLFW_CONTEXT_ROBUSTNESS, GLFW_NO_ROBUSTNESS);
            handle_ = glfwCreateWindow(width, height, "firstoff", nullptr, nullptr);
        }
        if (!handle_) throw GraphicsError(say("No window with OpenGL 4.1 could be opened: {}.", lastGlfwError()));
        glfwMakeContextCurrent(handle_);
        loadOpenGl([](const char* function) -> ProcAddress { return glfwGetProcAddress(function); });
        for (const char* function : {"glGetGraphicsResetStatus", "glGetGraphicsResetStatusARB"}) {
            if (!resetStatus_) resetStatus_ = reinterpret_cast<ResetStatus>(glfwGetProcAddress(function));
        }
    }

    GLFWwindow* handle_ = nullptr;
    ResetStatus resetStatus_ = nullptr;
};

class ImguiBackend {
public:
    explicit ImguiBackend(GLFWwindow* window) {
        ImGui_ImplGlfw_InitForOpenGL(window, true);
        ImGui_ImplOpenGL3_Init("#version 410 core");
    }
    ~ImguiBackend() {
        ImGui_ImplOpenGL3_Shutdown();
        ImGui_ImplGlfw_Shutdown();
    }
    ImguiBackend(const ImguiBackend&) = delete;
    ImguiBackend& operator=(const ImguiBackend&) = delete;
};

float displayScale(GLFWwindow* window) {
    float x = 1;
    float y = 1;
    glfwGetWindowContentScale(window, &x, &y);
    return std::clamp(std::max(x, y), 0.5f, 4.0f);
}

// What is shown on the display.
struct Screen {
    GLFWwindow* window = nullptr;
    PaneSurface panes;
};

void renderFrame(App& app, Screen& screen) {
    if (app.prepare(displayScale(screen.window))) {
        ImGui_ImplOpenGL3_DestroyFontsTexture();
        ImGui_ImplOpenGL3_CreateFontsTexture();
        drawTypePixelForPixel();
        screen.panes.forget();
    }
    ImGui_ImplOpenGL3_NewFrame();
    ImGui_ImplGlfw_NewFrame();
    ImGui::NewFrame();
    app.frame(glfwGetTime());
    ImGui::Render();
    glBindFramebuffer(GL_FRAMEBUFFER, 0);
    screen.panes.paint(app.ground(), app.shownPicture());
}

void drawFrame(App& app, Screen& screen) {
    renderFrame(app, screen);
    glfwSwapBuffers(screen.window);
}

// What the window system's callbacks reach.
struct Heard {
    std::atomic<bool> something{true};  // since the loop last asked; the workers' word that they are done counts
    App* app = nullptr;
};

Heard& heardBy(GLFWwindow* window) {
    return *static_cast<Heard*>(glfwGetWindowUserPointer(window));
}

void onDrop(GLFWwindow* window, int count, const char** paths) {
    std::vector<std::filesystem::path> files(paths, paths + count);
    heardBy(window).something = true;
    heardBy(window).app->dropFiles(files);
}

void onClose(GLFWwindow* window) {
    glfwSetWindowShouldClose(window, GLFW_FALSE);  // the application may want to ask first
    heardBy(window).something = true;
    heardBy(window).app->askToClose();
}

// Before the backend of the drawing library, which calls on what was set before it. Keys are the listener's.
void hear(GLFWwindow* window, Heard& heard) {
    glfwSetWindowUserPointer(window, &heard);
    glfwSetDropCallback(window, onDrop);
    glfwSetWindowCloseCallback(window, onClose);
    glfwSetCursorPosCallback(window, [](GLFWwindow* at, double, double) { heardBy(at).something = true; });
    glfwSetCursorEnterCallback(window, [](GLFWwindow* at, int) { heardBy(at).something = true; });
    glfwSetMouseButtonCallback(window, [](GLFWwindow* at, int, int, int) { heardBy(at).something = true; });
    glfwSetScrollCallback(window, [](GLFWwindow* at, double, double) { heardBy(at).something = true; });
    glfwSetWindowFocusCallback(window, [](GLFWwindow* at, int) { heardBy(at).something = true; });
    glfwSetWindowIconifyCallback(window, [](GLFWwindow* at, int) { heardBy(at).something = true; });
    glfwSetWindowRefreshCallback(window, [](GLFWwindow* at) { heardBy(at).something = true; });
    glfwSetFramebufferSizeCallback(window, [](GLFWwindow* at, int, int) { heardBy(at).something = true; });
    glfwSetWindowContentScaleCallback(window, [](GLFWwindow* at, float, float) { heardBy(at).something = true; });
}

void setTitle(GLFWwindow* window, const App& app, std::string& shown) {
    std::string title = app.title();
    if (title == shown) return;
    glfwSetWindowTitle(window, title.c_str());
    shown = std::move(title);
}

Image pixelsOf(GLFWwindow* window) {
    int width = 0, height = 0;
    glfwGetFramebufferSize(window, &width, &height);
    glBindFramebuffer(GL_READ_FRAMEBUFFER, 0);
    glReadBuffer(GL_BACK);
    return readPixels(width, height);
}

// The picture as it was drawn last. Drawn once more, since what was shown to the display need not be kept.
Image picture(App& app, Screen& screen) {
    renderFrame(app, screen);
    return pixelsOf(screen.window);
}

// Every frame of the stretch at the pace it is played at. Escape or closing the window ends it without a file.
void writeVideo(App& app, Screen& screen, const std::filesystem::path& path) {
    GLFWwindow* window = screen.window;
    const Session& session = app.session();
    const TimeSpan span = session.loop.value_or(TimeSpan{0, app.cycleTimeS()});
    const double stepS = session.view.playSpeed / VideoExport::kFramesPerSecond;
    const auto frames = static_cast<long>(std::ceil((span.toS - span.fromS) / stepS)) + 1;
    const double before = session.timeS;
    int width = 0, height = 0;
    glfwGetFramebufferSize(window, &width, &height);
    VideoExport video(path, width, height);
    for (long i = 0; i < frames; ++i) {
        glfwPollEvents();
        if (glfwGetKey(window, GLFW_KEY_ESCAPE) == GLFW_PRESS || app.closed())
            throw FileError(tr("The video was given up; nothing was written."));
        app.setTime(std::min(span.toS, span.fromS + static_cast<double>(i) * stepS));
        video.add(picture(app, screen));
        glfwSwapBuffers(window);
        if (i % 15 == 0) {
            const std::string title =
                say("video {:.0f} % (Escape ends it)", 100.0 * static_cast<double>(i) / static_cast<double>(frames));
            glfwSetWindowTitle(window, title.c_str());
        }
    }
    video.finish();
    app.setTime(before);
}

void carryOutWishes(App& app, Screen& screen) {
    const std::filesystem::path still = app.takePictureWish(), film = app.takeVideoWish();
    try {
        if (!still.empty()) savePng(still, picture(app, screen));
        if (!film.empty()) writeVideo(app, screen, film);
        if (!still.empty() || !film.empty()) app.tell(say("Written: {}", (still.empty() ? film : still).string()));
    } catch (const std::exception& error) {
        app.tell(error.what());
    }
}

// A driver cannot be made to fail by order; FIRSTOFF_GL_LOSE names the frame after which it counts as lost, once.
bool lostForTrial() {
    static long left = [] {
        const char* text = std::getenv("FIRSTOFF_GL_LOSE");
        return text ? std::strtol(text, nullptr, 10) : 0;
    }();
    return left > 0 && --left == 0;
}

// Draws while something moves, sleeps while nothing does. After every event, whenever it came, a few frames more: the
// drawing library needs them to settle what the event changed.
// False when the window's OpenGL was lost.
bool loop(App& app, const Window& shown, KeyListener& keys, Heard& heard, StateReport& report) {
    GLFWwindow* window = shown.handle();
    Screen screen{window, {}};
    constexpr int kSettlingFrames = 4;
    int frames = kSettlingFrames;
    std::string title;
    while (!app.closed()) {
        const double rest = frames > 0 ? 0 : app.restS();
        if (rest <= 0) {
            glfwPollEvents();
        } else {
            glfwWaitEventsTimeout(rest);
        }
        const bool came = heard.something.exchange(false);
        frames = keys.heard() || came ? kSettlingFrames : std::max(0, frames - 1);
        if (glfwGetWindowAttrib(window, GLFW_ICONIFIED)) {
            glfwWaitEventsTimeout(0.5);
            continue;
        }
        drawFrame(app, screen);
        if (shown.lost() || lostForTrial()) return false;
        keys.frameDone();
        carryOutWishes(app, screen);
        setTitle(window, app, title);
        report.write(app);
    }
    return true;
}

// One window, from opening to closing. Nothing when it was closed; else what it was about when its OpenGL was lost.
std::optional<Session> runOnce(const Startup& startup, int width, int height, const std::optional<Session>& before) {
    const Window window(width, height);
    glfwSetWindowSizeLimits(window.handle(), 320, 240, GLFW_DONT_CARE, GLFW_DONT_CARE);
    glfwSwapInterval(1);
    const ImguiContext imgui;
    Heard heard;
    App app(startup, [&heard] {
        heard.something = true;
        glfwPostEmptyEvent();
    });
    if (before) app.takeUp(*before);
    heard.app = &app;
    hear(window.handle(), heard);
    const ImguiBackend backend(window.handle());
    KeyListener keys(window.handle(), [&app](const InputEvent& event) { app.input(event); });
    StateReport report(startup.report);
    const bool closed = loop(app, window, keys, heard, report);
    int w = 0;
    int h = 0;
    glfwGetWindowSize(window.handle(), &w, &h);
    app.rememberWindow(w, h);
    glfwSetWindowUserPointer(window.handle(), nullptr);
    if (closed) return std::nullopt;
    Session kept = app.session();
    kept.message = tr("The graphics driver started anew. The window was opened again with all that stood in it.");
    return kept;
}

}  // namespace

void runWindow(const Startup& startup) {
    const Glfw glfw;
    const ViewSettings view = loadViewSettings();
    const int width = startup.sizeGiven || view.windowWidth == 0 ? startup.width : view.windowWidth;
    const int height = startup.sizeGiven || view.windowHeight == 0 ? startup.height : view.windowHeight;
    std::optional<Session> kept;
    constexpr int kAttempts = 3;  // a driver that is lost again and again is not waited for for ever
    for (int attempt = 0; attempt < kAttempts; ++attempt) {
        kept = runOnce(startup, width, height, kept);
        if (!kept) return;
    }
    throw GraphicsError(
        tr("The graphics driver started anew three times. What was typed and not saved is offered when the program is "
           "opened again."));
}

}  // namespace firstoff::gui
