#include "gui/file_io.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "gui/file_browser.h"
#include "tests/support/work_folder.h"

namespace firstoff::gui {
namespace {

namespace fs = std::filesystem;

// A folder of its own that goes with the test.
class Folder : public testing::Test {
protected:
    std::size_t count() const {
        return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
    }
    const shop::WorkFolder folder;
};

using FileIo = Folder;

TEST_F(FileIo, ComesBackByteForByte) {
    const std::string text("G01\r\n\0\xff X1\n", 12);
    writeWholeFile(folder / "a.nc", text);
    EXPECT_EQ(readWholeFile(folder / "a.nc"), text);
    writeWholeFile(folder / "a.nc", "");
    EXPECT_EQ(readWholeFile(folder / "a.nc"), "");
    EXPECT_EQ(count(), 1u);  // no temporary is left
}

TEST_F(FileIo, KeepsPermissionsAndFollowsLinks) {
    writeWholeFile(folder / "a.nc", "old");
    fs::permissions(folder / "a.nc", fs::perms::owner_read | fs::perms::owner_write);
    fs::create_symlink("a.nc", folder / "link.nc");
    writeWholeFile(folder / "link.nc", "new");
    EXPECT_TRUE(fs::is_symlink(folder / "link.nc"));
    EXPECT_EQ(readWholeFile(folder / "a.nc"), "new");
    EXPECT_EQ(fs::status(folder / "a.nc").permissions(), fs::perms::owner_read | fs::perms::owner_write);
}

TEST_F(FileIo, NamesTheFileAndTheCause) {
    const auto trouble = [](const auto& act) {
        try {
            act();
        } catch (const FileError& error) {
            return std::string(error.what());
        }
        return std::string("nothing thrown");
    };
    EXPECT_THAT(trouble([&] { readWholeFile(folder / "none.nc"); }),
                testing::HasSubstr("none.nc: there is no such file"));
    EXPECT_THAT(trouble([&] { readWholeFile(folder); }), testing::HasSubstr("it is a folder"));
    EXPECT_THAT(trouble([&] { writeWholeFile(folder / "gone" / "a.nc", "x"); }), testing::HasSubstr("Could not write"));
    EXPECT_EQ(count(), 0u);
}

using FileBrowsing = Folder;

TEST_F(FileBrowsing, ListsFoldersFirstAndOnlyWhatFits) {
    for (const char* file : {"b.NC", "A.nc", "part.toml", ".hidden.nc"}) std::ofstream(folder / file) << "x";
    fs::create_directory(folder / "zeta");
    std::vector<std::string> names;
    for (const FolderEntry& entry : listFolder(folder, {".nc"})) names.push_back(entry.name);
    EXPECT_EQ(names, (std::vector<std::string>{"zeta", "A.nc", "b.NC"}));
    EXPECT_EQ(listFolder(folder, {}).size(), 4u);
    EXPECT_THROW(listFolder(folder / "none", {}), FileError);
}

TEST(FileCompletion, GoesAsFarAsAllAgree) {
    const std::vector<FolderEntry> entries{{"jobs", true}, {"spigot.nc", false}, {"spigot2.nc", false}};
    EXPECT_EQ(completed("sp", entries), "spigot");
    EXPECT_EQ(completed("spigot2", entries), "spigot2.nc");
    EXPECT_EQ(completed("j", entries), "jobs/");
    EXPECT_EQ(completed("x", entries), "x");
    EXPECT_EQ(completed("", entries), "");
}

}  // namespace
}  // namespace firstoff::gui
