#include "tests/support/tip_path.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "sim/base/units.h"
#include "tests/support/shop.h"

namespace firstoff::shop {

TipPath& TipPath::tool(int station) {
    for (std::size_t i = 0; i < setup_.tools.size(); ++i) {
        if (setup_.tools[i].station != station) continue;
        ToolCall call;
        call.station = station;
        call.tip = call.reckoned = setup_.tools[i].tip;
        call.toolIndex = static_cast<int>(i);
        toolpath_.calls.push_back(call);
        return *this;
    }
    throw std::runtime_error("no such tool in the test's set-up");
}

TipPath& TipPath::at(double x, double z) {
    tip_ = {z, x / 2};
    return *this;
}

TipPath& TipPath::add(MoveKind kind, Point tip, Point centre, double seconds) {
    const Point shift = toolpath_.calls.back().tip;
    Move move;
    move.kind = kind;
    move.from = tip_ - shift;
    move.to = tip - shift;
    move.centre = centre - shift;
    move.seconds = seconds;
    move.call = static_cast<std::uint16_t>(toolpath_.calls.size() - 1);
    TimedMove timed;
    timed.kind = kind;
    timed.from = move.from;
    timed.to = move.to;
    timed.centre = move.centre;
    timed.t0 = timeline_.cycleTimeS;
    timed.t1 = timeline_.cycleTimeS += 0.01;
    timed.rpmStart = timed.rpmEnd = revPerMin_;
    move.modal = static_cast<std::uint32_t>(toolpath_.modals.size() - 1);
    timed.move = static_cast<std::uint32_t>(toolpath_.moves.size());
    timeline_.firstOf.push_back(timed.move);
    toolpath_.moves.push_back(move);
    timeline_.moves.push_back(timed);
    tip_ = tip;
    return *this;
}

TipPath& TipPath::rapid(double x, double z) {
    return add(MoveKind::Rapid, {z, x / 2});
}
TipPath& TipPath::feed(double x, double z) {
    return add(MoveKind::Feed, {z, x / 2});
}
TipPath& TipPath::dwell(double seconds) {
    return add(MoveKind::Dwell, tip_, {}, seconds);
}

TipPath& TipPath::turning(SpindleDirection direction, double revPerMin) {
    toolpath_.modals.push_back(toolpath_.modals.back());
    toolpath_.modals.back().spindle = direction;
    revPerMin_ = revPerMin;
    return *this;
}

TipPath& TipPath::thread(double x, double z, double lead, double startTurns) {
    MoveExtra extra;
    extra.lead = lead;
    const bool chained = !toolpath_.moves.empty() && toolpath_.moves.back().kind == MoveKind::Thread;
    if (chained) {
        const Move& before = toolpath_.moves.back();
        const MoveExtra& turned = toolpath_.extras[before.extra];
        const Point way = before.to - before.from;
        extra.startAngle = turned.startAngle + 2 * kPi * std::max(std::abs(way.z), std::abs(way.r)) / turned.lead;
    } else {
        extra.startAngle = 2 * kPi * startTurns;
    }
    toolpath_.extras.push_back(extra);
    add(MoveKind::Thread, {z, x / 2});
    toolpath_.moves.back().extra = static_cast<std::uint32_t>(toolpath_.extras.size() - 1);
    return *this;
}

void cutThread(TipPath& path, int station, double frontZ, const ThreadWork& work) {
    const double depth = work.depth > 0 ? work.depth : 0.61343 * work.pitch;
    const double lead = work.pitch * work.starts;
    const double near = frontZ + 2 * work.pitch;
    const double far = frontZ - work.length;
    const double from = work.awayFromChuck ? far : near;
    const double to = work.awayFromChuck ? near : far;
    const double clear = work.diameter + 4;
    path.tool(station).turning(work.direction, 600).at(clear, from);
    for (int pass = 1; pass <= work.passes; ++pass) {
        const double x = work.diameter - 2 * depth * std::sqrt(static_cast<double>(pass) / work.passes);
        for (int start = 0; start < work.starts; ++start) {
            path.rapid(clear, from).rapid(x, from);
            path.thread(x, to, lead, work.startTurns + static_cast<double>(start) / work.starts).rapid(clear, to);
        }
    }
}

void addArc(double rMin, double rMax, Dice& dice, TipPath& path) {
    const Point from{path.tipZ(), path.tipX() / 2};
    const bool clockwise = dice.below(2) == 0;
    for (;;) {
        const double radius = dice.between(1, 4);
        const double start = dice.between(0, 2 * kPi);
        const double turn = dice.between(0.1, radians(dice.below(4) == 0 ? 350 : 150));
        const double end = start + (clockwise ? -turn : turn);
        const Point centre = from - radius * Point{std::cos(start), std::sin(start)};
        const Point to = centre + radius * Point{std::cos(end), std::sin(end)};
        if (to.r < rMin || to.r > rMax) continue;
        if (clockwise) {
            path.clockwise(2 * to.r, to.z, 2 * centre.r, centre.z);
        } else {
            path.anticlockwise(2 * to.r, to.z, 2 * centre.r, centre.z);
        }
        return;
    }
}

Tool& addFullProfile(Setup& setup, int station, double pitch) {
    Tool& tool = addThreadingTool(setup, station);
    tool.noseRadius = 0.14434 * pitch;
    tool.cuttingDepth = 0.7 * pitch;
    tool.pitch = pitch;
    tool.cutting = toolOutline(tool);
    tool.holder = holderOutline(tool);
    return tool;
}

TipPath& TipPath::clockwise(double x, double z, double centreX, double centreZ) {
    return add(MoveKind::ArcClockwise, {z, x / 2}, {centreZ, centreX / 2});
}

TipPath& TipPath::anticlockwise(double x, double z, double centreX, double centreZ) {
    return add(MoveKind::ArcAnticlockwise, {z, x / 2}, {centreZ, centreX / 2});
}

namespace {

constexpr double kStep = 0.01;
constexpr double kDepthPerPass = 0.15;

}  // namespace

Setup wavyContourSetup() {
    Setup setup = barStock(60, 90);
    addTurningTool(setup, 1, 'D', 0.8, 93);
    return setup;
}

TipPath wavyContour(const Setup& setup, std::uint32_t moves) {
    const double frontZ = setup.stock.frontZ;
    TipPath path(setup);
    path.tool(1).at(70, frontZ + 5);
    for (int pass = 1; path.moves() < moves; ++pass) {
        const double radius = setup.stock.outerRadius - kDepthPerPass * pass;
        path.rapid(2 * radius, frontZ + 2);
        // Slopes stay under 8 degrees, well within what the trailing edge of the insert clears.
        double z = frontZ + 0.5;
        double r = radius;
        while (z > frontZ - 80 && path.moves() < moves) {
            const double slope = 0.14 * std::sin((frontZ - z) * 0.4);
            const double scale = kStep / std::sqrt(1 + slope * slope);
            z -= scale;
            r += slope * scale;
            path.feed(2 * r, z);
        }
        path.rapid(70, z);
        path.rapid(70, frontZ + 2);
    }
    return path;
}

Scene facing(std::uint32_t moves) {
    Setup setup = barStock(60, 90);
    addTurningTool(setup, 1, 'C', 0.8, 95);
    TipPath path(setup);
    path.tool(1).at(70, setup.stock.frontZ);
    for (int cut = 1; path.moves() < moves; ++cut) {
        const double z = setup.stock.frontZ - 0.5 * cut;
        path.rapid(62, z);
        for (double x = 62; x > -1 && path.moves() < moves; x -= 2 * kStep) path.feed(x, z);
        path.rapid(path.tipX(), z + 1).rapid(62, z + 1);
    }
    return {setup, path};
}

Scene boring(std::uint32_t moves) {
    Setup setup = barStock(60, 90);
    addDrill(setup, 2, 20);
    addBoringBar(setup, 1, 'C', 0.4, 95);
    const double front = setup.stock.frontZ;
    TipPath path(setup);
    path.tool(2).at(0, front + 5).feed(0, front - 70).rapid(0, front + 5).tool(1).rapid(20, front + 2);
    for (int pass = 1; path.moves() < moves; ++pass) {
        const double x = 20 + 0.5 * pass;
        path.rapid(x, front + 1);
        for (double z = front + 1; z > front - 60 && path.moves() < moves; z -= kStep) path.feed(x, z);
        path.rapid(x - 1, path.tipZ()).rapid(x - 1, front + 1);
    }
    return {setup, path};
}

Scene longPasses(std::uint32_t moves) {
    Setup setup = barStock(60, 90);
    addTurningTool(setup, 1, 'C', 0.8, 95);
    const double front = setup.stock.frontZ;
    TipPath path(setup);
    path.tool(1).at(70, front + 5);
    for (double x = 60; path.moves() < moves; x -= 50.0 / moves) {
        path.rapid(x, front + 1).feed(x, front - 80).feed(x + 1, front - 79.5).rapid(x + 1, front + 1);
    }
    return {setup, path};
}

Scene backTurning(std::uint32_t moves) {
    Setup setup = barStock(60, 90);
    Tool& left = addTurningTool(setup, 1, 'D', 0.4, 93);
    left.tipNumber = 4;
    left.cutting = toolOutline(left);
    addGroovingTool(setup, 2, 6, 0.2).cuttingDepth = 30;
    const double front = setup.stock.frontZ;
    TipPath path(setup);
    path.tool(2)
        .at(64, front - 70)
        .feed(30, front - 70)
        .rapid(64, front - 70)
        .rapid(64, front - 66)
        .feed(30, front - 66);
    path.rapid(64, front - 66).tool(1);
    for (int pass = 1; path.moves() < moves; ++pass) {
        const double x = 60 - 0.5 * pass;
        path.rapid(64, front - 62).rapid(x, front - 62);
        for (double z = front - 62; z < front - 10 && path.moves() < moves; z += kStep) path.feed(x, z);
        path.rapid(64, path.tipZ());
    }
    return {setup, path};
}

}  // namespace firstoff::shop
