// Where the cycle time goes: by kind of work, by tool, by operation, and what is spent on air.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "sim/base/finding.h"
#include "sim/cutting/cutting_load.h"
#include "sim/program/program.h"
#include "sim/trial/machining_findings.h"

namespace firstoff {

enum class TimeKind : std::uint8_t {
    Cutting,  // at feed with metal coming off
    Air,      // at feed, nothing there
    Rapid,
    Index,
    Spindle,  // waiting for its speed
    Dwell,
    Other,  // M codes, feed hold
};
inline constexpr std::size_t kTimeKinds = 7;
const char* name(TimeKind kind);  // "cutting", "air", …

struct TimeShare {
    std::array<double, kTimeKinds> seconds{};
    double total() const;
    double of(TimeKind kind) const { return seconds[static_cast<std::size_t>(kind)]; }
};

// One stretch of the program in order of time.
struct TimeRow {
    // Tool: "T0101 finishing tool". Operation: "N100", with the remark beside it if there is one; what no sequence
    // number begins: "T0101 finishing tool, from line 5".
    std::string name;
    std::string plainName;     // the same in English whatever the language, for what programs read
    BlockId block = kNoBlock;  // where it begins
    std::uint32_t firstTimed = 0, endTimed = 0;
    int station = 0;
    TimeShare share;
};

// Time that a change of the program would save.
struct TimeWaste {
    enum class Kind : std::uint8_t { AirCut, LongRetract };
    Kind kind = Kind::AirCut;
    BlockId block = kNoBlock;
    double seconds = 0;  // that could be saved
    std::uint32_t times = 1;
    double lengthMm = 0;
};

struct TimeAccount {
    TimeShare whole;
    std::vector<TimeRow> tools;        // one for each run of moves with one tool
    std::vector<TimeRow> operations;   // from one sequence number that starts a line of its own work to the next
    std::vector<TimeWaste> wastes;     // greatest first
    std::vector<std::string> assumed;  // what the set-up does not say and was taken, in plain sentences
    std::vector<Finding> findings;     // notes
};

// Every second of the cycle is counted once in the whole, once among the tools and once among the operations. Of a move
// at feed what counts as cutting is the time while metal comes off, as the loads know it (metal_time.h); lead-in,
// lead-out and gaps are air. Operations begin at the sequence numbers that somebody
// would search for: at all of them where most blocks have none; else at those that follow a remark or an empty line or
// a stop, or that call a tool. Without a billet nothing is known of air: all feed counts as such.
TimeAccount accountOfTime(const Machining& machining, const LoadResult& loads);

// What TimeAccount::assumed says of a set-up.
std::vector<std::string> assumedOfTime(const Setup& setup);

}  // namespace firstoff
