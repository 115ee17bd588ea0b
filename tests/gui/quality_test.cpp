// What the levels of quality and the ways with neighbours do to the picture, told by its pixels.
#include "gui/scene/quality.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <memory>
#include <optional>
#include <vector>

#include "gui/gl/offscreen.h"
#include "gui/gl/picture.h"
#include "gui/scene/lathe_scene.h"
#include "gui/view_settings.h"
#include "tests/gui/picture_job.h"

namespace firstoff::gui {
namespace {

constexpr int kWidth = 480, kHeight = 300;

// The spigot half finished, at any options.
class Studio {
public:
    Studio() {
        scene_.setTrial(trial_);
        instant_ = scene_.at(60, &cursor_);
    }
    const Trial& trial() const { return *trial_; }
    const SceneInstant& instant() const { return instant_; }
    LatheScene& scene() { return scene_; }
    Camera camera(ViewName view) const { return scene_.view(view, instant_, static_cast<float>(kWidth) / kHeight); }
    Image draw(const SceneOptions& options, const Camera& camera) {
        Picture picture;
        picture.begin(kWidth, kHeight, Edges::Quick);
        scene_.draw(instant_, camera, options, kWidth, kHeight);
        picture.finish();
        return picture.read();
    }

private:
    struct Software {
        Software() { setenv("LIBGL_ALWAYS_SOFTWARE", "1", 1); }
    } software_;
    OffscreenContext context_;
    std::shared_ptr<const Trial> trial_ = pictureJob();
    StockCursor cursor_{trial_->stock};
    LatheScene scene_;
    SceneInstant instant_;
};

int brightness(const Image& image, int x, int y) {
    const std::size_t at =
        3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(image.width) + static_cast<std::size_t>(x));
    return image.rgb[at] + image.rgb[at + 1] + image.rgb[at + 2];
}

// How many pixels are darker in `a` than in `b` by more than a driver's rounding.
int darker(const Image& a, const Image& b) {
    int count = 0;
    for (int y = 0; y < a.height; ++y) {
        for (int x = 0; x < a.width; ++x) count += brightness(a, x, y) + 30 < brightness(b, x, y);
    }
    return count;
}

TEST(Quality, NamesAreReadAndWrittenAlike) {
    for (const Quality quality : kQualities) {
        EXPECT_EQ(qualityNamed(name(quality)), quality);
        EXPECT_EQ(fixedQuality(choiceOf(quality)), quality);
    }
    EXPECT_EQ(qualityNamed("best"), std::nullopt);
}

TEST(Quality, FineCastsShadowsAndFinestDarkensNooks) {
    Studio studio;
    const Camera camera = studio.camera(ViewName::Part);
    SceneOptions options;
    options.quality = Quality::Plain;
    const Image plain = studio.draw(options, camera);
    options.quality = Quality::Fine;
    const Image fine = studio.draw(options, camera);
    options.quality = Quality::Finest;
    const Image finest = studio.draw(options, camera);
    constexpr int kArea = kWidth * kHeight / 100;  // a hundredth of the picture: the shadow of a jaw is larger
    EXPECT_GT(darker(fine, plain), kArea);
    EXPECT_GT(darker(finest, fine), kArea / 4);
}

// The same picture, whatever was drawn before: shadows are not kept too long.
TEST(Quality, ShadowsFollowWhatCastsThem) {
    Studio studio;
    const Camera camera = studio.camera(ViewName::Part);
    SceneOptions options;
    const Image before = studio.draw(options, camera);
    options.hidden = kChuckKinds | kTurretKinds;
    studio.draw(options, camera);
    options.hidden = 0;
    const Image after = studio.draw(options, camera);
    EXPECT_EQ(before.rgb, after.rgb);
}

// Distances between the dark lines of the section along one row of pixels.
std::vector<int> spacings(const Image& image, int y, int from, int to) {
    std::vector<int> steps;
    int last = -1;
    for (int x = from + 1; x < to - 1; ++x) {
        const int here = brightness(image, x, y);
        const bool dark = here < brightness(image, x - 1, y) && here <= brightness(image, x + 1, y) &&
                          here + 25 < std::max(brightness(image, x - 3, y), brightness(image, x + 3, y));
        if (!dark) continue;
        if (last >= 0) steps.push_back(x - last);
        last = x;
    }
    return steps;
}

// ISO 128-50: lines at 45 degrees, evenly apart. Ten pixels square to them are 14.1 along a row, at any zoom.
TEST(Section, IsHatchedEvenlyAtAnyZoom) {
    Studio studio;
    SceneOptions options;
    options.cutaway = Cutaway::Half;
    options.hidden = kChuckKinds | kTurretKinds;
    options.showMarks = false;
    const double datumZ = studio.trial().setup.workOffsets[0].z;
    for (const float nearer : {1.0f, 1.31f, 1.9f, 2.7f}) {
        Camera camera = studio.camera(ViewName::Part);
        camera.target = {static_cast<float>(datumZ) - 52, 8, 0};  // in the flange, which nothing has hollowed
        camera.distance /= nearer;
        const Image image = studio.draw(options, camera);
        std::vector<int> steps = spacings(image, kHeight / 2, kWidth / 2 - 60, kWidth / 2 + 60);
        ASSERT_GE(steps.size(), 5u) << nearer;
        std::sort(steps.begin(), steps.end());
        EXPECT_NEAR(steps[steps.size() / 2], 10 * std::sqrt(2.0), 1.5) << nearer;  // whole pixels
    }
}

}  // namespace
}  // namespace firstoff::gui
