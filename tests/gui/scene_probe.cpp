// Draws a job off-screen: to look at it, and for frame times on this machine.
//   firstoff_scene_probe [PROGRAM --setup SETUP] [--time S] [--view NAME] [--size WxH] [--out FILE.png] [--light]
//                        [--cutaway quarter|half] [--colour-by-tool] [--tailstock] [--azimuth DEG] [--elevation DEG]
//                        [--nearer FACTOR] [--quick] [--bench FRAMES] [--quality LEVEL]
//                        [--demo NAME, a job of assets/jobs with its loads] [--chips]
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "gui/gl/offscreen.h"
#include "gui/gl/picture.h"
#include "gui/gl/png.h"
#include "gui/scene/lathe_scene.h"
#include "sim/base/units.h"
#include "sim/output/setup_files.h"
#include "tests/gui/picture_job.h"

namespace firstoff::gui {
namespace {

struct Wanted {
    std::string program, setup, demo, view = "machine", out;
    int width = 1280, height = 800, frames = 0;
    double time = -1;
    float azimuth = 1e9f, elevation = 1e9f, nearer = 1;
    bool tailstock = false;
    Edges edges = Edges::Fine;
    SceneOptions options;
};

Wanted wantedFrom(const std::vector<std::string>& words) {
    Wanted w;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string& word = words[i];
        const auto next = [&] { return ++i < words.size() ? words[i] : std::string(); };
        if (word == "--setup")
            w.setup = next();
        else if (word == "--time")
            w.time = std::stod(next());
        else if (word == "--view")
            w.view = next();
        else if (word == "--out")
            w.out = next();
        else if (word == "--size")
            std::sscanf(next().c_str(), "%dx%d", &w.width, &w.height);
        else if (word == "--light")
            w.options.dark = false;
        else if (word == "--cutaway")
            w.options.cutaway = next() == "half" ? Cutaway::Half : Cutaway::Quarter;
        else if (word == "--colour-by-tool")
            w.options.colouring = Colouring::Tool;
        else if (word == "--tailstock")
            w.tailstock = true;
        else if (word == "--no-turret")
            w.options.hidden |= kTurretKinds;
        else if (word == "--azimuth")
            w.azimuth = static_cast<float>(radians(std::stod(next())));
        else if (word == "--elevation")
            w.elevation = static_cast<float>(radians(std::stod(next())));
        else if (word == "--nearer")
            w.nearer = std::stof(next());
        else if (word == "--demo")
            w.demo = next();
        else if (word == "--chips")
            w.options.chips = true;
        else if (word == "--quality")
            w.options.quality = qualityNamed(next()).value_or(Quality::Finest);
        else if (word == "--quick")
            w.edges = Edges::Quick;
        else if (word == "--bench")
            w.frames = std::stoi(next());
        else
            w.program = word;
    }
    return w;
}

std::string textOf(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    if (!in) throw std::runtime_error("cannot read " + path);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

std::shared_ptr<const Trial> trialFor(const Wanted& wanted) {
    if (!wanted.demo.empty()) return demoJob(wanted.demo);
    if (wanted.program.empty()) return pictureJob(wanted.tailstock);
    return cutFor(readProgram(textOf(wanted.program), wanted.program),
                  readSetup(textOf(wanted.setup), wanted.setup, setupFilesBeside(wanted.setup)));
}

double milliseconds(std::chrono::steady_clock::duration d) {
    return std::chrono::duration<double, std::milli>(d).count();
}

// Plays the whole job in `frames` pictures.
void bench(LatheScene& scene, const Trial& trial, StockCursor& cursor, const Wanted& wanted, Picture& picture,
           const Camera& camera) {
    std::vector<double> times;
    double seeking = 0;
    const std::clock_t cpu0 = std::clock();
    for (int i = 0; i < wanted.frames; ++i) {
        const auto start = std::chrono::steady_clock::now();
        const double t = trial.timeline.cycleTimeS * (i + 0.5) / wanted.frames;
        const SceneInstant instant = scene.at(t, &cursor);
        seeking += milliseconds(std::chrono::steady_clock::now() - start);
        picture.begin(wanted.width, wanted.height, wanted.edges);
        scene.draw(instant, camera, wanted.options, wanted.width, wanted.height);
        picture.finish();
        glFinish();
        times.push_back(milliseconds(std::chrono::steady_clock::now() - start));
    }
    const double cpu = 1000.0 * static_cast<double>(std::clock() - cpu0) / CLOCKS_PER_SEC / wanted.frames;
    std::sort(times.begin(), times.end());
    fmt::print(
        "{} frames: median {:.1f} ms, 95 % {:.1f} ms, slowest {:.1f} ms; processor {:.1f} ms a frame; seek {:.2f} ms\n",
        times.size(), times[times.size() / 2], times[times.size() * 95 / 100], times.back(), cpu,
        seeking / wanted.frames);
}

int draw(const Wanted& wanted) {
    const OffscreenContext context;
    const std::shared_ptr<const Trial> trial = trialFor(wanted);
    StockCursor cursor(trial->stock);
    LatheScene scene;
    scene.setTrial(trial);
    const double time = wanted.time < 0 ? trial->timeline.cycleTimeS * 0.62 : wanted.time;
    const SceneInstant instant = scene.at(time, &cursor);
    const auto view = viewNamed(wanted.view);
    if (!view) throw std::runtime_error("no view of the name " + wanted.view);
    Camera camera = scene.view(*view, instant, static_cast<float>(wanted.width) / static_cast<float>(wanted.height));
    if (wanted.azimuth < 1e8f) camera.azimuth = wanted.azimuth;
    if (wanted.elevation < 1e8f) camera.elevation = wanted.elevation;
    camera.distance /= wanted.nearer;
    Picture picture;
    picture.begin(wanted.width, wanted.height, wanted.edges);
    scene.draw(instant, camera, wanted.options, wanted.width, wanted.height);
    picture.finish();
    const FrameFigures figures = scene.lastFrame();
    fmt::print("{}; cycle {:.1f} s, drawn at {:.2f} s; {} triangles, {} of the billet\n", describeOpenGl(),
               trial->timeline.cycleTimeS, instant.timeS, figures.triangles, figures.billetTriangles);
    if (!wanted.out.empty()) savePng(wanted.out, picture.read());
    if (wanted.frames > 0) bench(scene, *trial, cursor, wanted, picture, camera);
    return 0;
}

}  // namespace
}  // namespace firstoff::gui

int main(int argc, char** argv) {
    try {
        return firstoff::gui::draw(firstoff::gui::wantedFrom({argv + 1, argv + argc}));
    } catch (const std::exception& failure) {
        fmt::print(stderr, "{}\n", failure.what());
        return 2;
    }
}
