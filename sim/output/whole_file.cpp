#include "sim/output/whole_file.h"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>
#include <stdexcept>
#include <system_error>

#include <unistd.h>

#include <fmt/format.h>

#include "sim/base/say.h"

namespace firstoff {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const fs::path& path, std::string_view what) {
    throw std::runtime_error(fmt::format("{}: {}", path.string(), what));
}

struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};
using OpenFile = std::unique_ptr<std::FILE, CloseFile>;

OpenFile open(const fs::path& path, const char* how) {
    OpenFile file(std::fopen(path.c_str(), how));
    if (!file) fail(path, std::strerror(errno));
    return file;
}

void writeAll(const fs::path& path, std::string_view contents) {
    OpenFile file = open(path, "wb");
    const bool written = std::fwrite(contents.data(), 1, contents.size(), file.get()) == contents.size();
    const bool flushed = std::fflush(file.get()) == 0;
    if (!written || !flushed) fail(path, say("cannot be written ({})", std::strerror(errno)));
    if (std::fclose(file.release()) != 0) fail(path, say("cannot be written ({})", std::strerror(errno)));
}

}  // namespace

std::string readWholeFile(const fs::path& path) {
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (status.type() == fs::file_type::not_found) fail(path, tr("there is no such file"));
    if (fs::is_directory(status)) fail(path, tr("is a folder, not a file"));
    const OpenFile file = open(path, "rb");
    std::string contents;
    char buffer[1 << 16];
    while (const std::size_t got = std::fread(buffer, 1, sizeof buffer, file.get())) contents.append(buffer, got);
    if (std::ferror(file.get())) fail(path, tr("cannot be read to its end"));
    if (contents.empty()) fail(path, tr("is empty"));
    return contents;
}

void writeWholeFile(const fs::path& path, std::string_view contents) {
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (fs::exists(status) && !fs::is_regular_file(status) && !fs::is_directory(status)) {
        return writeAll(path, contents);
    }
    replaceWholeFile(path, [&](const fs::path& temporary) { writeAll(temporary, contents); });
}

void replaceWholeFile(const fs::path& path, const std::function<void(const fs::path&)>& write) {
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (fs::is_directory(status)) fail(path, tr("is a folder, not a file"));
    if (fs::exists(status) && !fs::is_regular_file(status)) fail(path, tr("is no file that can be replaced"));
    // The process number keeps two runs that write the same file apart.
    const fs::path target = fs::is_symlink(fs::symlink_status(path, error)) ? fs::canonical(path, error) : path;
    const fs::path temporary = fs::path(fmt::format("{}.{}.part", target.string(), ::getpid()));
    try {
        write(temporary);
        fs::rename(temporary, target);
    } catch (const std::exception& failure) {
        fs::remove(temporary, error);
        fail(path, say("cannot be written ({})", failure.what()));
    }
}

}  // namespace firstoff
