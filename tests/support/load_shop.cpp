#include "tests/support/load_shop.h"

#include <algorithm>
#include <cmath>

namespace firstoff::shop {

namespace {
constexpr int kSamples = 11;
}

LoadSample sampleAt(float fraction, double radius, const CutForce& force) {
    LoadSample s;
    s.fraction = fraction;
    s.chipAreaMm2 = 0.5F;
    s.widthMm = 1;
    s.cuttingN = s.cuttingMostN = static_cast<float>(force.cuttingN);
    s.forceZN = static_cast<float>(force.zN);
    s.forceRN = static_cast<float>(force.rN);
    s.torqueNm = s.torqueMostNm = static_cast<float>(force.cuttingN * radius / 1000);
    s.atR = s.farthestR = static_cast<float>(radius);
    s.leavesSurface = true;
    return s;
}

LoadSample airAt(float fraction) {
    LoadSample s;
    s.fraction = fraction;
    return s;
}

LoadedCut::LoadedCut(double diameter, double stickOut, double bore) : setup(barStock(diameter, stickOut, 1, bore)) {
    addTurningTool(setup, 1, 'C', 0.4);
    setup.material.name = "test steel";
    setup.material.kc11 = 2000;
    setup.material.mc = 0.25;
    setup.material.youngGPa = 203.4;
    toolpath.modals.emplace_back();
    toolpath.calls.emplace_back();
    toolpath.datums = {setup.workOffsets[0]};
    loads.forcesKnown = true;
    take(1);
}

void LoadedCut::take(int station) {
    const auto tool =
        std::find_if(setup.tools.begin(), setup.tools.end(), [station](const Tool& t) { return t.station == station; });
    ToolCall call;
    call.station = call.offset = station;
    call.toolIndex = static_cast<int>(tool - setup.tools.begin());
    call.tip = call.reckoned = tool->tip;
    call_ = static_cast<std::uint16_t>(toolpath.calls.size());
    toolpath.calls.push_back(call);
    ToolLoad load;
    load.call = call_;
    load.toolIndex = call.toolIndex;
    loads.tools.push_back(load);
}

void LoadedCut::add(Point from, Point to, double feed, const ModalState& modal, const CutForce& force) {
    toolpath.modals.push_back(modal);
    Move move;
    const Point tip = toolpath.calls[call_].tip;
    move.from = from - tip;
    move.to = to - tip;
    move.feed = feed;
    move.block = static_cast<BlockId>(toolpath.moves.size());
    move.modal = static_cast<std::uint32_t>(toolpath.modals.size() - 1);
    move.call = call_;
    move.kind = MoveKind::Feed;
    toolpath.moves.push_back(move);
    timeline = layOut(toolpath, setup);
    const LoadRun run{static_cast<std::uint32_t>(timeline.moves.size() - 1),
                      static_cast<std::uint32_t>(loads.samples.size()), kSamples, false};
    loads.runs.push_back(run);
    for (int i = 0; i < kSamples; ++i) {
        const double fraction = double(i) / (kSamples - 1);
        const Point at = from + fraction * (to - from);
        loads.samples.push_back(sampleAt(static_cast<float>(fraction), at.r, force));
        loads.samples.back().atZ = static_cast<float>(at.z);
    }
}

void LoadedCut::turn(double radius, double length, double feedPerRev, double revPerMin, const CutForce& force) {
    turnBetween(radius, setup.stock.frontZ, setup.stock.frontZ - length, feedPerRev, revPerMin, force);
}

void LoadedCut::turnBetween(double radius, double fromZ, double toZ, double feedPerRev, double revPerMin,
                            const CutForce& force) {
    ModalState modal;
    modal.speed = revPerMin;
    modal.feed = feedPerRev;
    modal.spindle = SpindleDirection::Forward;
    add({fromZ, radius}, {toZ, radius}, feedPerRev, modal, force);
}

void LoadedCut::face(double fromRadius, double toRadius, double feedPerRev, double surfaceSpeed,
                     const CutForce& force) {
    ModalState modal;
    modal.constantSurfaceSpeed = true;
    modal.speed = surfaceSpeed;
    modal.feed = feedPerRev;
    modal.spindle = SpindleDirection::Forward;
    const double z = setup.stock.frontZ;
    add({z, fromRadius}, {z, toRadius}, feedPerRev, modal, force);
}

void LoadedCut::cutBar() {
    stock = StockHistory::cut(timeline, toolpath, setup);
}

}  // namespace firstoff::shop
