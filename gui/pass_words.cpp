#include "gui/pass_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>

#include "gui/measures.h"
#include "gui/timeline_index.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

// As the program would write it: no noughts behind the last decimal that says something.
std::string figure(double mm, Measures measures) {
    const std::string text = measures.length(mm).value;
    std::string_view shown = text;
    while (shown.ends_with('0')) shown.remove_suffix(1);
    if (shown.ends_with('.')) shown.remove_suffix(1);
    return std::string(shown);
}

// Those the program is written in, whatever the window tells.
Measures writtenIn(const Trial& trial, const Move& move) {
    return Measures(trial.toolpath.modals[move.modal].inches ? Units::Inches : Units::Millimetres);
}

std::string place(const Trial& trial, const Move& move, Point turret) {
    const Point at = turret + trial.toolpath.programmedShift(move);
    const Measures written = writtenIn(trial, move);
    return fmt::format("X{} Z{}", figure(2 * at.r, written), figure(at.z, written));
}

// Whether the last move leads back against the way of those before it: the tool comes off the surface.
bool goesBack(const std::vector<Move>& moves, std::uint32_t first, std::uint32_t last) {
    const Point way = moves[last].from - moves[first].from, back = moves[last].to - moves[last].from;
    return way.z * back.z + way.r * back.r < 0;
}

}  // namespace

// What it is about is the stretch at feed; the way in and back would only hide it.
PassTold tellPass(const Trial& trial, const CyclePass& pass) {
    const std::vector<Move>& moves = trial.toolpath.moves;
    const auto cuts = [&](std::uint32_t i) { return classOf(moves[i].kind) == MotionClass::Cutting; };
    std::uint32_t first = pass.first, last = pass.end - 1;
    while (first < last && !cuts(first)) ++first;
    while (last > first && !cuts(last)) --last;
    if (first < last && goesBack(moves, first, last)) --last;
    const bool cutting = cuts(first);
    if (!cutting) {
        first = pass.first;
        last = pass.end - 1;
    }
    bool thread = false;
    for (std::uint32_t i = first; i <= last; ++i) thread |= moves[i].kind == MoveKind::Thread;
    PassTold told;
    told.kind = thread ? tr("thread") : cutting ? tr("cut") : tr("way");
    told.way = fmt::format("{} → {}", place(trial, moves[first], moves[first].from),
                           place(trial, moves[last], moves[last].to));
    if (cutting) {
        const double feed = thread ? trial.toolpath.extras[moves[first].extra].lead : moves[first].feed;
        if (feed > 0) told.feed = fmt::format("F{}", figure(feed, writtenIn(trial, moves[first])));
    }
    told.startS = startOfMove(trial, pass.first);
    told.seconds = startOfMove(trial, pass.end) - told.startS;
    return told;
}

}  // namespace firstoff::gui
