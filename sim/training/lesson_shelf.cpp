#include "sim/training/lesson_shelf.h"

#include <algorithm>
#include <system_error>

namespace firstoff {

namespace fs = std::filesystem;

std::vector<fs::path> lessonFolders(const fs::path& shelf) {
    std::vector<fs::path> folders;
    std::error_code error;
    for (fs::directory_iterator entry(shelf, error), end; !error && entry != end; entry.increment(error)) {
        std::error_code none;
        const fs::path& folder = entry->path();
        const bool lesson =
            fs::is_regular_file(folder / "lesson.toml", none) || fs::is_regular_file(folder / "lesson.md", none);
        if (lesson) folders.push_back(folder);
    }
    std::sort(folders.begin(), folders.end());
    return folders;
}

}  // namespace firstoff
