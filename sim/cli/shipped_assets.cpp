#include "sim/cli/shipped_assets.h"

#include <cstdlib>
#include <system_error>

namespace firstoff::cli {

namespace fs = std::filesystem;

fs::path shippedLessons() {
    const char* own = std::getenv("FIRSTOFF_ASSETS");
    const fs::path folders[] = {own ? fs::path(own) : fs::path(), FIRSTOFF_INSTALLED_ASSETS, FIRSTOFF_SOURCE_ASSETS};
    for (const fs::path& folder : folders) {
        if (folder.empty()) continue;
        std::error_code error;
        if (fs::is_directory(folder / "lessons", error)) return folder / "lessons";
    }
    return {};
}

}  // namespace firstoff::cli
