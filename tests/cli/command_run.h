// Runs the built `firstoff` command as a shell would.
#pragma once

#include <filesystem>
#include <string>

#include "tests/support/work_folder.h"

namespace firstoff::shop {

struct CommandRun {
    int exitCode = -1;
    std::string out;
    std::string err;
};

// `arguments` and what is set in the `environment` as typed in a shell. Tests read English whatever the machine's own
// language is.
CommandRun firstoff(const std::string& arguments, const std::string& environment = "LC_ALL=C");

// A folder of its own for the running test, empty, removed with the object.
class Bench {
public:
    // Writes a file and returns its path.
    std::string put(const std::string& name, const std::string& contents) const {
        return folder_.put(name, contents).string();
    }
    std::string path(const std::string& name) const { return (folder_ / name).string(); }
    std::string contents(const std::string& name) const;
    bool has(const std::string& name) const { return std::filesystem::exists(folder_ / name); }
    int files() const;

private:
    WorkFolder folder_;
};

}  // namespace firstoff::shop
