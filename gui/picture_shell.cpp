#include "gui/picture_shell.h"

#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <cstdio>

#include "gui/app.h"
#include "gui/file_io.h"
#include "gui/finish_shell.h"
#include "gui/gl/framebuffer.h"
#include "gui/gl/offscreen.h"
#include "gui/gl/png.h"
#include "gui/imgui_context.h"

namespace firstoff::gui {

namespace {

Image windowPicture(App& app, const Startup& startup) {
    Framebuffer target(startup.width, startup.height, 1);
    // The first frames lay out text and scroll to the line; the last one is kept.
    constexpr int kFrames = 4;
    for (int i = 0; i < kFrames; ++i) {
        if (i == 1) app.settle(startup);
        ImGui_ImplOpenGL3_NewFrame();
        ImGui::NewFrame();
        app.frame(i * 1.0 / 60);
        ImGui::Render();
    }
    target.bind();
    const ImVec4 ground = tint(app.ground());
    glClearColor(ground.x, ground.y, ground.z, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    return target.read();
}

Image finishPicture(App& app, const Startup& startup) {
    app.settle(startup);
    const FinishReport report = finishOnScreen(app);
    FinishPicture picture;
    Framebuffer target(startup.width, startup.height, 4);
    ImGui_ImplOpenGL3_NewFrame();
    ImGui::NewFrame();
    target.bind();
    drawFinish(app, report, picture, startup.width, startup.height, startup.sceneOnly);
    ImGui::Render();
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    return target.read();
}

}  // namespace

void drawPicture(const Startup& startup) {
    const OffscreenContext offscreen;
    const ImguiContext imgui;
    ImGui_ImplOpenGL3_Init("#version 410 core");
    {
        App app(startup, {});
        // Nobody is there to read a message in the picture.
        if (app.session().programPath.empty() || (startup.setup && app.session().setupPath.empty())) {
            throw FileError(app.session().message);
        }
        if (!app.session().message.empty())
            std::fprintf(stderr, "firstoff-window: %s\n", app.session().message.c_str());
        ImGuiIO& io = ImGui::GetIO();
        io.DisplaySize = {static_cast<float>(startup.width), static_cast<float>(startup.height)};
        io.DeltaTime = 1.0f / 60;
        app.prepare(1);
        ImGui_ImplOpenGL3_CreateFontsTexture();
        drawTypePixelForPixel();
        if (startup.finishView) {
            savePng(*startup.picture, finishPicture(app, startup));
        } else {
            savePng(*startup.picture, windowPicture(app, startup));
        }
    }
    ImGui_ImplOpenGL3_Shutdown();
}

}  // namespace firstoff::gui
