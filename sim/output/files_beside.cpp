#include "sim/output/files_beside.h"

#include <fmt/format.h>

#include <cstdint>
#include <stdexcept>
#include <system_error>

#include "sim/base/say.h"
#include "sim/output/whole_file.h"

namespace firstoff {

namespace fs = std::filesystem;

namespace {

constexpr std::uintmax_t kLargestBytes = std::uintmax_t{512} << 20;

}  // namespace

fs::path besideSetup(const fs::path& setupFile, const std::string& name) {
    const fs::path file(name);
    if (file.is_absolute()) return file;
    if (setupFile.empty()) {
        throw std::runtime_error(
            say("{}: the set-up was never saved, so it cannot be said which folder to look in", name));
    }
    return setupFile.parent_path() / file;
}

std::string readNamedFile(const fs::path& file) {
    std::error_code error;
    if (fs::exists(file, error) && !fs::is_regular_file(file, error)) {
        throw std::runtime_error(say("{}: is no file of its own", file.string()));
    }
    const std::uintmax_t bytes = fs::file_size(file, error);
    if (!error && bytes > kLargestBytes) {
        throw std::runtime_error(say("{}: is larger than {} MiB", file.string(), kLargestBytes >> 20));
    }
    return readWholeFile(file);
}

}  // namespace firstoff
