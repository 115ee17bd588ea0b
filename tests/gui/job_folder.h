// A job in a folder of its own, for tests of the whole window.
#pragma once

#include <gtest/gtest.h>

#include "tests/support/shop.h"
#include "tests/support/work_folder.h"

namespace firstoff::gui {

// Bar 50, faced and turned to 40 for 20 mm; nothing is found.
inline constexpr const char* kFaceAndTurn =
    "O0001 (FACE AND TURN)\nG21 G40 G99\nG50 S2800\nT0101\nG96 S200 M03\nG00 X54. Z0 M08\nG01 X-1.6 F0.2\n"
    "G00 X40. Z2.\nG01 Z-20.\nX54.\nG28 U0 W0\nM30\n";

// job.nc, and job.toml beside it.
class JobFolder : public testing::Test {
protected:
    explicit JobFolder(const char* program = kFaceAndTurn,
                       const std::string& setup = shop::spigotSetupWithoutDrawing()) {
        folder.put("job.nc", program);
        folder.put("job.toml", setup);
    }
    const shop::WorkFolder folder;
};

}  // namespace firstoff::gui
