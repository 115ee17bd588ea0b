#include "gui/disk_watch.h"

#include <sys/stat.h>

#include <functional>

#include "gui/file_io.h"

namespace firstoff::gui {

namespace {

constexpr double kEveryS = 2;

std::uint64_t hashOf(std::string_view text) {
    return std::hash<std::string_view>()(text);
}

}  // namespace

DiskWatch::Stamp DiskWatch::stampOf(const std::filesystem::path& path) {
    struct stat found {};
    if (::stat(path.c_str(), &found) != 0) return {};
    Stamp stamp;
    stamp.time = std::int64_t{found.st_mtim.tv_sec} * 1'000'000'000 + found.st_mtim.tv_nsec;
    stamp.size = static_cast<std::uint64_t>(found.st_size);
    stamp.identity = static_cast<std::uint64_t>(found.st_ino);
    stamp.exists = true;
    return stamp;
}

void DiskWatch::hold(const std::filesystem::path& path, std::string_view text) {
    path_ = path;
    stamp_ = stampOf(path);
    text_ = hashOf(text);
    another_ = false;
}

bool DiskWatch::isAnother() {
    if (path_.empty()) return false;
    const Stamp stamp = stampOf(path_);
    if (stamp == stamp_) return another_;
    stamp_ = stamp;
    another_ = false;
    if (!stamp.exists) return false;
    try {
        another_ = hashOf(readWholeFile(path_)) != text_;
    } catch (const FileError&) {
    }
    return another_;
}

bool DiskWatch::isAnother(double now) {
    if (now - lookedAt_ < kEveryS) return another_;
    lookedAt_ = now;
    return isAnother();
}

}  // namespace firstoff::gui
