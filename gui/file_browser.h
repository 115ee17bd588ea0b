// Choosing a file inside the window: folders and files to click, and a path to type with completion.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "gui/pane.h"

namespace firstoff::gui {

// What a folder holds, folders first, each part in the order of names whatever their case. Hidden names are left out.
struct FolderEntry {
    std::string name;
    bool folder = false;
};
// `suffixes` (lower case, with the dot) pass files; none: all pass. A folder that cannot be read throws FileError.
std::vector<FolderEntry> listFolder(const std::filesystem::path& folder, const std::vector<std::string>& suffixes);

// The longest text that every entry beginning with `typed` begins with; `typed` itself if there is none.
std::string completed(const std::string& typed, const std::vector<FolderEntry>& entries);

class FileBrowser {
public:
    void open(AskForFile::What what, const std::filesystem::path& start);
    bool isOpen() const { return open_; }
    void draw(const PaneContext& context);

private:
    void enter(const std::filesystem::path& folder);
    void readFolder();
    void drawFolders(const PaneContext& context);
    void drawEntries(const PaneContext& context, float height);
    void drawTyped(const PaneContext& context);
    void accept(const PaneContext& context, const std::filesystem::path& path);
    static int complete(struct ImGuiInputTextCallbackData* data);

    AskForFile::What what_ = AskForFile::What::Program;
    bool open_ = false;
    bool opening_ = false;
    bool allFiles_ = false;
    bool confirming_ = false;  // asked to overwrite
    std::filesystem::path folder_;
    std::vector<FolderEntry> entries_;
    std::string typed_;
    std::string trouble_;
};

}  // namespace firstoff::gui
