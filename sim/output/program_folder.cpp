#include "sim/output/program_folder.h"

#include <string>
#include <system_error>
#include <vector>

#include "sim/output/whole_file.h"
#include "sim/program/called_files.h"

namespace firstoff {

namespace fs = std::filesystem;

namespace {

// Names of the regular files in a folder without `own`. A folder that cannot be listed has none.
std::vector<std::string> filesBeside(const fs::path& folder, const fs::path& own) {
    std::vector<std::string> names;
    std::error_code error;
    for (fs::directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) {
        std::error_code notRegular;
        if (!at->is_regular_file(notRegular) || fs::equivalent(at->path(), own, notRegular)) continue;
        names.push_back(at->path().filename().string());
    }
    return names;
}

}  // namespace

void readCalledFiles(Program& program, const fs::path& programFile) {
    if (programFile.empty() || !callsPrograms(program)) return;
    const fs::path folder = programFile.has_parent_path() ? programFile.parent_path() : fs::path(".");
    appendCalledFiles(program, filesBeside(folder, programFile),
                      [&](const std::string& name) { return readWholeFile(folder / name); });
}

}  // namespace firstoff
