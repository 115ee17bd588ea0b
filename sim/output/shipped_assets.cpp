#include "sim/output/shipped_assets.h"

#include <cstdlib>
#include <system_error>

namespace firstoff {

namespace fs = std::filesystem;

namespace {

// An installed tree may stand anywhere: …/bin/firstoff and …/share/firstoff.
fs::path besideThisProgram() {
    std::error_code error;
    const fs::path program = fs::read_symlink("/proc/self/exe", error);
    return error ? fs::path() : program.parent_path().parent_path() / "share" / "firstoff";
}

}  // namespace

fs::path shippedAsset(const fs::path& name) {
    const auto in = [&](const fs::path& folder) {
        std::error_code error;
        return !folder.empty() && fs::exists(folder / name, error) ? folder / name : fs::path();
    };
    // Who names a folder means that one, and never quietly another.
    if (const char* own = std::getenv("FIRSTOFF_ASSETS"); own && *own) return in(own);
    for (const fs::path& folder :
         {besideThisProgram(), fs::path(FIRSTOFF_INSTALLED_ASSETS), fs::path(FIRSTOFF_SOURCE_ASSETS)}) {
        if (fs::path found = in(folder); !found.empty()) return found;
    }
    return {};
}

}  // namespace firstoff
