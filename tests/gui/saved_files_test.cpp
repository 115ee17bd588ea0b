// Files a program is saved to: the version of before, what another program does to them, text that was never saved.
#include <gtest/gtest.h>

#include <chrono>
#include <fstream>

#include "gui/backup.h"
#include "gui/disk_watch.h"
#include "gui/file_io.h"
#include "gui/recovery.h"
#include "tests/support/work_folder.h"

namespace firstoff::gui {
namespace {

namespace fs = std::filesystem;

class SavedFiles : public testing::Test {
protected:
    SavedFiles() {
        program = folder / "job.nc";
        write(program, "G21\nM30\n");
    }
    static void write(const fs::path& path, const std::string& text) { std::ofstream(path, std::ios::binary) << text; }
    // As if nothing had happened to the file for a while: dates of files are coarse.
    static void age(const fs::path& path, int seconds) {
        fs::last_write_time(path, fs::last_write_time(path) - std::chrono::seconds(seconds));
    }
    const shop::WorkFolder folder;
    fs::path program;
};

TEST_F(SavedFiles, AreBackedUpOncePerSession) {
    Backups backups;
    backups.before(folder / "new.nc");
    EXPECT_FALSE(fs::exists(folder / "new.nc.bak"));
    backups.before(program);
    EXPECT_EQ(readWholeFile(backupPath(program)), "G21\nM30\n");
    write(program, "G20\nM30\n");
    backups.before(program);
    EXPECT_EQ(readWholeFile(backupPath(program)), "G21\nM30\n");  // as it was found
    Backups nextSession;
    nextSession.before(program);
    EXPECT_EQ(readWholeFile(backupPath(program)), "G20\nM30\n");
}

TEST_F(SavedFiles, AreWatchedForAnotherText) {
    DiskWatch watch;
    watch.hold(program, "G21\nM30\n");
    EXPECT_FALSE(watch.isAnother());
    age(program, -10);  // touched, but the same text
    EXPECT_FALSE(watch.isAnother());
    write(program, "G20\nM30\n");
    age(program, -20);
    EXPECT_TRUE(watch.isAnother());
    EXPECT_TRUE(watch.isAnother());
    watch.accept();
    EXPECT_FALSE(watch.isAnother());
    write(program, "G21\nM30\n");  // what was held at first
    age(program, -30);
    EXPECT_FALSE(watch.isAnother());
    fs::remove(program);
    EXPECT_FALSE(watch.isAnother());
}

TEST_F(SavedFiles, LeaveUnsavedTextBehindAfterACrash) {
    const fs::path state = folder / "state";
    age(program, 60);
    {
        Recovery recovery(state);
        TextDocument document("G21\nM30\n");
        recovery.keep(program, document, false, 0);
        EXPECT_FALSE(fs::exists(state));
        document.replace(0, 0, "(NEW)\n");
        recovery.keep(program, document, true, 1);
        recovery.finish();
        EXPECT_FALSE(fs::exists(state));  // not with every key
        EXPECT_GT(recovery.dueInS(1), 0);
        recovery.keep(program, document, true, 10);
        recovery.finish();
    }
    const Recovery next(state);
    EXPECT_EQ(next.left(program, "G21\nM30\n"), "(NEW)\nG21\nM30\n");
    EXPECT_EQ(next.left(folder / "other.nc", ""), std::nullopt);
    EXPECT_EQ(next.left(program, "(NEW)\nG21\nM30\n"), std::nullopt);  // it is in the file meanwhile
    EXPECT_TRUE(fs::is_empty(state));
}

TEST_F(SavedFiles, AreNewerThanWhatWasKept) {
    const fs::path state = folder / "state";
    TextDocument document("(OLD)\n");
    {
        Recovery recovery(state);
        recovery.keep(program, document, true, 0);
        recovery.keep(program, document, true, 10);
    }
    ASSERT_FALSE(fs::is_empty(state));
    age(program, -60);  // saved after that, by whatever program
    EXPECT_EQ(Recovery(state).left(program, "G21\nM30\n"), std::nullopt);
    EXPECT_TRUE(fs::is_empty(state));
}

TEST_F(SavedFiles, LeaveNothingBehindInGoodOrder) {
    const fs::path state = folder / "state";
    Recovery recovery(state);
    TextDocument document("(NEW)\n");
    const auto keepIt = [&](double now) {
        document.replace(0, 0, "(X)\n");
        recovery.keep(program, document, true, now);
        recovery.keep(program, document, true, now + 10);
        recovery.finish();
    };
    keepIt(0);
    EXPECT_FALSE(fs::is_empty(state));
    recovery.keep(program, document, false, 20);  // saved
    EXPECT_TRUE(fs::is_empty(state));
    keepIt(30);
    recovery.release(program);
    EXPECT_TRUE(fs::is_empty(state));
    // What another window, still at work, keeps of the same program is its own affair.
    keepIt(60);
    EXPECT_FALSE(fs::is_empty(state));
    EXPECT_EQ(Recovery(state).left(program, ""), std::nullopt);
    EXPECT_FALSE(fs::is_empty(state));
}

TEST_F(SavedFiles, KeepNothingWithoutAFolder) {
    Recovery recovery;
    const TextDocument document("(NEW)\n");
    recovery.keep(program, document, true, 0);
    recovery.keep(program, document, true, 10);
    EXPECT_EQ(recovery.left(program, ""), std::nullopt);
    EXPECT_LT(recovery.dueInS(20), 0);
}

}  // namespace
}  // namespace firstoff::gui
