// Painting only what changed, held pixel for pixel against painting everything.
#include "gui/repaint_plan.h"

#include <backends/imgui_impl_opengl3.h>
#include <gtest/gtest.h>

#include <random>
#include <string>

#include "gui/gl/framebuffer.h"
#include "gui/gl/offscreen.h"
#include "gui/imgui_context.h"
#include "gui/pane_surface.h"
#include "gui/theme.h"

namespace firstoff::gui {
namespace {

constexpr int kWidth = 400, kHeight = 300;
constexpr Colour kGround{20, 24, 28};

// Shapes of the sort that panes draw: a picture, filled and blended fields, lines, text; some move, most rest.
struct Drawn {
    struct Thing {
        int kind;
        float x, y, w, h;
        ImU32 colour;
    };
    std::vector<Thing> things;
    ImTextureID picture = nullptr;

    void draw() const {
        ImDrawList& list = *ImGui::GetBackgroundDrawList();
        list.AddImage(picture, {10, 10}, {150, 120}, {0, 1}, {1, 0});
        for (const Thing& t : things) {
            const ImVec2 from{t.x, t.y}, to{t.x + t.w, t.y + t.h};
            if (t.kind == 0) list.AddRectFilled(from, to, t.colour, 4);
            if (t.kind == 1) list.AddCircle(from, t.w, t.colour, 24, 1.5f);
            if (t.kind == 2) list.AddText(from, t.colour, "G01 X48. Z-20. F0.2");
            if (t.kind == 3) {
                list.PushClipRect(from, to);
                list.AddLine({0, 0}, {kWidth, kHeight}, t.colour, 3);
                list.PopClipRect();
            }
        }
    }
};

class Repaint : public testing::Test {
protected:
    Repaint() {
        ImGui_ImplOpenGL3_Init("#version 410 core");
        ImGui::GetIO().DisplaySize = {kWidth, kHeight};
        ImGui::GetIO().DeltaTime = 1.0f / 60;
        loadFonts(1);
        ImGui_ImplOpenGL3_CreateFontsTexture();
        drawTypePixelForPixel();
    }
    ~Repaint() override { ImGui_ImplOpenGL3_Shutdown(); }

    static void make(const Drawn& drawn) {
        ImGui_ImplOpenGL3_NewFrame();
        ImGui::NewFrame();
        drawn.draw();
        ImGui::Render();
    }
    Image whole(const Drawn& drawn) {
        make(drawn);
        target_.bind();
        const ImVec4 ground = tint(kGround);
        glClearColor(ground.x, ground.y, ground.z, 1);
        glClear(GL_COLOR_BUFFER_BIT);
        ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
        return target_.read();
    }
    Image kept(const Drawn& drawn, bool fresh = false) {
        make(drawn);
        target_.bind();
        surface_.paint(kGround, {drawn.picture, fresh});
        return target_.read();
    }

    OffscreenContext offscreen_;
    ImguiContext imgui_;
    Framebuffer target_{kWidth, kHeight, 1};
    PaneSurface surface_;
};

TEST_F(Repaint, GivesThePixelsOfAWholePainting) {
    std::mt19937 dice(20);
    const auto roll = [&](int n) { return static_cast<float>(dice() % static_cast<unsigned>(n)); };
    Framebuffer picture(140, 110, 1);
    Drawn drawn;
    drawn.picture = reinterpret_cast<ImTextureID>(static_cast<std::uintptr_t>(picture.texture()));
    for (int frame = 0; frame < 120; ++frame) {
        const int changes = frame % 7 == 0 ? 40 : static_cast<int>(roll(3));
        for (int i = 0; i < changes; ++i) {
            const Drawn::Thing thing{static_cast<int>(roll(4)),
                                     roll(kWidth + 60) - 30,
                                     roll(kHeight + 60) - 30,
                                     roll(120) + 1,
                                     roll(90) + 1,
                                     IM_COL32(dice() % 256, dice() % 256, dice() % 256, 128 + dice() % 128)};
            if (drawn.things.size() < 60) {
                drawn.things.push_back(thing);
            } else {
                drawn.things[dice() % 60] = thing;
            }
        }
        bool fresh = false;
        if (frame % 5 == 0) {
            picture.bind();
            glClearColor(roll(10) / 10, roll(10) / 10, roll(10) / 10, 1);
            glClear(GL_COLOR_BUFFER_BIT);
            picture.resolve();
            fresh = true;
        }
        const Image a = kept(drawn, fresh), b = whole(drawn);
        ASSERT_EQ(a.rgb, b.rgb) << "frame " << frame;
    }
}

TEST_F(Repaint, PaintsNothingWhereNothingChanged) {
    Drawn drawn;
    for (int i = 0; i < 30; ++i)
        drawn.things.push_back(
            {i % 4, 12.0f * static_cast<float>(i), 9.0f * static_cast<float>(i), 40, 30, IM_COL32(90, 200, 40, 200)});
    RepaintPlan plan;
    make(drawn);
    const std::vector<PixelArea> all{{0, 0, kWidth, kHeight}};
    EXPECT_EQ(plan.cutDown(*ImGui::GetDrawData(), {}), all);
    make(drawn);
    EXPECT_TRUE(plan.cutDown(*ImGui::GetDrawData(), {}).empty());
    EXPECT_EQ(ImGui::GetDrawData()->TotalIdxCount, 0);
    // A field moves by a pixel: the tiles of where it was and is.
    drawn.things[0] = {0, 300, 40, 10, 10, IM_COL32(255, 0, 0, 255)};
    make(drawn);
    plan.cutDown(*ImGui::GetDrawData(), {});
    drawn.things[0].x = 301;
    make(drawn);
    const std::vector<PixelArea> one{{288, 32, 320, 64}};
    EXPECT_EQ(plan.cutDown(*ImGui::GetDrawData(), {}), one);
}

TEST_F(Repaint, AreasAreFewAndLieApart) {
    std::mt19937 dice(3);
    RepaintPlan plan;
    Drawn drawn;
    for (int round = 0; round < 50; ++round) {
        drawn.things.clear();
        for (int i = 0; i < 60; ++i)
            drawn.things.push_back({0, static_cast<float>(dice() % kWidth), static_cast<float>(dice() % kHeight), 3, 3,
                                    IM_COL32(255, 255, 255, 255)});
        make(drawn);
        const auto& areas = plan.cutDown(*ImGui::GetDrawData(), {});
        ASSERT_LE(areas.size(), static_cast<std::size_t>(RepaintPlan::kMostAreas));
        for (std::size_t i = 0; i < areas.size(); ++i) {
            for (std::size_t j = 0; j < i; ++j) {
                const bool apart = areas[i].left >= areas[j].right || areas[j].left >= areas[i].right ||
                                   areas[i].top >= areas[j].bottom || areas[j].top >= areas[i].bottom;
                EXPECT_TRUE(apart) << "round " << round;
            }
        }
    }
}

TEST_F(Repaint, PaintsAllAnewAtAnotherSizeAndAfterForgetting) {
    RepaintPlan plan;
    Drawn drawn;
    make(drawn);
    plan.cutDown(*ImGui::GetDrawData(), {});
    plan.forget();
    make(drawn);
    EXPECT_EQ(plan.cutDown(*ImGui::GetDrawData(), {}).size(), 1u);
    ImGui::GetIO().DisplaySize = {kWidth + 40, kHeight};
    make(drawn);
    const std::vector<PixelArea> all{{0, 0, kWidth + 40, kHeight}};
    EXPECT_EQ(plan.cutDown(*ImGui::GetDrawData(), {}), all);
}

}  // namespace
}  // namespace firstoff::gui
