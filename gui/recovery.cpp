#include "gui/recovery.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include <chrono>

#include "gui/file_io.h"
#include "gui/view_settings.h"

namespace firstoff::gui {

namespace fs = std::filesystem;

namespace {

constexpr double kEveryS = 4;
constexpr std::string_view kHead = "firstoff-unsaved 1 ";  // then the path of the program

// FNV-1a; the name must be the same in every session.
std::uint64_t hashOf(std::string_view text) {
    std::uint64_t hash = 14695981039346656037ull;
    for (char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ull;
    return hash;
}

std::string nameOf(const fs::path& program) {
    std::error_code error;
    return program.empty() ? "untitled" : fs::weakly_canonical(fs::absolute(program, error), error).string();
}

void write(const fs::path& file, const std::string& head, const std::string& text) {
    std::error_code error;
    fs::create_directories(file.parent_path(), error);
    fs::permissions(file.parent_path(), fs::perms::owner_all, error);
    std::string all;
    all.reserve(head.size() + text.size());
    all += head;
    all += text;
    try {
        writeWholeFile(file, all);
    } catch (const FileError&) {
    }
}

}  // namespace

fs::path recoveryFolder() {
    const fs::path state = stateFolder();
    return state.empty() ? state : state / "recovery";
}

Recovery::~Recovery() {
    finish();
}

void Recovery::finish() {
    if (writing_.valid()) writing_.wait();
}

fs::path Recovery::fileOf(const fs::path& program) const {
    return folder_ / fmt::format("{:016x}.txt", hashOf(nameOf(program)));
}

fs::path Recovery::lockOf(const fs::path& program) const {
    fs::path lock = fileOf(program);
    lock.replace_extension(".lock");
    return lock;
}

// Null where somebody else holds it, or it cannot be made.
Recovery::Lock Recovery::lockFile(const fs::path& file) {
    const int descriptor = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (descriptor < 0) return nullptr;
    if (::flock(descriptor, LOCK_EX | LOCK_NB) != 0) {
        ::close(descriptor);
        return nullptr;
    }
    return {new int(descriptor), [](const int* held) {
                ::close(*held);
                delete held;
            }};
}

std::optional<std::string> Recovery::left(const fs::path& program, std::string_view text) const {
    if (folder_.empty()) return std::nullopt;
    const fs::path file = fileOf(program);
    std::error_code error;
    if (!fs::exists(file, error)) return std::nullopt;
    std::string kept;
    try {
        kept = readWholeFile(file);
    } catch (const FileError&) {
        return std::nullopt;
    }
    const std::size_t end = kept.find('\n');
    if (!std::string_view(kept).starts_with(kHead) || end == std::string::npos) return std::nullopt;
    if (!lockFile(lockOf(program))) return std::nullopt;  // another window is at work on it
    kept.erase(0, end + 1);
    const auto keptAt = fs::last_write_time(file, error);
    const auto savedAt = program.empty() ? fs::file_time_type::min() : fs::last_write_time(program, error);
    if (kept == text || keptAt < savedAt) {
        fs::remove(file, error);
        fs::remove(lockOf(program), error);
        return std::nullopt;
    }
    return kept;
}

void Recovery::keep(const fs::path& program, const TextDocument& document, bool modified, double now) {
    if (folder_.empty()) return;
    if (!modified) {
        release(program);
        return;
    }
    if (document.revision() == kept_) {
        dueAt_ = -1;
        return;
    }
    if (dueAt_ < 0) dueAt_ = now + kEveryS;
    if (now < dueAt_) return;
    if (!lock_) {
        std::error_code error;
        fs::create_directories(folder_, error);
        lock_ = lockFile(lockOf(program));
        if (!lock_) {  // another window works on the same program: what it keeps is not written over
            dueAt_ = now + kEveryS;
            return;
        }
    }
    const bool busy = writing_.valid() && writing_.wait_for(std::chrono::seconds(0)) != std::future_status::ready;
    if (busy) return;
    dueAt_ = -1;
    kept_ = document.revision();
    std::string head(kHead);
    head += nameOf(program);
    head += '\n';
    writing_ = std::async(std::launch::async, write, fileOf(program), std::move(head), document.text());
}

void Recovery::drop(const fs::path& program) {
    if (folder_.empty()) return;
    finish();
    kept_ = 0;
    dueAt_ = -1;
    std::error_code error;
    if (!lock_ && !fs::exists(fileOf(program), error)) return;
    if (!lock_) lock_ = lockFile(lockOf(program));
    if (!lock_) return;  // it is another window's
    fs::remove(fileOf(program), error);
    fs::remove(lockOf(program), error);
    lock_.reset();
}

}  // namespace firstoff::gui
