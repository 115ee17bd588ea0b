// The window's way in, and the boundary where failures of the outside world become a message.
#include <cstdio>
#include <exception>

#include "gui/bench_shell.h"
#include "gui/picture_shell.h"
#include "gui/startup.h"
#include "gui/view_settings.h"
#include "gui/window_shell.h"
#include "sim/base/language_choice.h"
#include "sim/base/say.h"

namespace {

// Empty: none. Pictures and measurements do not hang on the user's settings.
std::string chosenLanguage(const firstoff::gui::Startup& startup) {
    if (startup.language) return *startup.language;
    const bool window = !startup.picture && startup.benchFrames == 0;
    return window ? firstoff::gui::loadViewSettings().language : std::string();
}

}  // namespace

int main(int argc, char** argv) {
    using namespace firstoff;
    using namespace firstoff::gui;
    constexpr int kDone = 0;
    constexpr int kUnusable = 2;
    useLanguage(languageFor({}, languageAskedByEnvironment()));  // for what may be wrong with the command line
    try {
        const Startup startup = readCommandLine(argc, argv);
        useLanguage(languageFor(chosenLanguage(startup), languageAskedByEnvironment()));
        if (startup.help) {
            std::fputs(tr(kUsage), stdout);
        } else if (startup.picture) {
            drawPicture(startup);
        } else if (startup.benchFrames > 0) {
            runBench(startup);
        } else {
            runWindow(startup);
        }
        return kDone;
    } catch (const UsageError& error) {
        std::fprintf(stderr, "firstoff-window: %s\n\n%s", error.what(), tr(kUsage));
    } catch (const std::exception& error) {
        std::fprintf(stderr, "firstoff-window: %s\n", error.what());
    }
    return kUnusable;
}
