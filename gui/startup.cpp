#include "gui/startup.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <functional>
#include <map>
#include <string_view>
#include <vector>

#include "sim/base/language_choice.h"
#include "sim/base/say.h"

namespace firstoff::gui {

const char* const kUsage = later(R"(firstoff-window [PROGRAM] [--setup FILE]
    Opens the window on PROGRAM, or on the demo job. Without --setup the file of the same name ending in .toml is taken.
  --view machine|part|close|end-on  what the picture shows: all of the machine, the work, tool and cut, along the spindle
  --view words|lessons|clearances|sizes|cut|time|what-if|mistakes
                                    with that page in sight; may stand beside the other --view
  --view by-size                    the work, its surfaces coloured and numbered by what their sizes come to
  --report FILE                     writes what the window shows into FILE as JSON whenever it changes, for tests and tools
  --section beside|alone|none       the half-section as a drawing beneath the picture, or in its place
  --lesson FOLDER [--step N]        opens a lesson, at a step
  --cutaway                         leave out a quarter of the billet; --cutaway=half for a half
  --colour-by-tool                  colour cut surfaces by the tool that left them
  --light, --dark                   the look, this time
  --projector                       large type, thick lines, high contrast, fewer things on screen
  --quality plain|fine|finest|automatic
                                    what the picture may cost; pictures to files are finest unless told otherwise
  --neighbours solid|faded|left-out what is done with bodies that stand between the eye and the cut
  --chips                           chips run off the tool in the picture; for the eye only, nothing is checked against them
  --language CODE                   of all texts: en or de; else the one chosen in the window, else as the environment asks
  --scale N                         size of all type and measures, 0.5 to 4
  --size WxH                        of the window or the picture, in pixels (1280x800)
firstoff-window [PROGRAM] [--setup FILE] --picture FILE.png [--at-line N | --at-time S] [--size WxH] …
    Draws the window into a file, without a display; the end of the cycle unless told otherwise.
  --view finish                     instead of the window: the surface that the line leaves, close up, with its feed marks
  --scene-only                      only the picture of the lathe
firstoff-window [PROGRAM] --bench-frames N [--size WxH] [--quality LEVEL] [--bench-moves M]
    Plays N frames without a display, prints for each quality how long they took, then how long a movement of the mouse
    takes to its frame while a job of M moves plays (1000000; 0: left out), and ends.
Without a display, FIRSTOFF_GL_DEVICE says what draws: any (an accelerator if EGL has one), software, or the number of an
EGL device.
Exit code: 0 done, 2 the command or a file could not be used.
)");

namespace {

template <typename Number>
Number number(std::string_view option, std::string_view text, Number low, Number high) {
    Number value{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool read = error == std::errc() && end == text.data() + text.size();
    if (!read || !(value >= low && value <= high)) {
        throw UsageError(say("{} needs a number from {} to {}, not \"{}\".", option, low, high, text));
    }
    return value;
}

constexpr int kLargestSide = 8192;  // pixels; beyond it software OpenGL has no textures

void readSize(std::string_view text, Startup& startup) {
    const std::size_t cross = text.find('x');
    if (cross == std::string_view::npos) throw UsageError(say("--size needs WxH, such as 1280x800, not \"{}\".", text));
    startup.width = number("--size", text.substr(0, cross), 64, kLargestSide);
    startup.height = number("--size", text.substr(cross + 1), 64, kLargestSide);
    startup.sizeGiven = true;
}

void readView(std::string_view text, Startup& startup) {
    static constexpr std::string_view kPages[] = {"words", "lessons", "clearances", "sizes",
                                                  "cut",   "time",    "what-if",    "mistakes"};
    if (std::find(std::begin(kPages), std::end(kPages), text) != std::end(kPages)) {
        startup.page = text;
        return;
    }
    if (text == "by-size") {
        startup.view = ViewName::Part;
        startup.colouring = Colouring::Size;
        return;
    }
    startup.finishView = text == "finish";
    if (startup.finishView) return;
    startup.view = viewNamed(text);
    if (startup.view) return;
    throw UsageError(say(
        "--view needs machine, part, close, end-on, by-size, words, lessons, clearances, sizes, cut, time, what-if, "
        "mistakes or finish, not "
        "\"{}\".",
        text));
}

void readSection(std::string_view text, Startup& startup) {
    using Shown = SectionSettings::Shown;
    if (text == "none") {
        startup.section = Shown::PictureOnly;
    } else if (text == "beside") {
        startup.section = Shown::Both;
    } else if (text == "alone") {
        startup.section = Shown::SectionOnly;
    } else {
        throw UsageError(say("--section needs beside, alone or none, not \"{}\".", text));
    }
}

void readCutaway(std::string_view text, Startup& startup) {
    if (text != "quarter" && text != "half") throw UsageError(tr("--cutaway needs quarter or half."));
    startup.cutaway = text == "half" ? 2 : 1;
}

void readQuality(std::string_view text, Startup& startup) {
    if (text == "automatic") {
        startup.quality = QualityChoice::Automatic;
        return;
    }
    const std::optional<Quality> quality = qualityNamed(text);
    if (!quality) throw UsageError(tr("--quality needs plain, fine, finest or automatic."));
    startup.quality = choiceOf(*quality);
}

void readNeighbours(std::string_view text, Startup& startup) {
    static constexpr std::string_view kNames[] = {"solid", "faded", "left-out"};
    const auto* const found = std::find(std::begin(kNames), std::end(kNames), text);
    if (found == std::end(kNames)) throw UsageError(tr("--neighbours needs solid, faded or left-out."));
    startup.neighbours = static_cast<Neighbours>(found - std::begin(kNames));
}

void readLanguage(std::string_view text, Startup& startup) {
    if (!isLanguage(text)) throw UsageError(say("--language needs one of {}, not \"{}\".", languageCodesTold(), text));
    startup.language = text;
}

using Flag = std::function<void(Startup&)>;
using Valued = std::function<void(std::string_view, Startup&)>;

const std::map<std::string_view, Flag>& flags() {
    static const std::map<std::string_view, Flag> table{
        {"--cutaway", [](Startup& s) { s.cutaway = 1; }},
        {"--colour-by-tool", [](Startup& s) { s.colouring = Colouring::Tool; }},
        {"--light", [](Startup& s) { s.dark = false; }},
        {"--dark", [](Startup& s) { s.dark = true; }},
        {"--chips", [](Startup& s) { s.chips = true; }},
        {"--projector", [](Startup& s) { s.projector = true; }},
        {"--scene-only", [](Startup& s) { s.sceneOnly = true; }},
        {"--help", [](Startup& s) { s.help = true; }},
        {"-h", [](Startup& s) { s.help = true; }},
    };
    return table;
}

const std::map<std::string_view, Valued>& valued() {
    static const std::map<std::string_view, Valued> table{
        {"--setup", [](std::string_view v, Startup& s) { s.setup = v; }},
        {"--picture", [](std::string_view v, Startup& s) { s.picture = v; }},
        {"--at-line", [](std::string_view v, Startup& s) { s.atLine = number("--at-line", v, 1L, 1'000'000'000L); }},
        {"--at-time", [](std::string_view v, Startup& s) { s.atTimeS = number("--at-time", v, 0.0, 1e9); }},
        {"--size", readSize},
        {"--view", readView},
        {"--section", readSection},
        {"--report", [](std::string_view v, Startup& s) { s.report = v; }},
        {"--lesson", [](std::string_view v, Startup& s) { s.lesson = v; }},
        {"--step", [](std::string_view v, Startup& s) { s.lessonStep = number("--step", v, 1, 999); }},
        {"--quality", readQuality},
        {"--neighbours", readNeighbours},
        {"--language", readLanguage},
        {"--bench-moves",
         [](std::string_view v, Startup& s) { s.benchMoves = number("--bench-moves", v, 0, 10'000'000); }},
        {"--scale", [](std::string_view v, Startup& s) { s.scale = number("--scale", v, 0.5, 4.0); }},
        {"--bench-frames",
         [](std::string_view v, Startup& s) { s.benchFrames = number("--bench-frames", v, 1, 1'000'000); }},
    };
    return table;
}

void check(const Startup& startup) {
    if (startup.atLine && startup.atTimeS) throw UsageError(tr("Give --at-line or --at-time, not both."));
    if (startup.picture && startup.benchFrames > 0) throw UsageError(tr("Give --picture or --bench-frames, not both."));
    if (startup.finishView && !(startup.picture && (startup.atLine || startup.atTimeS))) {
        throw UsageError(tr("--view finish goes with --picture and --at-line or --at-time, which say whose surface."));
    }
    if (startup.sceneOnly && !startup.picture) throw UsageError(tr("--scene-only goes with --picture."));
}

}  // namespace

Startup readCommandLine(int argc, const char* const* argv) {
    Startup startup;
    const std::vector<std::string_view> words(argv + 1, argv + std::max(1, argc));
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string_view word = words[i];
        if (const auto flag = flags().find(word); flag != flags().end()) {
            flag->second(startup);
        } else if (word.substr(0, 10) == "--cutaway=") {
            readCutaway(word.substr(10), startup);
        } else if (const auto option = valued().find(word); option != valued().end()) {
            if (i + 1 == words.size()) throw UsageError(say("{} needs something behind it.", word));
            option->second(words[++i], startup);
        } else if (word.size() > 1 && word.front() == '-') {
            throw UsageError(say("There is no option {}.", word));
        } else if (startup.program) {
            throw UsageError(say("One program at a time: {} or {}?", startup.program->string(), word));
        } else {
            startup.program = word;
        }
    }
    check(startup);
    return startup;
}

}  // namespace firstoff::gui
