#include "sim/control/word_roles.h"

#include <algorithm>
#include <iterator>

#include "sim/base/say.h"

namespace firstoff {

namespace {

using enum WordMeasure;
using enum CycleBlock;

constexpr WordRole kRoles[] = {
    {Order::RoughingAlong, First, 'U', Length, later("depth of cut of each pass, on radius")},
    {Order::RoughingAlong, First, 'R', Length, later("how far the tool comes off after each pass")},
    {Order::RoughingAcross, First, 'W', Length, later("depth of cut of each pass, along Z")},
    {Order::RoughingAcross, First, 'R', Length, later("how far the tool comes off after each pass")},
    {Order::PatternRepeat, First, 'U', Length, later("how far from the profile the first pass runs, in X on radius")},
    {Order::PatternRepeat, First, 'W', Length, later("how far from the profile the first pass runs, along Z")},
    {Order::PatternRepeat, First, 'R', Number, later("number of passes")},

    {Order::RoughingAlong, Second, 'P', Number, later("the profile begins at the block with this N number")},
    {Order::RoughingAlong, Second, 'Q', Number, later("the profile ends with the block with this N number")},
    {Order::RoughingAlong, Second, 'U', Diameter, later("left on for finishing, on the diameter; below zero in bores")},
    {Order::RoughingAlong, Second, 'W', Length, later("left on for finishing, along Z")},
    {Order::RoughingAcross, Second, 'P', Number, later("the profile begins at the block with this N number")},
    {Order::RoughingAcross, Second, 'Q', Number, later("the profile ends with the block with this N number")},
    {Order::RoughingAcross, Second, 'U', Diameter,
     later("left on for finishing, on the diameter; below zero in bores")},
    {Order::RoughingAcross, Second, 'W', Length, later("left on for finishing, along Z")},
    {Order::PatternRepeat, Second, 'P', Number, later("the profile begins at the block with this N number")},
    {Order::PatternRepeat, Second, 'Q', Number, later("the profile ends with the block with this N number")},
    {Order::PatternRepeat, Second, 'U', Diameter, later("left on for finishing, on the diameter; below zero in bores")},
    {Order::PatternRepeat, Second, 'W', Length, later("left on for finishing, along Z")},
    {Order::FinishingCycle, Only, 'P', Number, later("the profile begins at the block with this N number")},
    {Order::FinishingCycle, Only, 'Q', Number, later("the profile ends with the block with this N number")},

    {Order::FacePeck, First, 'R', Length, later("how far the tool comes back after each peck")},
    {Order::FacePeck, Second, 'P', Increments, later("step in X from one row of pecks to the next, on radius")},
    {Order::FacePeck, Second, 'Q', Increments, later("depth of each peck along Z")},
    {Order::FacePeck, Second, 'R', Length, later("relief at the bottom, in X")},
    {Order::GroovePeck, First, 'R', Length, later("how far the tool comes back after each peck")},
    {Order::GroovePeck, Second, 'P', Increments, later("depth of each peck in X, on radius")},
    {Order::GroovePeck, Second, 'Q', Increments, later("step along Z from one plunge to the next")},
    {Order::GroovePeck, Second, 'R', Length, later("relief at the bottom, along Z")},

    {Order::ThreadingCycle, First, 'P', Number,
     later("six figures: finish passes, pull-out in tenths of a lead, angle of the flanks")},
    {Order::ThreadingCycle, First, 'Q', Increments, later("no pass takes less than this depth")},
    {Order::ThreadingCycle, First, 'R', Length, later("depth that the finish passes take")},
    {Order::ThreadingCycle, Second, 'P', Increments, later("depth of the thread, on radius")},
    {Order::ThreadingCycle, Second, 'Q', Increments,
     later("depth of the first pass; later ones take less, so that each takes the same area")},
    {Order::ThreadingCycle, Second, 'R', Length,
     later("taper: difference of radius from end to start; 0 or none is straight")},
    {Order::ThreadingCycle, Second, 'F', Length, later("lead of the thread, for each revolution")},
    {Order::ThreadingPass, Only, 'F', Length, later("lead of the thread, for each revolution")},
    {Order::ThreadingPass, Only, 'R', Length, later("taper: difference of radius from end to start")},
    {Order::Thread, Only, 'F', Length, later("lead of the thread, for each revolution")},
    {Order::ThreadOfVariableLead, Only, 'F', Length, later("lead that the thread begins with")},
    {Order::ThreadOfVariableLead, Only, 'K', Length, later("what the lead changes by with each revolution")},
    {Order::TurningPass, Only, 'R', Length, later("taper: difference of radius from end to start")},
    {Order::FacingPass, Only, 'R', Length, later("taper: difference of Z from end to start")},

    {Order::ArcClockwise, Only, 'R', Length, later("radius of the arc")},
    {Order::ArcClockwise, Only, 'I', Length, later("from the start of the arc to its centre in X, on radius")},
    {Order::ArcClockwise, Only, 'K', Length, later("from the start of the arc to its centre along Z")},
    {Order::ArcAnticlockwise, Only, 'R', Length, later("radius of the arc")},
    {Order::ArcAnticlockwise, Only, 'I', Length, later("from the start of the arc to its centre in X, on radius")},
    {Order::ArcAnticlockwise, Only, 'K', Length, later("from the start of the arc to its centre along Z")},

    {Order::Dwell, Only, 'X', Seconds, later("time that it waits")},
    {Order::Dwell, Only, 'U', Seconds, later("time that it waits")},
    {Order::Dwell, Only, 'P', Milliseconds, later("time that it waits")},
    {Order::Drill, Only, 'R', Length, later("retract point, to which it goes at rapid")},
    {Order::DrillWithDwell, Only, 'R', Length, later("retract point, to which it goes at rapid")},
    {Order::DrillWithDwell, Only, 'P', Milliseconds, later("time that it waits at the bottom")},
    {Order::PeckDrill, Only, 'R', Length, later("retract point, to which it goes at rapid")},
    {Order::PeckDrill, Only, 'Q', Increments, later("depth of each peck")},
    {Order::PeckDrill, Only, 'P', Milliseconds, later("time that it waits at the bottom")},
    {Order::Tap, Only, 'R', Length, later("retract point, to which it goes at rapid")},
    {Order::Tap, Only, 'F', Length, later("lead of the tap under feed per revolution")},
    {Order::Bore, Only, 'R', Length, later("retract point, to which it goes at rapid")},
    {Order::Thread, Only, 'Q', Number, later("start angle, in thousandths of a degree")},
    {Order::ThreadingPass, Only, 'Q', Number, later("start angle, in thousandths of a degree")},
    {Order::Drill, Only, 'Z', Length, later("where the hole ends")},
    {Order::Drill, Only, 'K', Number, later("how often it is done")},
    {Order::DrillWithDwell, Only, 'Z', Length, later("where the hole ends")},
    {Order::PeckDrill, Only, 'Z', Length, later("where the hole ends")},
    {Order::Tap, Only, 'Z', Length, later("where the thread ends")},
    {Order::Bore, Only, 'Z', Length, later("where the hole ends")},
    {Order::Bore, Only, 'P', Milliseconds, later("time that it waits at the bottom")},
    {Order::FacePeck, Second, 'X', Diameter, later("where the last row of pecks stands")},
    {Order::FacePeck, Second, 'Z', Length, later("depth, as a position")},
    {Order::GroovePeck, Second, 'X', Diameter, later("bottom of the groove")},
    {Order::GroovePeck, Second, 'Z', Length, later("where the last plunge stands")},
    {Order::ThreadingCycle, Second, 'X', Diameter, later("root of the thread at its end")},
    {Order::ThreadingCycle, Second, 'Z', Length, later("end of the thread")},
    {Order::SubprogramCall, Only, 'P', Number, later("number of the program that is called")},
    {Order::SubprogramCall, Only, 'L', Number, later("how often it runs")},
    {Order::MacroCall, Only, 'P', Number, later("number of the macro that is called")},
    {Order::MacroCall, Only, 'L', Number, later("how often it runs")},
    {Order::FurtherWorkOffset, Only, 'P', Number, later("which of the further work offsets")},
};

constexpr std::uint32_t bit(char letter) {
    return std::uint32_t{1} << (letter - 'A');
}

}  // namespace

std::span<const WordRole> wordRoles() {
    return kRoles;
}

const WordRole* wordRole(Order order, CycleBlock block, char letter) {
    const auto role = std::find_if(std::begin(kRoles), std::end(kRoles), [&](const WordRole& r) {
        return r.order == order && r.block == block && r.letter == letter;
    });
    return role == std::end(kRoles) ? nullptr : &*role;
}

CycleBlock cycleBlockOf(Order order, std::uint32_t letters) {
    const auto has = [letters](char letter) { return (letters & bit(letter)) != 0; };
    switch (order) {
        case Order::RoughingAlong:
        case Order::RoughingAcross:
        case Order::PatternRepeat:
            return has('P') && has('Q') ? Second : First;
        case Order::FacePeck:
        case Order::GroovePeck:
        case Order::ThreadingCycle:
            return has('X') || has('Z') || has('U') || has('W') ? Second : First;
        default:
            return Only;
    }
}

}  // namespace firstoff
