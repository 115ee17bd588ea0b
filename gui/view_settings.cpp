#include "gui/view_settings.h"

#include <toml++/toml.h>
#include <algorithm>
#include <cstdlib>
#include <sstream>

#include "gui/file_io.h"
#include "sim/base/language_choice.h"
#include "sim/base/say.h"
#include "sim/clearance/machine_bodies.h"

namespace firstoff::gui {

namespace fs = std::filesystem;

namespace {

constexpr unsigned kBodyKinds = static_cast<unsigned>(BodyKind::Other) + 1;

void read(const toml::table& table, std::string_view key, bool& value) {
    if (const auto found = table[key].value<bool>()) value = *found;
}

template <typename Number>
void read(const toml::table& table, std::string_view key, Number& value, Number low, Number high) {
    const auto found = table[key].value<double>();
    if (found && *found >= static_cast<double>(low) && *found <= static_cast<double>(high)) {
        value = static_cast<Number>(*found);
    }
}

constexpr const char* kColourings[] = {"metal", "by tool", "by size"};  // in order of Colouring

constexpr const char* kQualityNames[] = {"automatic", "plain", "fine", "finest"};  // of QualityChoice
constexpr const char* kUnits[] = {"mm", "inch"};                                   // of Units
constexpr const char* kNeighbours[] = {"solid", "faded", "left out"};              // of Neighbours

// Which of the names of an enumeration stands under `key`; as it was where none does.
template <typename Enum, std::size_t N>
void readName(const toml::table& table, std::string_view key, const char* const (&names)[N], Enum& value) {
    const auto text = table[key].value<std::string>();
    for (std::size_t i = 0; text && i < N; ++i) {
        if (*text == names[i]) value = static_cast<Enum>(i);
    }
}

template <typename Enum, std::size_t N>
const char* nameIn(const char* const (&names)[N], Enum value) {
    return names[static_cast<std::size_t>(value)];
}

std::optional<Tab> tabIn(const toml::node_view<toml::node>& node) {
    return tabNamed(node.value_or(std::string_view()));
}

// By their names, so that the file outlives a change of their numbers.
std::uint32_t kindsIn(const toml::array* names) {
    std::uint32_t kinds = 0;
    if (!names) return kinds;
    for (const toml::node& entry : *names) {
        const auto text = entry.value<std::string>();
        for (unsigned kind = 0; text && kind < kBodyKinds; ++kind) {
            if (*text == name(static_cast<BodyKind>(kind))) kinds |= 1u << kind;
        }
    }
    return kinds;
}

constexpr std::size_t kMostLanes = 32;
constexpr const char* kShown[] = {"picture", "both", "half-section"};  // in order of SectionSettings::Shown

void readSection(const toml::table* table, SectionSettings& section) {
    if (!table) return;
    const auto shown = (*table)["shown"].value_or(std::string());
    for (std::size_t i = 0; i < std::size(kShown); ++i) {
        if (shown == kShown[i]) section.shown = static_cast<SectionSettings::Shown>(i);
    }
    read(*table, "share", section.share, 0.15f, 0.85f);
    read(*table, "ways", section.paths);
    read(*table, "sizes", section.sizes);
    read(*table, "drawing", section.drawing);
    read(*table, "magnified", section.magnified, 1, 1000);
}

toml::table sectionTable(const SectionSettings& section) {
    return toml::table{
        {"shown", kShown[static_cast<std::size_t>(section.shown)]},
        {"share", section.share},
        {"ways", section.paths},
        {"sizes", section.sizes},
        {"drawing", section.drawing},
        {"magnified", section.magnified},
    };
}

}  // namespace

void rememberProgram(ViewSettings& view, const fs::path& path) {
    std::error_code error;
    const std::string name = fs::absolute(path, error).lexically_normal().string();
    std::erase(view.recent, name);
    view.recent.insert(view.recent.begin(), name);
    if (view.recent.size() > kRecentPrograms) view.recent.resize(kRecentPrograms);
}

ViewSettings readViewSettings(std::string_view text) {
    ViewSettings view;
    toml::table table;
    try {
        table = toml::parse(text);
    } catch (const toml::parse_error&) {
        return view;
    }
    read(table, "dark", view.dark);
    read(table, "cutaway", view.cutaway, 0, 2);
    read(table, "projector", view.projector);
    read(table, "projector_dark", view.projectorDark);
    read(table, "chips", view.chips);
    read(table, "follow_tool", view.followTool);
    read(table, "less_motion", view.lessMotion);
    readName(table, "surfaces", kColourings, view.colouring);
    readName(table, "picture_quality", kQualityNames, view.quality);
    readName(table, "neighbours", kNeighbours, view.neighbours);
    readName(table, "units", kUnits, view.units);
    view.hiddenBodies = kindsIn(table["hidden"].as_array());
    read(table, "readouts_width", view.readoutsWidth, 80.0f, 2000.0f);
    read(table, "program_width", view.programWidth, 80.0f, 4000.0f);
    read(table, "findings_height", view.findingsHeight, 40.0f, 4000.0f);
    read(table, "timeline_height", view.timelineHeight, 40.0f, 2000.0f);
    read(table, "findings_in_text", view.findingsInText);
    read(table, "scale", view.scale, 0.5f, 4.0f);
    read(table, "window_width", view.windowWidth, 0, 16384);
    read(table, "window_height", view.windowHeight, 0, 16384);
    read(table, "play_speed", view.playSpeed, 0.01, 1000.0);
    readSection(table["half_section"].as_table(), view.section);
    read(table, "play_by_block", view.playByBlock);
    read(table, "panel", view.panel);
    if (const auto page = tabIn(table["page"]); page && *page != Tab::Program) view.below = *page;
    view.inPlace = tabIn(table["page_in_low_window"]).value_or(view.inPlace);
    read(table, "clearances_by_time", view.clearancesByTime);
    const std::string language = table["language"].value_or(std::string());
    if (isLanguage(language)) view.language = language;
    if (const toml::array* lanes = table["folded_lanes"].as_array()) {
        for (const toml::node& entry : *lanes) {
            if (const auto lane = entry.value<std::string>(); lane && view.foldedLanes.size() < kMostLanes)
                view.foldedLanes.push_back(*lane);
        }
    }
    if (const toml::array* recent = table["recent"].as_array()) {
        for (const toml::node& entry : *recent) {
            const auto path = entry.value<std::string>();
            if (path && view.recent.size() < kRecentPrograms) view.recent.push_back(*path);
        }
    }
    return view;
}

std::string writeViewSettings(const ViewSettings& view) {
    toml::array recent;
    for (const std::string& path : view.recent) recent.push_back(path);
    toml::array lanes;
    for (const std::string& lane : view.foldedLanes) lanes.push_back(lane);
    toml::array hidden;
    for (unsigned kind = 0; kind < kBodyKinds; ++kind) {
        if (view.hiddenBodies & (1u << kind)) hidden.push_back(name(static_cast<BodyKind>(kind)));
    }
    toml::table table{
        {"dark", view.dark},
        {"cutaway", view.cutaway},
        {"projector", view.projector},
        {"projector_dark", view.projectorDark},
        {"chips", view.chips},
        {"follow_tool", view.followTool},
        {"less_motion", view.lessMotion},
        {"surfaces", nameIn(kColourings, view.colouring)},
        {"picture_quality", nameIn(kQualityNames, view.quality)},
        {"neighbours", nameIn(kNeighbours, view.neighbours)},
        {"units", nameIn(kUnits, view.units)},
        {"hidden", hidden},
        {"readouts_width", view.readoutsWidth},
        {"program_width", view.programWidth},
        {"findings_height", view.findingsHeight},
        {"timeline_height", view.timelineHeight},
        {"findings_in_text", view.findingsInText},
        {"scale", view.scale},
        {"window_width", view.windowWidth},
        {"window_height", view.windowHeight},
        {"play_speed", view.playSpeed},
        {"play_by_block", view.playByBlock},
        {"panel", view.panel},
        {"page", nameOf(view.below)},
        {"page_in_low_window", nameOf(view.inPlace)},
        {"clearances_by_time", view.clearancesByTime},
        {"folded_lanes", lanes},
        {"recent", recent},
        {"half_section", sectionTable(view.section)},
    };
    if (!view.language.empty()) table.insert("language", view.language);
    std::ostringstream out;
    out << "# " << tr("How the window was left. Delete this file to go back to the usual arrangement.") << '\n'
        << table << '\n';
    return out.str();
}

fs::path stateFolder() {
    const char* state = std::getenv("XDG_STATE_HOME");
    if (state != nullptr && *state == '/') return fs::path(state) / "firstoff";
    const char* home = std::getenv("HOME");
    if (home != nullptr && *home != '\0') return fs::path(home) / ".local" / "state" / "firstoff";
    return {};
}

fs::path viewSettingsPath() {
    const char* config = std::getenv("XDG_CONFIG_HOME");
    if (config != nullptr && *config == '/') return fs::path(config) / "firstoff" / "view.toml";
    const char* home = std::getenv("HOME");
    if (home != nullptr && *home != '\0') return fs::path(home) / ".config" / "firstoff" / "view.toml";
    return {};
}

ViewSettings loadViewSettings(const fs::path& path) {
    std::error_code error;
    if (path.empty() || !fs::exists(path, error)) return {};
    try {
        return readViewSettings(readWholeFile(path));
    } catch (const FileError&) {
        return {};
    }
}

void saveViewSettings(const ViewSettings& view, const fs::path& path) {
    if (path.empty()) return;
    std::error_code error;
    fs::create_directories(path.parent_path(), error);
    try {
        writeWholeFile(path, writeViewSettings(view));
    } catch (const FileError&) {
    }
}

}  // namespace firstoff::gui
