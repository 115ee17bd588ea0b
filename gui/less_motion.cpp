#include "gui/less_motion.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cstdlib>
#include <filesystem>
#include <string>

#include "gui/file_io.h"

namespace firstoff::gui {

namespace fs = std::filesystem;

namespace {

std::string withoutSpaces(std::string_view line) {
    std::string text;
    std::copy_if(line.begin(), line.end(), std::back_inserter(text),
                 [](char c) { return !std::isspace(static_cast<unsigned char>(c)); });
    return text;
}

bool isZero(std::string_view value) {
    double number = 1;
    const auto [end, error] = std::from_chars(value.data(), value.data() + value.size(), number);
    return error == std::errc() && number == 0;
}

bool lineAsks(const std::string& line) {
    constexpr std::string_view kGtk = "gtk-enable-animations=", kKde = "AnimationDurationFactor=";
    const std::string_view text = line;
    if (text.starts_with(kGtk)) return text.substr(kGtk.size()) == "false" || isZero(text.substr(kGtk.size()));
    return text.starts_with(kKde) && isZero(text.substr(kKde.size()));
}

fs::path configFolder() {
    const char* config = std::getenv("XDG_CONFIG_HOME");
    if (config != nullptr && *config == '/') return config;
    const char* home = std::getenv("HOME");
    return home != nullptr && *home != '\0' ? fs::path(home) / ".config" : fs::path();
}

}  // namespace

bool asksForLessMotion(std::string_view text) {
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        if (lineAsks(withoutSpaces(text.substr(0, end)))) return true;
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return false;
}

bool systemWantsLessMotion() {
    const fs::path folder = configFolder();
    if (folder.empty()) return false;
    for (const char* file : {"gtk-4.0/settings.ini", "gtk-3.0/settings.ini", "kdeglobals"}) {
        std::error_code error;
        if (!fs::exists(folder / file, error)) continue;
        try {
            if (asksForLessMotion(readWholeFile(folder / file))) return true;
        } catch (const FileError&) {
        }
    }
    return false;
}

}  // namespace firstoff::gui
