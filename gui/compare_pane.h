// The program beside a text of before, over the whole window: two columns in step, what differs lit, and each
// difference to be taken over either way.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "gui/compared_texts.h"
#include "gui/pane.h"

namespace firstoff::gui {

// The left column is the program as it is edited, the right one the other text. What is taken into the left goes by the
// command ChangeText; the right one is the pane's own until it is saved.
class ComparePane {
public:
    // `path`: where the other text is saved to when it was changed; `name` for people.
    void open(std::string name, std::filesystem::path path, std::string text);
    void close() { open_ = false; }
    bool isOpen() const { return open_; }
    bool restless() const { return open_ && !compared_.known(); }

    void draw(const PaneContext& context);

    // For App: the left text was changed as the pane asked.
    void leftChanged(const TextDocument& left);
    void otherSaved() { savedRevision_ = other_.revision(); }
    const TextDocument& other() const { return other_; }
    const std::filesystem::path& path() const { return path_; }
    bool otherModified() const { return other_.revision() != savedRevision_; }
    const ComparedTexts& compared() const { return compared_; }
    std::size_t chosen() const { return chosen_; }

private:
    void drawHead(const PaneContext& context);
    void drawColumns(const PaneContext& context, const Rect& area);
    void drawRow(const PaneContext& context, const Rect& area, std::size_t index, float y, float middle);
    void drawLine(const PaneContext& context, const TextDocument& document, std::size_t line, const Rect& place,
                  const std::vector<Stretch>& changed) const;
    void drawTakers(const PaneContext& context, std::size_t difference, float x, float y);
    void drawBar(const PaneContext& context, const Rect& bar, double visible);
    void handleKeys(const PaneContext& context);
    void take(const PaneContext& context, std::size_t difference, Side into);
    void undo(const PaneContext& context);
    void show(std::size_t difference);

    bool open_ = false;
    std::string name_;
    std::filesystem::path path_;
    TextDocument other_;
    std::uint64_t savedRevision_ = 0;
    ComparedTexts compared_;
    std::size_t chosen_ = 0;
    std::vector<Side> taken_;                 // which side was changed, for undo
    std::optional<std::size_t> takenToLeft_;  // waits for App to have changed the document
    double top_ = 0;
    float height_ = 1, lineHeight_ = 1;
    bool showFirst_ = false;
};

}  // namespace firstoff::gui
