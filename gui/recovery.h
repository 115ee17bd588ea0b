// Text that was not saved, kept aside so that a crash or a power cut loses a few seconds of work at most.
#pragma once

#include <cstdint>
#include <filesystem>
#include <future>
#include <memory>
#include <optional>
#include <string>

#include "gui/text_document.h"

namespace firstoff::gui {

// firstoff/recovery in the user's state folder: XDG_STATE_HOME, else ~/.local/state (XDG Base Directory Specification).
// Empty if there is none.
std::filesystem::path recoveryFolder();

// One file per program; written while its text has changes that are not saved, removed when it has none or the window
// is closed in good order. Where the folder cannot be written nothing is kept, and nobody is disturbed.
class Recovery {
public:
    Recovery() = default;
    // An empty folder: nothing is ever kept.
    explicit Recovery(std::filesystem::path folder) : folder_(std::move(folder)) {}
    ~Recovery();
    Recovery(Recovery&&) = default;
    Recovery& operator=(Recovery&&) = default;

    // Text kept of a program by a window that is no more. Only where it is another than `text`, that of the file, and
    // was kept after the file was last written; what is older, or the same, is removed.
    std::optional<std::string> left(const std::filesystem::path& program, std::string_view text) const;

    // Once per frame: keeps the text when it has changed and rested for a moment. Writes beside the window.
    void keep(const std::filesystem::path& program, const TextDocument& document, bool modified, double now);
    // How long until there is something to keep, s; negative: nothing to do.
    double dueInS(double now) const { return dueAt_ < 0 ? -1 : dueAt_ > now ? dueAt_ - now : 0; }
    void drop(const std::filesystem::path& program);
    // The same, if this window kept any of it: the text was saved, or given up.
    void release(const std::filesystem::path& program) {
        if (kept_ != 0 || dueAt_ >= 0) drop(program);
    }
    // Until what is being written is written.
    void finish();

private:
    std::filesystem::path fileOf(const std::filesystem::path& program) const;
    std::filesystem::path lockOf(const std::filesystem::path& program) const;

    std::filesystem::path folder_;
    std::future<void> writing_;
    // An open file, held locked while text of a program is kept: the system lets go of it however the window ends.
    using Lock = std::shared_ptr<const int>;
    static Lock lockFile(const std::filesystem::path& file);
    Lock lock_;
    std::uint64_t kept_ = 0;  // revision
    double dueAt_ = -1;
};

}  // namespace firstoff::gui
