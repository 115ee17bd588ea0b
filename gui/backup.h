// The version of a program before it is saved over.
#pragma once

#include <filesystem>
#include <set>

namespace firstoff::gui {

// "job.nc.bak" beside "job.nc".
std::filesystem::path backupPath(const std::filesystem::path& program);

// Before a file is saved over for the first time since the window was opened, what stands in it is put into its backup,
// in place of an older one: one backup per program, and it is the program as it was found. Saving again and again while
// one tries things out does not lose it.
class Backups {
public:
    // Does nothing for a file that is not there yet, or that was backed up already. Throws FileError.
    void before(const std::filesystem::path& program);

private:
    std::set<std::filesystem::path> done_;
};

}  // namespace firstoff::gui
