// Files that a set-up names, beside it.
#pragma once

#include <filesystem>
#include <string>

namespace firstoff {

// Where the file that a set-up names stands: beside it, unless the name says all of the way. Throws std::runtime_error
// for a set-up that was never saved (an empty path).
std::filesystem::path besideSetup(const std::filesystem::path& setupFile, const std::string& name);

// Its bytes. A set-up may name anything: a device would be read for ever, a picture of the wrong sort fill the memory,
// so std::runtime_error for what is no plain file or larger than 512 MiB, and as readWholeFile() does.
std::string readNamedFile(const std::filesystem::path& file);

}  // namespace firstoff
