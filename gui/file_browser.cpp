#include "gui/file_browser.h"

#include <imgui_stdlib.h>

#include <algorithm>
#include <cctype>
#include <system_error>

#include "gui/file_io.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace fs = std::filesystem;

namespace {

std::string lower(std::string text) {
    for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return text;
}

const char* title(AskForFile::What what) {
    switch (what) {
        case AskForFile::What::Program:
            return tr("Open program");
        case AskForFile::What::Setup:
            return tr("Open set-up");
        case AskForFile::What::SaveAs:
            return tr("Save program as");
        case AskForFile::What::Paper:
            return tr("Write paper (.pdf or .html)");
        case AskForFile::What::Picture:
            return tr("Save picture of the window (.png)");
        case AskForFile::What::Video:
            return tr("Save video (.mp4)");
        case AskForFile::What::Lesson:
            return tr("Open lesson: its lesson.toml");
        case AskForFile::What::Compare:
            return tr("Compare with");
    }
    return "";
}

// The name is that of a file that is written.
bool writes(AskForFile::What what) {
    using What = AskForFile::What;
    return what == What::SaveAs || what == What::Paper || what == What::Picture || what == What::Video;
}

const char* action(AskForFile::What what) {
    if (what == AskForFile::What::Compare) return tr("Compare");
    return writes(what) ? tr("Save") : tr("Open");
}

std::vector<std::string> suffixesOf(AskForFile::What what) {
    if (what == AskForFile::What::Paper) return {".pdf", ".html"};
    if (what == AskForFile::What::Picture) return {".png"};
    if (what == AskForFile::What::Video) return {".mp4"};
    if (what == AskForFile::What::Setup || what == AskForFile::What::Lesson) return {".toml"};
    if (what == AskForFile::What::Compare) return {".nc", ".cnc", ".tap", ".iso", ".ncc", ".txt", ".bak"};
    return {".nc", ".cnc", ".tap", ".iso", ".ncc", ".txt"};
}

}  // namespace

std::vector<FolderEntry> listFolder(const fs::path& folder, const std::vector<std::string>& suffixes) {
    std::vector<FolderEntry> entries;
    std::error_code error;
    fs::directory_iterator at(folder, error);
    if (error) throw FileError(say("Could not look into {}: {}.", folder.string(), error.message()));
    for (; at != fs::directory_iterator(); at.increment(error)) {
        if (error) break;
        const std::string entry = at->path().filename().string();
        if (entry.empty() || entry.front() == '.') continue;
        std::error_code ignored;
        const bool isFolder = at->is_directory(ignored);
        const std::string suffix = lower(at->path().extension().string());
        const bool passes = suffixes.empty() || std::find(suffixes.begin(), suffixes.end(), suffix) != suffixes.end();
        if (isFolder || passes) entries.push_back({entry, isFolder});
    }
    std::sort(entries.begin(), entries.end(), [](const FolderEntry& a, const FolderEntry& b) {
        if (a.folder != b.folder) return a.folder;
        const std::string x = lower(a.name);
        const std::string y = lower(b.name);
        return x != y ? x < y : a.name < b.name;
    });
    return entries;
}

std::string completed(const std::string& typed, const std::vector<FolderEntry>& entries) {
    std::string common;
    bool any = false;
    bool single = true;
    bool folder = false;
    for (const FolderEntry& entry : entries) {
        if (entry.name.compare(0, typed.size(), typed) != 0) continue;
        if (!any) {
            common = entry.name;
            folder = entry.folder;
            any = true;
            continue;
        }
        single = false;
        const auto differs = std::mismatch(common.begin(), common.end(), entry.name.begin(), entry.name.end());
        common.erase(differs.first, common.end());
    }
    if (!any) return typed;
    return single && folder ? common + "/" : common;
}

