#include "sim/plain_words/reference_tables.h"

#include "sim/base/say.h"

namespace firstoff {

namespace {

using enum WordMeasure;
using enum CycleBlock;

constexpr WordRole kFurther[] = {
    {Order::CoordinateSetting, Only, 'S', Number, later("the spindle turns no faster, in rev/min")},
    {Order::CoordinateSetting, Only, 'X', Diameter, later("what the tip counts as standing at from here on")},
    {Order::CoordinateSetting, Only, 'Z', Length, later("what the tip counts as standing at from here on")},
    {Order::LocalShift, Only, 'X', Diameter, later("by how much the datum is shifted")},
    {Order::LocalShift, Only, 'Z', Length, later("by how much the datum is shifted")},
    {Order::DataEntry, Only, 'L', Number,
     later("2 a work offset, 20 a further one, 10 the geometry of a tool offset, 11 its wear")},
    {Order::DataEntry, Only, 'P', Number, later("which offset")},
    {Order::DataEntry, Only, 'X', Diameter, later("figure in X that is entered")},
    {Order::DataEntry, Only, 'Z', Length, later("figure along Z that is entered")},
    {Order::DataEntry, Only, 'R', Length, later("nose radius that is entered")},
    {Order::DataEntry, Only, 'Q', Number, later("number of the imaginary tip, 0 to 9")},
    {Order::Reference, Only, 'X', Diameter, later("by way of this diameter")},
    {Order::Reference, Only, 'Z', Length, later("by way of this Z")},
    {Order::OtherReference, Only, 'P', Number, later("2, 3 or 4: which reference position")},
    {Order::ModalMacroCall, Only, 'P', Number, later("number of the macro that is called")},
    {Order::SubprogramEnd, Only, 'P', Number, later("N number of the block to go on with")},
};

constexpr ReferenceEntry kLetters[] = {
    {"N", later("Number of the block: cycles, jumps and the search of the control find it by that. 1 to 99999.")},
    {"O", later("Number under which the control keeps the program.")},
    {"X", later("Position across the axis, a diameter; a radius where the set-up says so.")},
    {"Z", later("Position along the axis; it counts away from the chuck.")},
    {"U", later("Distance across the axis, on the diameter: by how much X changes."),
     later("Belongs to cycles only; distances are written as X after the code for distances.")},
    {"W", later("Distance along the axis: by how much Z changes."),
     later("Belongs to cycles only; distances are written as Z after the code for distances.")},
    {"I", later("From the start of an arc to its centre in X, always on radius.")},
    {"K", later("From the start of an arc to its centre along Z.")},
    {"R", later("Radius of an arc up to half a turn; below zero the longer way round.")},
    {",C", later("Chamfer at the end of a move, so long along both of its sides.")},
    {",R", later("Rounding of this radius at the end of a move.")},
    {"A", later("Angle of a line from +Z, anticlockwise, in degrees: with X or Z, or alone before a line that crosses "
                "it. Also written ,A.")},
    {"C", later("Angle of the spindle as a position, in degrees. It is carried; cutting with it is not modelled.")},
    {"H", later("Angle of the spindle as a distance, in degrees. It is carried; cutting with it is not modelled.")},
    {"F", later("Feed for each revolution or in a minute, as the feed mode says; in threads the lead.")},
    {"S", later("Surface speed in m/min (ft/min under inches) or spindle speed in rev/min, as the speed mode says.")},
    {"T", later("Station and tool offset, two figures each: T0303 calls station 3 with offset 3. Offset 00 cancels.")},
    {"/", later("Block skip: the block is left out when the switch is on. /1 to /9 have a switch each.")},
    {"( )", later("Comment: for people, the control does nothing with it. What stands behind ; likewise.")},
    {"%", later("Begins and ends the tape.")},
};

constexpr ReferenceEntry kMacros[] = {
    {later("#1 to #33"), later("Variables local to each macro call; #0 is null and never set.")},
    {later("#100 to #199"),
     later("Variables common to all programs. They begin as null; reading one that was never set is a "
           "finding, for the machine may keep something in it.")},
    {later("#500 to #999"), later("Common variables that the machine keeps when it is switched off.")},
    {later("#2001 and up"), later("Tool offsets, from #5201 on the datums: read and set.")},
    {later("#4001 to #5104"), later("Codes in force and positions: read only.")},
    {"#3000=", later("Alarm with its text: the program stops itself. #3006= stops with a message.")},
    {"#i=", later("Sets a variable to an expression: #1=[#2+3]*2. Brackets are square, round ones are comments.")},
    {"+ - * / MOD **", later("Calculates; AND OR XOR work bit by bit, comparisons come last.")},
    {"EQ NE GT GE LT LE", later("Compares: equal, not equal, greater, greater or equal, less, less or equal.")},
    {"SIN COS TAN", later("Functions of angles in degrees, as ASIN, ACOS and ATAN[a]/[b].")},
    {"SQRT ABS ROUND", later("Root, amount without sign, nearest whole number; FIX rounds towards zero, FUP away; LN "
                             "and EXP.")},
    {"GOTO", later("Goes on at the block of this N number, searched forwards, then from the beginning.")},
    {"IF [ ] GOTO", later("Goes on at the block of this N number if the comparison holds.")},
    {"IF [ ] THEN", later("Sets a variable if the comparison holds.")},
    {"WHILE [ ] DO", later("Repeats the blocks up to END as long as the comparison holds. Loops 1 to 3, one in "
                           "another, never crossing.")},
    {"END", later("End of the loop of the same number.")},
};

}  // namespace

const char* groupName(CodeGroup group) {
    switch (group) {
        case CodeGroup::Unknown:
            return later("not carried out");
        case CodeGroup::Motion:
            return later("movement, and cycles that stay in force");
        case CodeGroup::FeedMode:
            return later("feed mode");
        case CodeGroup::Units:
            return later("units");
        case CodeGroup::Distance:
            return later("positions or distances");
        case CodeGroup::Compensation:
            return later("nose-radius compensation");
        case CodeGroup::WorkOffset:
            return later("work offset");
        case CodeGroup::SpeedMode:
            return later("speed mode");
        case CodeGroup::CycleEnd:
            return later("end of a drilling cycle");
        case CodeGroup::ReturnLevel:
            return later("where drilling cycles go back to");
        case CodeGroup::Plane:
            return later("plane of arcs");
        case CodeGroup::PathMode:
            return later("how corners are passed");
        case CodeGroup::MacroCall:
            return later("calls after every move");
        case CodeGroup::SpindleAxis:
            return later("spindle as an axis");
        case CodeGroup::OneShot:
            return later("orders of one block");
        case CodeGroup::Machine:
            return later("orders of one block, with a movement");
        case CodeGroup::ProgramFlow:
            return later("stops, calls and ends");
        case CodeGroup::Spindle:
            return later("spindle");
        case CodeGroup::Coolant:
            return later("coolant");
        case CodeGroup::ToolChange:
            return later("tool change");
    }
    return "";
}

std::span<const WordRole> furtherRoles() {
    return kFurther;
}

std::span<const ReferenceEntry> lettersUnderAnyCode() {
    return kLetters;
}

std::span<const ReferenceEntry> macroStatements() {
    return kMacros;
}

}  // namespace firstoff
