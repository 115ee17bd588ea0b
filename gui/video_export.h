// A stretch of the cycle as a video, frame by frame, through ffmpeg where that is installed.
#pragma once

#include <sys/types.h>

#include <filesystem>

#include "gui/gl/framebuffer.h"

namespace firstoff::gui {

// Whether there is an ffmpeg on the user's path.
bool videoCanBeWritten();

// Frames go to ffmpeg as they are drawn; the file gets its name when the last one is in it. Throws FileError where
// ffmpeg cannot be started, gives up, or the file cannot be written.
class VideoExport {
public:
    static constexpr int kFramesPerSecond = 30;

    // Sides are cut to even numbers of pixels, as the video format wants them.
    VideoExport(std::filesystem::path path, int width, int height);
    // What was not finished leaves no file.
    ~VideoExport();
    VideoExport(const VideoExport&) = delete;
    VideoExport& operator=(const VideoExport&) = delete;

    // `image` must be at least as large as the video.
    void add(const Image& image);
    void finish();

private:
    int wait();

    std::filesystem::path path_, part_;
    int width_, height_;
    int pipe_ = -1;
    pid_t ffmpeg_ = -1;
};

}  // namespace firstoff::gui
