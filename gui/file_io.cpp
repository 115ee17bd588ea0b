#include "gui/file_io.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>

#include "sim/base/say.h"

namespace firstoff::gui {

namespace fs = std::filesystem;

namespace {

[[noreturn]] void failToOpen(const fs::path& path, const std::string& why) {
    throw FileError(say("Could not open {}: {}.", path.string(), why));
}

[[noreturn]] void failToRead(const fs::path& path, const std::string& why) {
    throw FileError(say("Could not read {}: {}.", path.string(), why));
}

[[noreturn]] void failToWrite(const fs::path& path, const std::string& why) {
    throw FileError(say("Could not write {}: {}.", path.string(), why));
}

std::string lastError() {
    return std::strerror(errno);
}

// A file descriptor that is closed and unlinked unless everything went well.
class Temporary {
public:
    explicit Temporary(const fs::path& target) : name_(target.string() + ".XXXXXX") {
        descriptor_ = ::mkstemp(name_.data());
        if (descriptor_ < 0) failToWrite(target, say("{} (in its folder)", lastError()));
    }
    ~Temporary() {
        if (descriptor_ >= 0) ::close(descriptor_);
        if (!kept_) ::unlink(name_.c_str());
    }
    Temporary(const Temporary&) = delete;
    Temporary& operator=(const Temporary&) = delete;

    void write(std::string_view text, const fs::path& target) {
        while (!text.empty()) {
            const ssize_t written = ::write(descriptor_, text.data(), text.size());
            if (written < 0 && errno == EINTR) continue;
            if (written < 0) failToWrite(target, lastError());
            text.remove_prefix(static_cast<std::size_t>(written));
        }
        if (::fsync(descriptor_) != 0) failToWrite(target, lastError());
    }
    void rename(const fs::path& target) {
        if (::rename(name_.c_str(), target.c_str()) != 0) failToWrite(target, lastError());
        kept_ = true;
    }
    const std::string& name() const { return name_; }

private:
    std::string name_;
    int descriptor_ = -1;
    bool kept_ = false;
};

}  // namespace

std::string readWholeFile(const fs::path& path) {
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (status.type() == fs::file_type::not_found) failToOpen(path, tr("there is no such file"));
    if (fs::is_directory(status)) failToOpen(path, tr("it is a folder, not a file"));
    const std::uintmax_t size = fs::file_size(path, error);
    if (!error && size > kLargestFileBytes) failToOpen(path, tr("it is larger than 1 GiB and cannot be a program"));
    errno = 0;
    std::ifstream in(path, std::ios::binary);
    if (!in) failToOpen(path, lastError());
    std::string text;
    text.resize(error ? 0 : static_cast<std::size_t>(size));
    in.read(text.data(), static_cast<std::streamsize>(text.size()));
    text.resize(static_cast<std::size_t>(in.gcount()));
    // What has no size beforehand, or grew meanwhile.
    if (in) text.append(std::istreambuf_iterator<char>(in), {});
    if (in.bad()) failToRead(path, lastError());
    return text;
}

void writeWholeFile(const fs::path& path, std::string_view text) {
    std::error_code error;
    fs::path target = fs::weakly_canonical(path, error);
    if (error) target = path;
    if (fs::exists(target, error) && ::access(target.c_str(), W_OK) != 0) failToWrite(path, lastError());
    const fs::file_status before = fs::status(target, error);
    const bool existed = fs::exists(before);
    Temporary temporary(target);
    temporary.write(text, path);
    const fs::perms usual =
        fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read | fs::perms::others_read;
    fs::permissions(temporary.name(), existed ? before.permissions() : usual, error);
    temporary.rename(target);
}

}  // namespace firstoff::gui
