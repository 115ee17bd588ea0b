// The window's way in, and the boundary where failures of the outside world become a message.
#include <cstdio>
#include <exception>

#include "gui/bench_shell.h"
#include "gui/picture_shell.h"
#include "gui/startup.h"
#include "gui/window_shell.h"
#include "sim/base/say.h"

int main(int argc, char** argv) {
    using namespace firstoff::gui;
    constexpr int kDone = 0;
    constexpr int kUnusable = 2;
    try {
        const Startup startup = readCommandLine(argc, argv);
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
