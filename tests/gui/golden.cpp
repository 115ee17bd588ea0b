#include "tests/gui/golden.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <filesystem>

#include "gui/gl/png.h"

namespace firstoff::gui {

namespace {

// Two drivers round differently along edges and in highlights. A channel may be off by kChannel anywhere; more than
// that only in a share of kPixels of the picture, which is less than the outline of one tool.
constexpr int kChannel = 20;
constexpr double kPixels = 0.004;

// Where the pictures differ, and by how much, as a picture.
Image difference(const Image& a, const Image& b) {
    Image result = a;
    for (std::size_t i = 0; i < a.rgb.size(); ++i) {
        result.rgb[i] = static_cast<std::uint8_t>(std::min(255, 4 * std::abs(int{a.rgb[i]} - int{b.rgb[i]})));
    }
    return result;
}

double shareOff(const Image& a, const Image& b) {
    std::size_t off = 0;
    for (std::size_t i = 0; i < a.rgb.size(); i += 3) {
        for (std::size_t c = 0; c < 3; ++c) {
            if (std::abs(int{a.rgb[i + c]} - int{b.rgb[i + c]}) <= kChannel) continue;
            ++off;
            break;
        }
    }
    return static_cast<double>(off) / (a.width * a.height);
}

}  // namespace

void expectGolden(const std::string& name, const Image& actual) {
    const std::filesystem::path golden = std::string(FIRSTOFF_SOURCE_DIR) + "/tests/golden/" + name + ".png";
    if (std::getenv("FIRSTOFF_RENEW_GOLDEN")) {
        savePng(golden, actual);
        GTEST_SKIP() << "renewed " << golden;
    }
    const Image expected = loadPng(golden);
    ASSERT_EQ(expected.width, actual.width);
    ASSERT_EQ(expected.height, actual.height);
    const double off = shareOff(actual, expected);
    EXPECT_LE(off, kPixels) << name;
    if (off <= kPixels) return;
    const std::string base = std::string(FIRSTOFF_BINARY_DIR) + "/" + name;
    savePng(base + "-actual.png", actual);
    savePng(base + "-difference.png", difference(actual, expected));
    ADD_FAILURE() << "see " << base << "-actual.png and -difference.png";
}

}  // namespace firstoff::gui
