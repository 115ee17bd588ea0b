// What the command line asks for.
#pragma once

#include <filesystem>
#include <optional>
#include <stdexcept>
#include <string>

#include "gui/scene/camera.h"
#include "gui/scene/colouring.h"
#include "gui/section/section_settings.h"
#include "gui/view_settings.h"

namespace firstoff::gui {

// The command line could not be used; the text says why. Exit code 2.
struct UsageError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

struct Startup {
    std::optional<std::filesystem::path> program;  // without one: the demo job
    std::optional<std::filesystem::path> setup;    // without one: the program's own, beside it
    std::optional<std::filesystem::path> picture;  // draw into this file instead of a window
    std::optional<long> atLine;                    // 1-based
    std::optional<double> atTimeS;
    int width = 1280, height = 800;
    bool sizeGiven = false;
    std::optional<ViewName> view;
    bool finishView = false;  // instead of the window: the surface that a line leaves, close up
    // With this page in sight: "words", "clearances", "sizes", "cut", "time", "what-if"; empty: as always.
    std::string page;
    std::optional<std::filesystem::path> lesson;  // folder of one to open
    int lessonStep = 0;                           // from 1; 0: the first that is not right yet
    int cutaway = 0;
    std::optional<SectionSettings::Shown> section;  // as --section says
    Colouring colouring = Colouring::Metal;
    std::optional<bool> dark;
    bool projector = false;
    bool chips = false;
    std::optional<QualityChoice> quality;
    std::optional<Neighbours> neighbours;
    bool sceneOnly = false;
    double scale = 0;                     // 0: as the display asks
    std::optional<std::string> language;  // of all texts, a code of languages()
    int benchFrames = 0;                  // play so many frames, print how long they took, end
    int benchMoves = 1'000'000;           // of the job that is played for the way from mouse to frame; 0: left out
    std::filesystem::path report;  // what the window shows is written there as JSON whenever it changes; empty: nowhere
    bool help = false;
    // Where text that is not saved is kept aside; empty: where it belongs, and nowhere while a picture is drawn.
    std::filesystem::path stateFolder;
    // Where the settings are kept; empty likewise.
    std::filesystem::path settingsFile;
};

Startup readCommandLine(int argc, const char* const* argv);
extern const char* const kUsage;

}  // namespace firstoff::gui