void FileBrowser::open(AskForFile::What what, const fs::path& start) {
    what_ = what;
    opening_ = true;
    open_ = true;
    confirming_ = false;
    typed_ = writes(what) ? start.filename().string() : std::string();
    std::error_code error;
    fs::path folder = fs::absolute(start, error);
    if (!fs::is_directory(folder, error)) folder = folder.parent_path();
    if (!fs::is_directory(folder, error)) folder = fs::current_path(error);
    enter(folder);
}

void FileBrowser::enter(const fs::path& folder) {
    folder_ = folder.lexically_normal();
    if (folder_.filename().empty() && folder_.has_parent_path() && folder_ != folder_.root_path()) {
        folder_ = folder_.parent_path();
    }
    readFolder();
}

void FileBrowser::readFolder() {
    trouble_.clear();
    entries_.clear();
    try {
        entries_ = listFolder(folder_, allFiles_ ? std::vector<std::string>{} : suffixesOf(what_));
    } catch (const FileError& error) {
        trouble_ = error.what();
    }
}

// The folders on the way down to this one, each to be clicked.
void FileBrowser::drawFolders(const PaneContext& context) {
    fs::path way;
    fs::path chosen;
    int id = 0;
    const float right = ImGui::GetWindowContentRegionMax().x;
    for (const fs::path& part : folder_) {
        way /= part;
        ImGui::PushID(id++);
        const float width = ImGui::CalcTextSize(part.c_str()).x + context.px(20);
        if (id > 1) {
            ImGui::SameLine(0, context.px(3));
            if (ImGui::GetCursorPosX() + width > right) ImGui::NewLine();
        }
        if (ImGui::Button(part.c_str())) chosen = way;
        ImGui::PopID();
    }
    if (!chosen.empty()) enter(chosen);
}

void FileBrowser::drawEntries(const PaneContext& context, float height) {
    ImGui::BeginChild("entries", {0, height}, true);
    fs::path folder;
    if (folder_ != folder_.root_path() &&
        ImGui::Selectable(tr("..  (up)"), false, ImGuiSelectableFlags_DontClosePopups)) {
        folder = folder_.parent_path();
    }
    ImGuiListClipper clipper;
    clipper.Begin(static_cast<int>(entries_.size()));
    while (clipper.Step()) {
        for (int i = clipper.DisplayStart; i < clipper.DisplayEnd; ++i) {
            const FolderEntry& entry = entries_[static_cast<std::size_t>(i)];
            const std::string text = entry.folder ? entry.name + "/" : entry.name;
            const ImVec4 colour = tint(entry.folder ? context.palette.quiet : context.palette.text);
            ImGui::PushStyleColor(ImGuiCol_Text, colour);
            const bool clicked =
                ImGui::Selectable(text.c_str(), entry.name == typed_,
                                  ImGuiSelectableFlags_AllowDoubleClick | ImGuiSelectableFlags_DontClosePopups);
            ImGui::PopStyleColor();
            if (!clicked) continue;
            if (entry.folder) {
                folder = folder_ / entry.name;
            } else {
                typed_ = entry.name;
                confirming_ = false;
                if (ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left)) accept(context, folder_ / entry.name);
            }
        }
    }
    if (entries_.empty() && trouble_.empty()) ImGui::TextDisabled("%s", tr("No such files here."));
    ImGui::EndChild();
    if (!folder.empty()) enter(folder);
}

int FileBrowser::complete(ImGuiInputTextCallbackData* data) {
    const auto& browser = *static_cast<const FileBrowser*>(data->UserData);
    const std::string typed(data->Buf, static_cast<std::size_t>(data->BufTextLen));
    const fs::path path = browser.folder_ / typed;
    std::vector<FolderEntry> entries;
    try {
        entries =
            listFolder(path.parent_path(), browser.allFiles_ ? std::vector<std::string>{} : suffixesOf(browser.what_));
    } catch (const FileError&) {
        return 0;
    }
    const std::size_t slash = typed.rfind('/');
    const std::string head = slash == std::string::npos ? std::string() : typed.substr(0, slash + 1);
    const std::string full = head + completed(typed.substr(head.size()), entries);
    data->DeleteChars(0, data->BufTextLen);
    data->InsertChars(0, full.c_str());
    return 0;
}

