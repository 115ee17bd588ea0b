// How the user likes the window: one plain struct, kept between sessions.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "gui/measures.h"
#include "gui/scene/colouring.h"
#include "gui/scene/neighbours.h"
#include "gui/scene/quality.h"
#include "gui/section/section_settings.h"
#include "gui/tab.h"

namespace firstoff::gui {

// What the user asked for in View > Picture quality.
enum class QualityChoice : std::uint8_t {
    Automatic,  // as fine as frames come often enough, see quality_pace.h; finest once nothing moves
    Plain,
    Fine,
    Finest
};

struct ViewSettings {
    bool dark = true;
    bool projector = false;      // large type, thick lines, high contrast, fewer things on screen
    bool projectorDark = false;  // its look, apart from the other one: walls are light
    QualityChoice quality = QualityChoice::Automatic;
    Neighbours neighbours = Neighbours::Faded;
    bool chips = false;       // run off the tool in the picture
    bool followTool = false;  // while playing, the camera goes along with the tool
    bool lessMotion = false;  // the camera goes at once where it is sent, as the system may ask as well
    int cutaway = 0;          // 0 whole, 1 a quarter left out, 2 a half
    Colouring colouring = Colouring::Metal;
    std::uint32_t hiddenBodies = 0;  // kinds of bodies left out of the picture, see KindSet
    SectionSettings section;
    // Sizes of the panes at scale 1, in pixels, as the splitters were left.
    float readoutsWidth = 216;
    float programWidth = 348;
    float findingsHeight = 0;  // 0: as much as the program
    float timelineHeight = 196;
    bool findingsInText = true;  // what is wrong with a line stands beneath it
    float scale = 1;             // of all type and measures, on top of what the display asks for
    int windowWidth = 0;         // as it was left, pixels; 0: never
    int windowHeight = 0;
    double playSpeed = 1;                  // seconds of the cycle per second
    bool playByBlock = false;              // every block takes as long to be watched
    bool panel = true;                     // the machine's panel beneath the picture
    std::vector<std::string> foldedLanes;  // of the timeline, by their names in English
    Units units = Units::Millimetres;      // of what the window tells, not of programs, findings, papers, set-ups
    Tab below = Tab::Findings;             // the page below the program,
    Tab inPlace = Tab::Program;            // and the one in its place in a low window
    bool clearancesByTime = false;         // contacts and near misses listed in order of time, not the worst first
    std::vector<std::string> recent;       // set by opening programs, newest first
    std::string language;                  // of all texts, a code of languages(); empty: as the environment asks

    // The look in force.
    bool darkLook() const { return projector ? projectorDark : dark; }
    void setDarkLook(bool wanted) { (projector ? projectorDark : dark) = wanted; }

    friend bool operator==(const ViewSettings&, const ViewSettings&) = default;
};

inline constexpr std::size_t kRecentPrograms = 8;

// The level that a choice other than Automatic fixes.
constexpr Quality fixedQuality(QualityChoice choice) {
    return choice == QualityChoice::Plain  ? Quality::Plain
           : choice == QualityChoice::Fine ? Quality::Fine
                                           : Quality::Finest;
}
constexpr QualityChoice choiceOf(Quality quality) {
    return static_cast<QualityChoice>(static_cast<int>(quality) + 1);
}

// Puts a program at the head of the list of recent ones.
void rememberProgram(ViewSettings& view, const std::filesystem::path& path);

// Reads what `writeViewSettings` wrote. Unknown keys, wrong types and sizes out of bounds are passed over: a spoilt
// file of settings never keeps the window from opening.
ViewSettings readViewSettings(std::string_view text);
std::string writeViewSettings(const ViewSettings& view);

// Where what a user has done is kept: firstoff in the user's folder of states ($XDG_STATE_HOME, else ~/.local/state;
// XDG Base Directory Specification). Empty if there is none.
std::filesystem::path stateFolder();

// Where the settings live: firstoff/view.toml in the user's configuration folder. Empty if there is none.
std::filesystem::path viewSettingsPath();
ViewSettings loadViewSettings(const std::filesystem::path& path = viewSettingsPath());
// Quietly does nothing where the folder cannot be written: losing a pane's width is no reason to disturb anyone.
void saveViewSettings(const ViewSettings& view, const std::filesystem::path& path);

}  // namespace firstoff::gui
