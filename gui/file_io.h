// Reading and writing whole files. Failures of the outside world are exceptions whose text names the file, the cause
// and, where there is one, the remedy.
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>

namespace firstoff::gui {

struct FileError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

// Every byte of the file. Refuses what cannot be a program: a folder, or more than kLargestFileBytes.
inline constexpr std::uintmax_t kLargestFileBytes = std::uintmax_t{1} << 30;
std::string readWholeFile(const std::filesystem::path& path);

// Writes to a temporary beside `path`, then renames: either the old file or the whole new one stands there. Keeps the
// permissions of the old file, and follows a link to the file it names.
void writeWholeFile(const std::filesystem::path& path, std::string_view text);

}  // namespace firstoff::gui
