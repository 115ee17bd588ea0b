#include "gui/less_motion.h"

#include <gtest/gtest.h>

namespace firstoff::gui {
namespace {

TEST(LessMotion, IsReadFromTheSettingsOfDesktops) {
    struct Row {
        const char* text;
        bool less;
    };
    for (const Row& row :
         {Row{"", false}, Row{"[Settings]\ngtk-enable-animations=false\n", true},
          Row{"[Settings]\ngtk-enable-animations = 0", true}, Row{"[Settings]\ngtk-enable-animations=true\n", false},
          Row{"[KDE]\nAnimationDurationFactor=0\n", true}, Row{"[KDE]\nAnimationDurationFactor=0.5\n", false},
          Row{"# gtk-enable-animations=false\n", false}, Row{"gtk-enable-animations", false}}) {
        EXPECT_EQ(asksForLessMotion(row.text), row.less) << row.text;
    }
}

}  // namespace
}  // namespace firstoff::gui
