// What the control makes of a program: moves of the turret, in order, each knowing the block it came from.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim/base/contour.h"
#include "sim/base/finding.h"
#include "sim/base/point.h"
#include "sim/program/program.h"
#include "sim/setup/setup.h"

namespace firstoff {

enum class MoveKind : std::uint8_t {
    Rapid,
    Feed,
    ArcClockwise,      // as G02 is drawn with X upwards and Z to the right
    ArcAnticlockwise,  // G03, likewise
    Thread,
    Dwell,
    Index,  // turret index; stays where it is
    Home,   // to the reference position at rapid
};

constexpr bool isArc(MoveKind kind) {
    return kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise;
}

// "rapid", "feed", "arc-cw", … – the words of the moves table.
const char* name(MoveKind kind);

enum class Compensation : std::uint8_t { Off /* G40 */, Left /* G41 */, Right /* G42 */ };

// What the control holds modally while a move runs. Moves share entries: a new one is made only when something changed.
struct ModalState {
    int motion = 0;  // number of the motion code in force, as code system A has it; that of a cycle while it runs
    bool inches = false;
    bool feedPerRev = true;             // G99; false G98
    double feed = 0;                    // F, mm/rev or mm/min
    bool constantSurfaceSpeed = false;  // G96; false G97
    double speed = 0;                   // S, m/min under G96, rev/min under G97
    double clampRevPerMin = 0;          // G50 S; 0 none given
    SpindleDirection spindle = SpindleDirection::Stopped;
    bool coolant = false;
    bool exactStop = false;  // G61, and G09 for its own block: the axes stand at the end of every move
    Compensation compensation = Compensation::Off;
    int workOffset = 0;       // 0 for G54 … 5 for G59, 5 + n for G54.1 Pn
    std::uint32_t datum = 0;  // index into Toolpath::datums
    friend bool operator==(const ModalState&, const ModalState&) = default;
};

// "G54" … "G59", "G54.1 P3": ModalState::workOffset as it is programmed.
std::string workOffsetName(int workOffset);

// A T word carried out, or an offset in force changed by the program: which station and which offset stand from then
// on.
struct ToolCall {
    int station = 0;  // 0: none yet
    int offset = 0;   // 0: offset cancelled
    Point tip;        // true tip from the turret reference (Tool::tip), zero without a tool
    // Tip from the turret reference as the control reckons it: gauge minus wear. With offset 0 the tool's own length;
    // for an empty station, which is reported, some other tool's, so that its moves stay near where they were meant.
    Point reckoned;
    int toolIndex = -1;  // into Setup::tools, -1 when the station is empty
    BlockId block = kNoBlock;
};

// "T0101": a tool call as it is programmed.
std::string toolWord(const ToolCall& call);

// What only few moves have: threads, times of M codes, and moves in which the spindle is an axis.
struct MoveExtra {
    double lead = 0;           // Thread: mm per revolution along the longer axis of the move (on radius), at its start
    double leadChange = 0;     // Thread: added to the lead with every revolution, mm
    double startAngle = 0;     // Thread: spindle angle at which it starts, rad, 0 … 2π
    double threadDepth = 0;    // Thread: how deep below the crest a cycle means this pass to be, mm; 0 not known
    bool machineCode = false;  // Dwell: what an M code takes, not a G04
    bool spindleIsAxis = false;  // the move turns the spindle as the C axis:
    double cFrom = 0, cTo = 0;   // rad
    friend bool operator==(const MoveExtra&, const MoveExtra&) = default;
};
inline constexpr std::uint32_t kNoExtra = 0xffffffffu;

// Positions are those of the turret reference point, lathe frame, so that they are continuous whatever offset is
// called.
//   true tip            = position + call.tip
//   programmed position = position + call.reckoned - datum   (what the program and the position display say)
struct Move {
    Point from;
    Point to;
    Point centre;                    // arcs only
    double feed = 0;                 // feed moves: F in force, mm/rev or mm/min as the modal state says
    double seconds = 0;              // dwell and index
    BlockId block = kNoBlock;        // the block that describes the geometry (a profile block inside a cycle)
    BlockId cycleBlock = kNoBlock;   // the block that called the cycle, kNoBlock outside cycles
    std::uint32_t modal = 0;         // index into Toolpath::modals
    std::uint32_t extra = kNoExtra;  // index into Toolpath::extras; every Thread has one
    std::uint16_t call = 0;          // index into Toolpath::calls
    std::uint16_t pass = 0;          // roughing pass counted from 1; 0 outside cycles
    MoveKind kind = MoveKind::Rapid;
    Compensation compensation = Compensation::Off;
};

// One executed block, in order of execution; a block may appear many times: a roughing cycle has a step for each pass,
// a finishing cycle one for each profile block and one for the way back to its start.
struct Step {
    BlockId block = kNoBlock;
    std::uint32_t firstMove = 0;  // moves made from here on belong to it, until the next step
    // The same, or the block that called where this one stands in another file than the program: what can be shown.
    BlockId shown = kNoBlock;
};

// An M code of the set-up that moves something else than the turret or grips. It takes the move that begins there,
// a dwell, be it of no time.
struct MachineEvent {
    MachineAction action = MachineAction::None;
    BlockId block = kNoBlock;
    std::uint32_t duringMove = 0;  // index into Toolpath::moves
};

struct ProgramStop {
    enum class Kind : std::uint8_t { Stop /* M00 */, Optional /* M01 */, End /* M02, M30 */ };
    Kind kind = Kind::Stop;
    BlockId block = kNoBlock;
    std::uint32_t beforeMove = 0;
};

struct Toolpath {
    std::vector<Move> moves;
    std::vector<ModalState> modals;  // at least one
    std::vector<ToolCall> calls;     // at least one: entry 0 is the state before any T word
    std::vector<MoveExtra> extras;
    // Where programmed coordinates count from, lathe frame: work offset with all shifts. At least one; the first stands
    // before any block.
    std::vector<Point> datums{Point{}};
    std::vector<Step> steps;
    std::vector<ProgramStop> stops;
    std::vector<MachineEvent> machineEvents;  // in order of moves
    // The profile of the finishing cycle that WantedPart::line names, as programmed, without nose-radius compensation:
    // lathe frame, open, the bulge of its last corner means nothing. Empty: no such cycle was carried out there.
    Contour wantedProfile;
    std::vector<Finding> findings;

    // From a turret reference position to the programmed (work) position of a move, and to the true tip.
    Point datumOf(const Move& move) const { return datums[modals[move.modal].datum]; }
    Point programmedShift(const Move& move) const { return calls[move.call].reckoned - datumOf(move); }
    Point tipShift(const Move& move) const { return calls[move.call].tip; }
};

// Carries out a program on the control that `setup` describes. Never fails: what is wrong or not understood becomes a
// finding at its word, and the rest is still carried out where that makes sense.
Toolpath interpret(const Program& program, const Setup& setup);

}  // namespace firstoff
