// Folders of lessons.
#pragma once

#include <filesystem>
#include <vector>

#include "sim/training/lesson.h"

namespace firstoff {

// Folders directly below `shelf` that hold a lesson.toml or a lesson.md, in order of their names; none where there is
// no such folder.
std::vector<std::filesystem::path> lessonFolders(const std::filesystem::path& shelf);

}  // namespace firstoff
