#include "sim/control/word_roles.h"

#include <algorithm>
#include <iterator>

namespace firstoff {

namespace {

using enum WordMeasure;
using enum CycleBlock;

constexpr WordRole kRoles[] = {
    {Order::RoughingAlong, First, 'U', Length, "depth of cut of each pass, on radius"},
    {Order::RoughingAlong, First, 'R', Length, "how far the tool comes off after each pass"},
    {Order::RoughingAcross, First, 'W', Length, "depth of cut of each pass, along Z"},
    {Order::RoughingAcross, First, 'R', Length, "how far the tool comes off after each pass"},
    {Order::PatternRepeat, First, 'U', Length, "how far from the profile the first pass runs, in X on radius"},
    {Order::PatternRepeat, First, 'W', Length, "how far from the profile the first pass runs, along Z"},
    {Order::PatternRepeat, First, 'R', Number, "number of passes"},

    {Order::RoughingAlong, Second, 'P', Number, "the profile begins at the block with this N number"},
    {Order::RoughingAlong, Second, 'Q', Number, "the profile ends with the block with this N number"},
    {Order::RoughingAlong, Second, 'U', Diameter, "left on for finishing, on the diameter; below zero in bores"},
    {Order::RoughingAlong, Second, 'W', Length, "left on for finishing, along Z"},
    {Order::RoughingAcross, Second, 'P', Number, "the profile begins at the block with this N number"},
    {Order::RoughingAcross, Second, 'Q', Number, "the profile ends with the block with this N number"},
    {Order::RoughingAcross, Second, 'U', Diameter, "left on for finishing, on the diameter; below zero in bores"},
    {Order::RoughingAcross, Second, 'W', Length, "left on for finishing, along Z"},
    {Order::PatternRepeat, Second, 'P', Number, "the profile begins at the block with this N number"},
    {Order::PatternRepeat, Second, 'Q', Number, "the profile ends with the block with this N number"},
    {Order::PatternRepeat, Second, 'U', Diameter, "left on for finishing, on the diameter; below zero in bores"},
    {Order::PatternRepeat, Second, 'W', Length, "left on for finishing, along Z"},
    {Order::FinishingCycle, Only, 'P', Number, "the profile begins at the block with this N number"},
    {Order::FinishingCycle, Only, 'Q', Number, "the profile ends with the block with this N number"},

    {Order::FacePeck, First, 'R', Length, "how far the tool comes back after each peck"},
    {Order::FacePeck, Second, 'P', Increments, "step in X from one row of pecks to the next, on radius"},
    {Order::FacePeck, Second, 'Q', Increments, "depth of each peck along Z"},
    {Order::FacePeck, Second, 'R', Length, "relief at the bottom, in X"},
    {Order::GroovePeck, First, 'R', Length, "how far the tool comes back after each peck"},
    {Order::GroovePeck, Second, 'P', Increments, "depth of each peck in X, on radius"},
    {Order::GroovePeck, Second, 'Q', Increments, "step along Z from one plunge to the next"},
    {Order::GroovePeck, Second, 'R', Length, "relief at the bottom, along Z"},

    {Order::ThreadingCycle, First, 'P', Number,
     "six figures: finish passes, pull-out in tenths of a lead, angle of the flanks"},
    {Order::ThreadingCycle, First, 'Q', Increments, "no pass takes less than this depth"},
    {Order::ThreadingCycle, First, 'R', Length, "depth that the finish passes take"},
    {Order::ThreadingCycle, Second, 'P', Increments, "depth of the thread, on radius"},
    {Order::ThreadingCycle, Second, 'Q', Increments,
     "depth of the first pass; later ones take less, so that each takes the same area"},
    {Order::ThreadingCycle, Second, 'R', Length,
     "taper: difference of radius from end to start; 0 or none is straight"},
    {Order::ThreadingCycle, Second, 'F', Length, "lead of the thread, for each revolution"},
    {Order::ThreadingPass, Only, 'F', Length, "lead of the thread, for each revolution"},
    {Order::ThreadingPass, Only, 'R', Length, "taper: difference of radius from end to start"},
    {Order::Thread, Only, 'F', Length, "lead of the thread, for each revolution"},
    {Order::ThreadOfVariableLead, Only, 'F', Length, "lead that the thread begins with"},
    {Order::ThreadOfVariableLead, Only, 'K', Length, "what the lead changes by with each revolution"},
    {Order::TurningPass, Only, 'R', Length, "taper: difference of radius from end to start"},
    {Order::FacingPass, Only, 'R', Length, "taper: difference of Z from end to start"},

    {Order::ArcClockwise, Only, 'R', Length, "radius of the arc"},
    {Order::ArcClockwise, Only, 'I', Length, "from the start of the arc to its centre in X, on radius"},
    {Order::ArcClockwise, Only, 'K', Length, "from the start of the arc to its centre along Z"},
    {Order::ArcAnticlockwise, Only, 'R', Length, "radius of the arc"},
    {Order::ArcAnticlockwise, Only, 'I', Length, "from the start of the arc to its centre in X, on radius"},
    {Order::ArcAnticlockwise, Only, 'K', Length, "from the start of the arc to its centre along Z"},

    {Order::Dwell, Only, 'X', Seconds, "time that it waits"},
    {Order::Dwell, Only, 'U', Seconds, "time that it waits"},
    {Order::Dwell, Only, 'P', Milliseconds, "time that it waits"},
    {Order::Drill, Only, 'R', Length, "retract point, to which it goes at rapid"},
    {Order::DrillWithDwell, Only, 'R', Length, "retract point, to which it goes at rapid"},
    {Order::DrillWithDwell, Only, 'P', Milliseconds, "time that it waits at the bottom"},
    {Order::PeckDrill, Only, 'R', Length, "retract point, to which it goes at rapid"},
    {Order::PeckDrill, Only, 'Q', Increments, "depth of each peck"},
    {Order::PeckDrill, Only, 'P', Milliseconds, "time that it waits at the bottom"},
    {Order::Tap, Only, 'R', Length, "retract point, to which it goes at rapid"},
    {Order::Tap, Only, 'F', Length, "lead of the tap under feed per revolution"},
    {Order::Bore, Only, 'R', Length, "retract point, to which it goes at rapid"},
    {Order::Thread, Only, 'Q', Number, "start angle, in thousandths of a degree"},
    {Order::ThreadingPass, Only, 'Q', Number, "start angle, in thousandths of a degree"},
    {Order::Drill, Only, 'Z', Length, "where the hole ends"},
    {Order::Drill, Only, 'K', Number, "how often it is done"},
    {Order::DrillWithDwell, Only, 'Z', Length, "where the hole ends"},
    {Order::PeckDrill, Only, 'Z', Length, "where the hole ends"},
    {Order::Tap, Only, 'Z', Length, "where the thread ends"},
    {Order::Bore, Only, 'Z', Length, "where the hole ends"},
    {Order::Bore, Only, 'P', Milliseconds, "time that it waits at the bottom"},
    {Order::FacePeck, Second, 'X', Diameter, "where the last row of pecks stands"},
    {Order::FacePeck, Second, 'Z', Length, "depth, as a position"},
    {Order::GroovePeck, Second, 'X', Diameter, "bottom of the groove"},
    {Order::GroovePeck, Second, 'Z', Length, "where the last plunge stands"},
    {Order::ThreadingCycle, Second, 'X', Diameter, "root of the thread at its end"},
    {Order::ThreadingCycle, Second, 'Z', Length, "end of the thread"},
    {Order::SubprogramCall, Only, 'P', Number, "number of the program that is called"},
    {Order::SubprogramCall, Only, 'L', Number, "how often it runs"},
    {Order::MacroCall, Only, 'P', Number, "number of the macro that is called"},
    {Order::MacroCall, Only, 'L', Number, "how often it runs"},
    {Order::FurtherWorkOffset, Only, 'P', Number, "which of the further work offsets"},
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
