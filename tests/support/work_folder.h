// A folder of a test's own.
#pragma once

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <string_view>

namespace firstoff::shop {

// Among the system's temporary files, empty; gone with the object, and all that is in it.
class WorkFolder {
public:
    WorkFolder() {
        std::string name = (std::filesystem::temp_directory_path() / "firstoff-XXXXXX").string();
        if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder for this test: " + name);
        path_ = name;
    }
    ~WorkFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    WorkFolder(const WorkFolder&) = delete;
    WorkFolder& operator=(const WorkFolder&) = delete;

    const std::filesystem::path& path() const { return path_; }
    operator const std::filesystem::path&() const { return path_; }
    std::filesystem::path operator/(std::string_view name) const { return path_ / name; }
    // Writes a file into it.
    std::filesystem::path put(std::string_view name, std::string_view text) const {
        std::ofstream(path_ / name, std::ios::binary) << text;
        return path_ / name;
    }

private:
    std::filesystem::path path_;
};

}  // namespace firstoff::shop
