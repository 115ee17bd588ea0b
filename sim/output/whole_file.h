// Files read and written as a whole. The outside world may fail here: std::runtime_error with the reason in plain
// words.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>

namespace firstoff {

// Contents of a regular file, every byte. Throws if it is missing, a directory, unreadable or empty.
std::string readWholeFile(const std::filesystem::path& path);

// Writes beside the target under a temporary name and renames it, so that the target is the old file or the whole new
// one, never half of it. A target that is no regular file (a pipe, a device) is written straight.
void writeWholeFile(const std::filesystem::path& path, std::string_view contents);

// The same for a file that only `write` can write; it is given the temporary name. The target must be a regular file or
// none yet.
void replaceWholeFile(const std::filesystem::path& path,
                      const std::function<void(const std::filesystem::path&)>& write);

}  // namespace firstoff