void FileBrowser::drawTyped(const PaneContext& context) {
    if (opening_) ImGui::SetKeyboardFocusHere();
    const float buttons = context.px(190);
    ImGui::SetNextItemWidth(std::max(context.px(80), ImGui::GetContentRegionAvail().x - buttons));
    const bool entered = ImGui::InputTextWithHint(
        "##path", tr("name or path, Tab completes"), &typed_,
        ImGuiInputTextFlags_EnterReturnsTrue | ImGuiInputTextFlags_CallbackCompletion, &FileBrowser::complete, this);
    ImGui::SameLine();
    const bool pressed = ImGui::Button(confirming_ ? tr("Replace") : action(what_), {context.px(86), 0});
    ImGui::SameLine();
    if (ImGui::Button(tr("Cancel"), {context.px(86), 0})) {
        open_ = false;
        ImGui::CloseCurrentPopup();
    }
    if ((entered || pressed) && !typed_.empty()) accept(context, folder_ / typed_);
}

void FileBrowser::accept(const PaneContext& context, const fs::path& path) {
    std::error_code error;
    if (fs::is_directory(path, error)) {
        enter(path);
        typed_.clear();
        return;
    }
    if (writes(what_) && fs::exists(path, error) && !confirming_) {
        confirming_ = true;
        trouble_ = say("{} is there already.", path.filename().string());
        return;
    }
    if (!writes(what_) && !fs::exists(path, error)) {
        trouble_ = say("There is no {}.", path.string());
        return;
    }
    switch (what_) {
        case AskForFile::What::Program:
            context.commands.add(OpenProgram{path});
            break;
        case AskForFile::What::Setup:
            context.commands.add(OpenSetup{path});
            break;
        case AskForFile::What::SaveAs:
            context.commands.add(SaveAs{path});
            break;
        case AskForFile::What::Paper:
            context.commands.add(WritePaper{path});
            break;
        case AskForFile::What::Picture:
            context.commands.add(SavePicture{path});
            break;
        case AskForFile::What::Video:
            context.commands.add(SaveVideo{path});
            break;
        case AskForFile::What::Lesson:
            context.commands.add(OpenLesson{path.parent_path()});
            break;
        case AskForFile::What::Compare:
            context.commands.add(CompareWith{path});
            break;
    }
    open_ = false;
    ImGui::CloseCurrentPopup();
}

void FileBrowser::draw(const PaneContext& context) {
    if (!open_) return;
    const std::string label = std::string(title(what_)) + "###files";
    if (opening_) ImGui::OpenPopup("###files");
    const ImVec2 display = ImGui::GetIO().DisplaySize;
    const ImVec2 size{std::min(context.px(640), display.x - context.px(24)),
                      std::min(context.px(460), display.y - context.px(24))};
    ImGui::SetNextWindowSize(size);
    ImGui::SetNextWindowPos({0.5f * display.x, 0.5f * display.y}, 0, {0.5f, 0.5f});
    if (!ImGui::BeginPopupModal(
            label.c_str(), &open_,
            ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings)) {
        return;
    }
    drawFolders(context);
    const float rows = 2 * ImGui::GetFrameHeightWithSpacing() + context.px(4);
    drawEntries(context, std::max(context.px(60), ImGui::GetContentRegionAvail().y - rows));
    if (ImGui::Checkbox(tr("All files"), &allFiles_)) readFolder();
    ImGui::SameLine();
    ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.wordTool));
    ImGui::TextUnformatted(trouble_.c_str());
    ImGui::PopStyleColor();
    drawTyped(context);
    opening_ = false;
    if (hit(context.input, Key::Escape)) {
        open_ = false;
        ImGui::CloseCurrentPopup();
    }
    ImGui::EndPopup();
}

}  // namespace firstoff::gui
