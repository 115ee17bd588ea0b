#include "gui/demo_job.h"

#include <cstdlib>
#include <system_error>

namespace firstoff::gui {

namespace fs = std::filesystem;

namespace {

// An installed tree may stand anywhere: …/bin/firstoff-window and …/share/firstoff.
fs::path besideThisProgram() {
    std::error_code error;
    const fs::path program = fs::read_symlink("/proc/self/exe", error);
    return error ? fs::path() : program.parent_path().parent_path() / "share" / "firstoff";
}

fs::path asset(const fs::path& name) {
    const char* own = std::getenv("FIRSTOFF_ASSETS");
    const fs::path folders[] = {own ? fs::path(own) : fs::path(), besideThisProgram(), FIRSTOFF_INSTALLED_ASSETS,
                                FIRSTOFF_SOURCE_ASSETS};
    for (const fs::path& folder : folders) {
        if (folder.empty()) continue;
        std::error_code error;
        if (fs::exists(folder / name, error)) return folder / name;
    }
    return {};
}

}  // namespace

fs::path demoProgram() {
    return asset(fs::path("jobs") / "coupling-spigot.nc");
}

fs::path lessonShelf() {
    return asset("lessons");
}

}  // namespace firstoff::gui
