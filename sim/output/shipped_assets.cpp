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

}  // namespace firstoff
