#include "gui/video_export.h"

#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <sstream>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

#include "gui/file_io.h"
#include "sim/base/say.h"

extern char** environ;

namespace firstoff::gui {

namespace fs = std::filesystem;

namespace {

// The program on the user's path; empty if there is none.
fs::path onPath(const char* program) {
    const char* all = std::getenv("PATH");
    std::istringstream folders(all ? all : "");
    std::string folder;
    while (std::getline(folders, folder, ':')) {
        const fs::path found = fs::path(folder) / program;
        if (!folder.empty() && access(found.c_str(), X_OK) == 0) return found;
    }
    return {};
}

}  // namespace

bool videoCanBeWritten() {
    return !onPath("ffmpeg").empty();
}

VideoExport::VideoExport(fs::path path, int width, int height)
    : path_(std::move(path)), width_(width & ~1), height_(height & ~1) {
    const fs::path program = onPath("ffmpeg");
    if (program.empty())
        throw FileError(tr("Videos are written by ffmpeg, which was not found. Install it and try again."));
    // The ending stays, since ffmpeg goes by it.
    part_ = path_.parent_path() / (path_.stem().string() + ".part" + path_.extension().string());
    int ends[2] = {-1, -1};
    if (pipe2(ends, O_CLOEXEC) != 0)
        throw FileError(say("The video could not be begun: {}.", std::generic_category().message(errno)));
    const std::string size = fmt::format("{}x{}", width_, height_), rate = std::to_string(kFramesPerSecond);
    const std::vector<std::string> words{
        program.string(), "-loglevel",   "error",       "-y",         "-f", "rawvideo", "-pixel_format",
        "rgb24",          "-video_size", size,          "-framerate", rate, "-i",       "-",
        "-pix_fmt",       "yuv420p",     part_.string()};
    std::vector<char*> arguments;
    for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
    arguments.push_back(nullptr);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, ends[0], STDIN_FILENO);
    const int failed = posix_spawn(&ffmpeg_, program.c_str(), &actions, nullptr, arguments.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    close(ends[0]);
    pipe_ = ends[1];
    if (failed == 0) return;
    close(std::exchange(pipe_, -1));
    ffmpeg_ = -1;
    throw FileError(say("ffmpeg could not be started: {}.", std::generic_category().message(failed)));
}

VideoExport::~VideoExport() {
    if (ffmpeg_ < 0) return;
    close(pipe_);
    kill(ffmpeg_, SIGTERM);
    wait();
    std::error_code error;
    fs::remove(part_, error);
}

int VideoExport::wait() {
    int status = -1;
    while (waitpid(ffmpeg_, &status, 0) < 0 && errno == EINTR) {
    }
    ffmpeg_ = -1;
    return status;
}

void VideoExport::add(const Image& image) {
    // A frame of another size (the window was resized): what is there of it, the rest black.
    std::vector<std::uint8_t> frame(static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_) * 3);
    for (int y = 0; y < std::min(height_, image.height); ++y) {
        const std::size_t bytes = static_cast<std::size_t>(std::min(width_, image.width)) * 3;
        std::copy_n(image.rgb.begin() + static_cast<std::ptrdiff_t>(y) * image.width * 3, bytes,
                    frame.begin() + static_cast<std::ptrdiff_t>(y) * width_ * 3);
    }
    // Should ffmpeg have given up, the write fails instead of ending this program.
    const auto before = signal(SIGPIPE, SIG_IGN);
    std::size_t done = 0;
    bool broken = false;
    while (done < frame.size() && !broken) {
        const ssize_t part = write(pipe_, frame.data() + done, frame.size() - done);
        if (part > 0) done += static_cast<std::size_t>(part);
        broken = part < 0 && errno != EINTR;
    }
    signal(SIGPIPE, before);
    if (broken) throw FileError(say("ffmpeg gave up while it wrote {}.", path_.string()));
}

void VideoExport::finish() {
    close(std::exchange(pipe_, -1));
    const int status = wait();
    std::error_code error;
    if (status == 0) fs::rename(part_, path_, error);
    if (status == 0 && !error) return;
    const std::string why = error ? error.message() : std::string(tr("ffmpeg gave up"));
    fs::remove(part_, error);
    throw FileError(say("{} could not be written: {}.", path_.string(), why));
}

}  // namespace firstoff::gui
