// Any text, whatever it says, is read and carried out: it ends, and what comes out holds together.
//
// The first byte of the input says how the control is set, the rest is the program.
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "sim/control/toolpath.h"
#include "sim/motion/timeline.h"
#include "sim/program/program.h"
#include "sim/setup/setup.h"

namespace firstoff {
namespace {

// A small lathe with one tool of each kind that compensation and cycles ask about.
constexpr const char* kSetup = R"(
[machine]
home_x_mm = 400
home_z_mm = 500
travel_x_mm = [-420, 0]
travel_z_mm = [-480, 0]
rapid_x_mm_per_min = 10000
rapid_z_mm_per_min = 12000
max_feed_mm_per_min = 5000
max_rev_per_min = 3000
index_time_s = 1
stations = 12
turret_diameter_mm = 300
turret_thickness_mm = 80
[turret]
kind = "disc"
face_z_mm = 0
axis_x_mm = 384
block_z_mm = [-56, 80]
block_width_mm = 60
[chuck]
body_diameter_mm = 200
body_length_mm = 80
jaw_length_mm = 30
jaw_outer_diameter_mm = 180
[stock]
shape = "bar"
diameter_mm = 50
length_mm = 120
stick_out_mm = 80
[work_offsets.G54]
z_from_bar_end_mm = 0
[[tool]]
station = 1
kind = "turning"
needs = "M03"
tip_x_mm = -60
tip_z_mm = -40
insert = "C"
nose_radius_mm = 0.8
overhang_mm = 40
shank_mm = 20
[[tool]]
station = 2
kind = "boring"
needs = "M03"
tip_x_mm = -20
tip_z_mm = -120
insert = "C"
nose_radius_mm = 0.4
overhang_mm = 60
shank_mm = 16
[[tool]]
station = 5
kind = "grooving"
needs = "M03"
tip_x_mm = -60
tip_z_mm = -40
width_mm = 3
cutting_depth_mm = 15
overhang_mm = 40
shank_mm = 20
)";

// Far below what a real control would take, so that a loop without end is told soon and runs stay short.
constexpr long kMostBlocks = 20'000;

Setup setupFor(std::uint8_t switches) {
    static const Setup base = readSetup(kSetup, "fuzz");
    Setup setup = base;
    setup.control.codeSystem = static_cast<CodeSystem>(switches % 3);
    setup.control.compensateInRoughing = (switches & 0x10) != 0;
    setup.control.optionalStop = (switches & 0x20) != 0;
    if ((switches & 0x40) != 0) {
        setup.control.plainCorners = true;
        setup.control.wholeNumbers = ControlOptions::WholeNumbers::Increments;
    }
    if ((switches & 0x80) != 0) {
        setup.control.radiusProgramming = true;
        setup.control.offsetCancel = ControlOptions::OffsetCancel::All;
    }
    setup.control.maxBlocks = kMostBlocks;
    return setup;
}

void check(bool holds, const char* what) {
    if (holds) return;
    std::fprintf(stderr, "does not hold: %s\n", what);
    std::abort();
}

bool finite(Point p) {
    return std::isfinite(p.z) && std::isfinite(p.r);
}

void checkPath(const Toolpath& path) {
    const Move* before = nullptr;
    for (const Move& move : path.moves) {
        check(finite(move.from) && finite(move.to) && finite(move.centre), "positions are numbers");
        check(std::isfinite(move.feed) && std::isfinite(move.seconds) && move.seconds >= 0, "feeds and times are numbers");
        check(move.modal < path.modals.size() && move.call < path.calls.size(), "states exist");
        check(path.modals[move.modal].datum < path.datums.size() && finite(path.datumOf(move)), "datums exist");
        check(move.extra == kNoExtra || move.extra < path.extras.size(), "extras exist");
        check(move.kind != MoveKind::Thread || move.extra != kNoExtra, "threads have a lead");
        check(before == nullptr || distance(before->to, move.from) < 1e-6, "moves join");
        before = &move;
    }
    for (const Step& step : path.steps) check(step.firstMove <= path.moves.size(), "steps lie in the path");
    for (const ProgramStop& stop : path.stops) check(stop.beforeMove <= path.moves.size(), "stops lie in the path");
}

}  // namespace
}  // namespace firstoff

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) return 0;
    const firstoff::Setup setup = firstoff::setupFor(data[0]);
    const std::string text(data + 1, data + size);
    const firstoff::Program program = firstoff::readProgram(text, "fuzz");
    for (const firstoff::Finding& finding : program.findings) {
        firstoff::check(!finding.message.empty() && !finding.code.empty(), "findings say something");
    }
    const firstoff::Toolpath path = firstoff::interpret(program, setup);
    firstoff::checkPath(path);
    firstoff::layOut(path, setup);
    return 0;
}
