// What the window shows, as JSON: for tests that drive it with a real mouse and keyboard, and for tools beside it.
#pragma once

#include <filesystem>
#include <string>

#include "gui/app.h"

namespace firstoff::gui {

// {"format":"firstoff-window-report","version":1,"program":…,"setup":…,"modified":…,"stale":…,"busy":…,"verdict":…,
//  "findings":…,"time_s":…,"cycle_s":…,"line":…,"playing":…,"held":…,"single_block":…,"page":…,"half_section":…,
//  "gauged":…,"looked_up":…,"found":…,"changes":…,"mistake":…,"lesson":…,"step":…,"mark":…,"page_at":[x,y,w,h],"tabs_at":{word:[x,y,w,h],…},"message":…};
//  lines from 1, 0: none. Keys and names do not hang on the language in use; "gauged", "mistake" and "message" are told
//  in it. Tabs go by the first word of their names in English.
std::string windowReport(const App& app);

// Writes the report into a file, by a temporary that is renamed, when it is another than the last one.
class StateReport {
public:
    explicit StateReport(std::filesystem::path file) : file_(std::move(file)) {}
    void write(const App& app);

private:
    std::filesystem::path file_;
    std::string last_;
};

}  // namespace firstoff::gui
