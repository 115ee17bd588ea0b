// Does the user want things to stand rather than glide?
#pragma once

#include <string_view>

namespace firstoff::gui {

// What the desktop's own settings say, as their files have it: gtk-enable-animations of GTK, AnimationDurationFactor of
// KDE. Reads nothing but those files; false where they say nothing.
bool systemWantsLessMotion();

// Of the text of such a file, either kind.
bool asksForLessMotion(std::string_view text);

}  // namespace firstoff::gui
