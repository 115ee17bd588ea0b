#include "gui/backup.h"

#include "gui/file_io.h"

namespace firstoff::gui {

namespace fs = std::filesystem;

fs::path backupPath(const fs::path& program) {
    fs::path path = program;
    path += ".bak";
    return path;
}

void Backups::before(const fs::path& program) {
    std::error_code error;
    if (!fs::is_regular_file(program, error)) return;
    const fs::path known = fs::weakly_canonical(program, error);
    if (error || done_.contains(known)) return;
    writeWholeFile(backupPath(program), readWholeFile(program));
    done_.insert(known);
}

}  // namespace firstoff::gui
