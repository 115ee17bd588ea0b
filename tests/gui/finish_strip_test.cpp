// The close picture of feed marks: its shape, and against one that somebody has looked at.
#include "gui/scene/finish_strip.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>

#include "gui/gl/offscreen.h"
#include "gui/gl/picture.h"
#include "tests/gui/golden.h"
#include "tests/gui/picture_job.h"

namespace firstoff::gui {
namespace {

constexpr BlockId kShank = 15;     // "Z-22." of the picture job, finished with a nose of 0.4 at 0.15
constexpr BlockId kShoulder = 19;  // "X46. C1."

FinishReport finishOfLine(BlockId block) {
    return finishOfSurface(*pictureJob(), block, std::nullopt).value();
}

TEST(FinishStrip, HasTheProfileToTheScaleItStates) {
    const FinishReport report = finishOfLine(kShank);
    const FinishStrip strip = finishStrip(report);
    ASSERT_TRUE(report.theory);
    EXPECT_NEAR(strip.lengthMm, 8 * 0.15, 1e-9);  // eight feed marks
    float lowest = 1e9f, highest = 0;
    for (std::size_t i = 0; i < strip.edge.size(); ++i) {
        lowest = std::min(lowest, strip.edge[i].y);
        highest = std::max(highest, strip.edge[i].y);
        EXPECT_TRUE(i == 0 || strip.edge[i].x > strip.edge[i - 1].x) << i;
    }
    EXPECT_FLOAT_EQ(lowest, static_cast<float>(kStripFloor));
    // A cusp as tall as the nose formula says; a thousandth for single precision.
    const double tallest = strip.unitsOfHeight(report.theory->rtCircle);
    EXPECT_NEAR(highest - lowest, tallest, 1e-3 * tallest);
    // Its ends are those of a strip, to within a few of the points.
    EXPECT_NEAR(strip.edge.front().x, -kStripLength / 2, 0.5);
    EXPECT_NEAR(strip.edge.back().x, kStripLength / 2, 0.5);
    for (const Vertex& v : strip.skin.vertices) EXPECT_GT(v.normal.y, 0);
}

struct Row {
    const char* name;
    BlockId block;
    bool dark;
};

class GoldenPictureOfFinish : public testing::TestWithParam<Row> {};

TEST_P(GoldenPictureOfFinish, LooksAsItDidWhenSomebodyLooked) {
    setenv("LIBGL_ALWAYS_SOFTWARE", "1", 1);  // one driver for all machines, as far as that goes
    const OffscreenContext context;
    if (!isSoftwareOpenGl()) GTEST_SKIP() << "golden pictures are those of software OpenGL";
    FinishPicture finish;
    Picture picture;
    picture.begin(480, 300, Edges::Fine);
    finish.draw(finishStrip(finishOfLine(GetParam().block)), GetParam().dark, 480, 300);
    picture.finish();
    EXPECT_EQ(glGetError(), GLenum{GL_NO_ERROR});
    expectGolden(GetParam().name, picture.read());
}

INSTANTIATE_TEST_SUITE_P(Marks, GoldenPictureOfFinish,
                         testing::Values(Row{"feed-marks-turned", kShank, true},
                                         Row{"feed-marks-faced", kShoulder, false}),
                         [](const testing::TestParamInfo<Row>& row) {
                             std::string name = row.param.name;
                             std::replace(name.begin(), name.end(), '-', '_');
                             return name;
                         });

}  // namespace
}  // namespace firstoff::gui
