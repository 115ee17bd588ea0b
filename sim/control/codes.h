// The codes of the turning language: one table of what the control understands, in the three code systems.
//
// Turning controls number some of their G codes in three ways, which the trade calls code systems A, B and C. A code is
// therefore known here by what it orders, and the table says under which number each system has it (common practice, no
// source). The table is also what assets/language.md is held against.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

#include "sim/setup/setup.h"

namespace firstoff {

// Codes of one group exclude each other within a block. Groups as NISTIR 6556 table 4 has them, with the members of the
// turning trade.
enum class CodeGroup : std::uint8_t {
    Unknown,  // not in the table, or in it but not carried out
    // G
    Motion,        // movement and the cycles that stay in force until another movement code
    FeedMode,      // per minute, per revolution
    Units,         // inch, millimetre
    Distance,      // absolute, incremental (code systems B and C)
    Compensation,  // nose radius
    WorkOffset,    // which datum
    SpeedMode,     // surface speed, fixed speed
    CycleEnd,      // of a drilling cycle
    ReturnLevel,   // where a drilling cycle goes back to (code systems B and C)
    Plane,         // the plane of arcs
    PathMode,      // exact stop, cutting mode
    MacroCall,     // modal macro call on and off
    SpindleAxis,   // polar and cylindrical interpolation
    OneShot,       // act in their own block only and take its words
    Machine,       // act in their own block, together with a motion code
    // M
    ProgramFlow,
    Spindle,
    Coolant,
    ToolChange,
};

inline constexpr std::size_t kCodeGroups = static_cast<std::size_t>(CodeGroup::ToolChange) + 1;

enum class Order : std::uint8_t {
    Unknown,
    // movement
    Rapid,
    Feed,
    ArcClockwise,
    ArcAnticlockwise,
    Thread,
    ThreadOfVariableLead,
    TurningPass,
    ThreadingPass,
    FacingPass,
    DrillCancel,
    Drill,
    DrillWithDwell,
    PeckDrill,
    Tap,
    Bore,
    BoreWithStop,
    SideDrill,
    SideTap,
    SideBore,
    // one block
    Dwell,
    CylindricalInterpolation,
    DataEntry,
    DataEntryEnd,
    ReferenceCheck,
    Reference,
    OtherReference,
    FeedUntilSkip,
    CoordinateSetting,  // and the speed clamp
    LocalShift,
    MachinePosition,
    MacroCall,
    ModalMacroCall,
    ModalMacroEnd,
    FinishingCycle,
    RoughingAlong,
    RoughingAcross,
    PatternRepeat,
    FacePeck,
    GroovePeck,
    ThreadingCycle,
    // modal
    PolarInterpolation,
    PolarInterpolationEnd,
    PlaneXY,
    PlaneZX,
    PlaneYZ,
    Inches,
    Millimetres,
    CompensationOff,
    CompensationLeft,
    CompensationRight,
    WorkOffset,         // G54–G59
    FurtherWorkOffset,  // G54.1 P
    ExactStop,
    ExactStopHere,
    CuttingMode,
    SurfaceSpeed,
    FixedSpeed,
    FeedPerMinute,
    FeedPerRev,
    Absolute,
    Incremental,
    ReturnToStart,
    ReturnToRetract,
    // M
    ProgramStop,
    OptionalStop,
    ProgramEnd,
    SpindleForward,
    SpindleReverse,
    SpindleStop,
    ToolChange,
    CoolantOn,
    CoolantOff,
    SubprogramCall,
    SubprogramEnd,
};

// A row of the table. Numbers are ten times the code's, so that G54.1 is 541; -1 where a system has no such code.
struct CodeEntry {
    Order order = Order::Unknown;
    CodeGroup group = CodeGroup::Unknown;
    char letter = 'G';
    std::int16_t number[3] = {-1, -1, -1};  // in code system A, B, C
    // One sentence for the language table: what it orders, and what is understood of it. English, for tr().
    const char* meaning = "";
};

std::span<const CodeEntry> codeTable();

// Null for a code that the system does not have. `tenths` may be any number.
const CodeEntry* codeEntry(char letter, int tenths, CodeSystem system);

}  // namespace firstoff
