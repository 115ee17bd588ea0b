// Whether the file of a program is still the one that was read or written.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string_view>

namespace firstoff::gui {

class DiskWatch {
public:
    // The file holds this text now: it was just read or written.
    void hold(const std::filesystem::path& path, std::string_view text);
    void forget() { path_.clear(); }
    // The other text was seen and is left alone: only a further change counts.
    void accept() { another_ = false; }

    // Whether the file holds another text by now. A file that is gone, or cannot be read, is no other text: saving
    // makes it anew. Costs a look at the folder, and reading the file only when its date, size or identity is another.
    bool isAnother();
    // The same, looking no more often than every two seconds.
    bool isAnother(double now);

private:
    struct Stamp {
        std::int64_t time = 0;  // ns, of the last change
        std::uint64_t size = 0, identity = 0;
        bool exists = false;
        friend bool operator==(const Stamp&, const Stamp&) = default;
    };
    static Stamp stampOf(const std::filesystem::path& path);

    std::filesystem::path path_;
    Stamp stamp_;
    std::uint64_t text_ = 0;  // its hash
    double lookedAt_ = -1e9;
    bool another_ = false;
};

}  // namespace firstoff::gui
