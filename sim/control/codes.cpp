#include "sim/control/codes.h"

#include <array>

#include "sim/base/say.h"

namespace firstoff {

namespace {

using enum CodeGroup;

constexpr CodeEntry everywhere(Order order, CodeGroup group, char letter, int tenths, const char* meaning) {
    const auto n = static_cast<std::int16_t>(tenths);
    return {order, group, letter, {n, n, n}, meaning};
}

constexpr CodeEntry numbered(Order order, CodeGroup group, int a, int b, int c, const char* meaning) {
    return {order,
            group,
            'G',
            {static_cast<std::int16_t>(a), static_cast<std::int16_t>(b), static_cast<std::int16_t>(c)},
            meaning};
}

constexpr CodeEntry kTable[] = {
    everywhere(Order::Rapid, Motion, 'G', 0, later("Rapid to a point.")),
    everywhere(Order::Feed, Motion, 'G', 10, later("Straight line at feed.")),
    everywhere(Order::ArcClockwise, Motion, 'G', 20,
               later("Arc clockwise, X drawn upwards: R, or I (on radius) and K.")),
    everywhere(Order::ArcAnticlockwise, Motion, 'G', 30,
               later("Arc anticlockwise, X drawn upwards: R, or I (on radius) and K.")),
    numbered(Order::Thread, Motion, 320, 330, 330,
             later("Thread of constant lead: F per revolution along the longer axis; Q start angle in thousandths of a "
                   "degree.")),
    everywhere(Order::ThreadOfVariableLead, Motion, 'G', 340,
               later("Thread whose lead begins with F and changes by K with every revolution.")),
    numbered(
        Order::TurningPass, Motion, 900, 770, 200,
        later("One turning pass and back, straight or with the taper R (or I); again in every block with X, Z or R.")),
    numbered(
        Order::ThreadingPass, Motion, 920, 780, 210,
        later(
            "One threading pass with pull-out and back, straight or with the taper R, lead F, start angle Q; again in "
            "every block with X, Z or R.")),
    numbered(
        Order::FacingPass, Motion, 940, 790, 240,
        later("One facing pass and back, straight or with the taper R (or K); again in every block with X, Z or R.")),
    everywhere(Order::DrillCancel, CycleEnd, 'G', 800,
               later("Ends a drilling cycle; the next movement must say its own code.")),
    everywhere(
        Order::Drill, Motion, 'G', 810,
        later("Drills to Z in one go, from the retract point R (A: counted from the start; B, C: a position), K times; "
              "again in every block with an axis word.")),
    everywhere(Order::DrillWithDwell, Motion, 'G', 820,
               later("Drills to Z as G81, and dwells P milliseconds at the bottom.")),
    everywhere(
        Order::PeckDrill, Motion, 'G', 830,
        later("Drills to Z as G81, in pecks of Q least increments; how far it comes out between them is a key of the "
              "set-up.")),
    everywhere(Order::Tap, Motion, 'G', 840,
               later("Taps: in at the lead, spindle reversed, out at the lead; otherwise as the drilling cycles.")),
    everywhere(Order::Bore, Motion, 'G', 850, later("Bores to Z at feed, dwells P, and comes back to R at feed.")),
    everywhere(Order::BoreWithStop, Unknown, 'G', 860, later("Bores to Z, stops the spindle and comes back at rapid.")),
    everywhere(Order::SideDrill, Unknown, 'G', 870, later("Drilling from the side with a driven tool.")),
    everywhere(Order::SideTap, Unknown, 'G', 880, later("Tapping from the side with a driven tool.")),
    everywhere(Order::SideBore, Unknown, 'G', 890, later("Boring from the side with a driven tool.")),

    everywhere(Order::Dwell, OneShot, 'G', 40, later("Waits: seconds behind X or U, milliseconds behind P.")),
    everywhere(
        Order::CylindricalInterpolation, SpindleAxis, 'G', 71,
        later(
            "Cylindrical interpolation, C the radius, C0 ends it: moves are carried with C, cutting is not modelled.")),
    everywhere(Order::CylindricalInterpolation, SpindleAxis, 'G', 1070, later("Cylindrical interpolation, as G07.1.")),
    everywhere(Order::DataEntry, OneShot, 'G', 100,
               later("Enters work offsets (L2, L20) and tool offsets (L10, L11, or P alone) from the program.")),
    everywhere(Order::DataEntryEnd, Unknown, 'G', 110, later("Ends data entry.")),
    everywhere(Order::ReferenceCheck, OneShot, 'G', 270, later("Goes to a point that must be the reference position.")),
    everywhere(Order::Reference, OneShot, 'G', 280, later("To the reference position by way of a point.")),
    everywhere(Order::OtherReference, OneShot, 'G', 300, later("To the second, third or fourth reference position.")),
    everywhere(Order::FeedUntilSkip, OneShot, 'G', 310,
               later("Feed that a probe or a stop may end; run to its end here.")),
    numbered(Order::CoordinateSetting, OneShot, 500, 920, 920,
             later("With S: speed clamp. With axis words: sets coordinates.")),
    everywhere(Order::LocalShift, OneShot, 'G', 520, later("Shifts the datum within the work offset.")),
    everywhere(Order::MachinePosition, Machine, 'G', 530,
               later("To a position that counts from the reference position.")),
    everywhere(Order::MacroCall, OneShot, 'G', 650,
               later("Calls the macro P, L times, with the other words as its local variables.")),
    everywhere(Order::ModalMacroCall, MacroCall, 'G', 660,
               later("Calls the macro P after every block with a move, until G67.")),
    everywhere(Order::ModalMacroEnd, MacroCall, 'G', 670, later("Ends the calls after every move.")),
    numbered(Order::FinishingCycle, OneShot, 700, 700, 720,
             later("Finishing along the profile P to Q with its own F and S, and back to the start.")),
    numbered(
        Order::RoughingAlong, OneShot, 710, 710, 730,
        later("Roughing along Z in passes up to the profile P to Q, then along it. If the first profile block names X "
              "and Z (type II), pockets too, level by level; controls differ in the order, which changes nothing of "
              "what is left for finishing.")),
    numbered(Order::RoughingAcross, OneShot, 720, 720, 740,
             later("Roughing along X in passes up to the profile P to Q, then along it.")),
    numbered(Order::PatternRepeat, OneShot, 730, 730, 750,
             later("Roughing in passes along the profile P to Q, each nearer to it.")),
    numbered(
        Order::FacePeck, OneShot, 740, 740, 760,
        later(
            "Pecks along Z: face groove, or drilling on the axis. P step and Q peck in least increments, or I and K as "
            "lengths; R alone in the block before is the retract, beside the end point the relief at the bottom.")),
    numbered(
        Order::GroovePeck, OneShot, 750, 750, 770,
        later(
            "Pecks along X: grooves, parting. P peck on radius and Q step in least increments, or I and K as lengths; "
            "R alone in the block before is the retract, beside the end point the relief at the bottom.")),
    numbered(
        Order::ThreadingCycle, OneShot, 760, 760, 780,
        later(
            "A whole thread in passes of equal area. Two blocks: P finish passes, pull-out and angle, Q least depth, R "
            "finish allowance; then X Z, P depth, Q first depth, R taper, F lead. Or one: X Z, K depth, D first depth, "
            "I taper, A angle, F lead.")),

    everywhere(Order::PolarInterpolation, SpindleAxis, 'G', 121,
               later("Polar interpolation, X and C as a plane: moves are carried with C, cutting is not modelled.")),
    everywhere(Order::PolarInterpolation, SpindleAxis, 'G', 1120, later("Polar interpolation, as G12.1.")),
    everywhere(Order::PolarInterpolationEnd, SpindleAxis, 'G', 131, later("Ends polar interpolation.")),
    everywhere(Order::PolarInterpolationEnd, SpindleAxis, 'G', 1130, later("Ends polar interpolation, as G13.1.")),
    everywhere(Order::PlaneXY, Unknown, 'G', 170, later("Plane XY.")),
    everywhere(Order::PlaneZX, Plane, 'G', 180, later("Plane ZX, the plane of turning: what always holds here.")),
    everywhere(Order::PlaneYZ, Unknown, 'G', 190, later("Plane YZ.")),
    numbered(Order::Inches, Units, 200, 200, 700, later("Lengths in inches.")),
    numbered(Order::Millimetres, Units, 210, 210, 710, later("Lengths in millimetres.")),
    everywhere(Order::CompensationOff, Compensation, 'G', 400, later("Nose-radius compensation off.")),
    everywhere(Order::CompensationLeft, Compensation, 'G', 410, later("Nose left of the path.")),
    everywhere(Order::CompensationRight, Compensation, 'G', 420, later("Nose right of the path.")),
    everywhere(Order::WorkOffset, WorkOffset, 'G', 540, later("First work offset.")),
    everywhere(Order::WorkOffset, WorkOffset, 'G', 550, later("Second work offset.")),
    everywhere(Order::WorkOffset, WorkOffset, 'G', 560, later("Third work offset.")),
    everywhere(Order::WorkOffset, WorkOffset, 'G', 570, later("Fourth work offset.")),
    everywhere(Order::WorkOffset, WorkOffset, 'G', 580, later("Fifth work offset.")),
    everywhere(Order::WorkOffset, WorkOffset, 'G', 590, later("Sixth work offset.")),
    everywhere(Order::FurtherWorkOffset, WorkOffset, 'G', 541, later("One of the further work offsets, P.")),
    everywhere(Order::ExactStop, PathMode, 'G', 610,
               later("Exact stop at the end of each feed move; corners are sharp here in any case.")),
    everywhere(Order::ExactStopHere, PathMode, 'G', 90, later("Exact stop at the end of this block only.")),
    everywhere(Order::CuttingMode, PathMode, 'G', 640,
               later("Feed runs on from move to move; the rounding of corners by the servo is not modelled.")),
    everywhere(Order::SurfaceSpeed, SpeedMode, 'G', 960, later("S is a surface speed.")),
    everywhere(Order::FixedSpeed, SpeedMode, 'G', 970, later("S is a spindle speed.")),
    numbered(Order::FeedPerMinute, FeedMode, 980, 940, 940, later("F per minute.")),
    numbered(Order::FeedPerRev, FeedMode, 990, 950, 950, later("F per revolution.")),
    numbered(Order::Absolute, Distance, -1, 900, 900, later("X and Z are positions.")),
    numbered(Order::Incremental, Distance, -1, 910, 910, later("X and Z are distances.")),
    numbered(Order::ReturnToStart, ReturnLevel, -1, 980, 980, later("Drilling cycles go back to where they began.")),
    numbered(Order::ReturnToRetract, ReturnLevel, -1, 990, 990,
             later("Drilling cycles go back to the retract point R.")),

    everywhere(Order::ProgramStop, ProgramFlow, 'M', 0, later("The program stops.")),
    everywhere(Order::OptionalStop, ProgramFlow, 'M', 10, later("The program stops if the switch is on.")),
    everywhere(Order::ProgramEnd, ProgramFlow, 'M', 20, later("End of the program.")),
    everywhere(Order::ProgramEnd, ProgramFlow, 'M', 300, later("End of the program, back to its beginning.")),
    everywhere(Order::SpindleForward, Spindle, 'M', 30, later("Spindle forward.")),
    everywhere(Order::SpindleReverse, Spindle, 'M', 40, later("Spindle reverse.")),
    everywhere(Order::SpindleStop, Spindle, 'M', 50, later("Spindle stop.")),
    everywhere(Order::ToolChange, ToolChange, 'M', 60, later("Tool change; a turret indexes with T alone.")),
    everywhere(Order::CoolantOn, Coolant, 'M', 80, later("Coolant on.")),
    everywhere(Order::CoolantOff, Coolant, 'M', 90, later("Coolant off.")),
    everywhere(Order::SubprogramCall, ProgramFlow, 'M', 980,
               later("Calls the program P, L times; of a P of more than four figures the last four are its number.")),
    everywhere(Order::SubprogramEnd, ProgramFlow, 'M', 990,
               later("Back to the calling program, with P to its block of that N number.")),
};
constexpr std::size_t kRows = std::size(kTable);
static_assert(kRows < 255);

constexpr int kNumbers = 1200;  // G00.0 … G119.9

// Row of the table by number, one more than its index; 0 for none. For G in the three systems, then M.
using Rows = std::array<std::array<std::uint8_t, kNumbers>, 4>;

constexpr Rows rowsByNumber() {
    Rows rows{};
    for (std::size_t row = 0; row < kRows; ++row) {
        for (std::size_t system = 0; system < 3; ++system) {
            const int number = kTable[row].number[system];
            if (number < 0) continue;
            rows[kTable[row].letter == 'G' ? system : 3][static_cast<std::size_t>(number)] =
                static_cast<std::uint8_t>(row + 1);
        }
    }
    return rows;
}

constexpr Rows kRowByNumber = rowsByNumber();

}  // namespace

std::span<const CodeEntry> codeTable() {
    return kTable;
}

const CodeEntry* codeEntry(char letter, int tenths, CodeSystem system) {
    if (tenths < 0 || tenths >= kNumbers) return nullptr;
    const std::size_t column = letter == 'G' ? static_cast<std::size_t>(system) : 3;
    const std::uint8_t row = kRowByNumber[column][static_cast<std::size_t>(tenths)];
    return row == 0 ? nullptr : &kTable[row - 1];
}

}  // namespace firstoff
