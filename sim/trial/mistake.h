// A chosen mistake put into a sound job, to see what comes of it: for those who teach proving out.
//
// Each is a slip that happens at a machine (common practice, no source). What comes of it is another trial of its own;
// nothing here says whether it does harm.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim/trial/trial.h"

namespace firstoff {

struct Mistake {
    enum class Kind : std::uint8_t {
        PointLost,       // X24.5 keyed as X245
        PointMoved,      // Z-15. keyed as Z-1.5
        SignLost,        // Z-15. keyed as Z15., or the other way
        OtherOffset,     // T0303 called as T0305
        NoClamp,         // the block that clamps the speed is missing
        OtherSide,       // G41 for G42
        NoCompensation,  // the block goes without G41 or G42
        NoseRadius,      // entered on the offset page otherwise than the insert has it
        TipNumber,       // likewise
        CentreHeight,    // the edge stands below the axis
        OtherInsert,     // one with another nose radius is clamped in
        Jaws,            // they stand further out
        ShortBar,        // the bar sticks out less, the datum stays
    };
    Kind kind = Kind::PointLost;
    BlockId block = kNoBlock;  // in the program; kNoBlock: at the machine
    std::uint32_t from = 0;    // bytes of Program::text that are written otherwise, [from, to)
    std::uint32_t to = 0;
    std::string written;  // in their place
    int station = 0;      // at the machine: of the tool
    int offset = 0;       // number on the offset page
    double figure = 0;    // mm or a number, as the kind needs it
    std::string told;     // "Z-15. keyed as Z15."

    friend bool operator==(const Mistake&, const Mistake&) = default;
};

// "sign lost", …: the kind by itself.
const char* name(Mistake::Kind kind);

// Every mistake that can be put into this job, those of the program in order of its lines, then those at the machine.
// Only blocks that are carried out, and words that the mistake makes another one of.
//
// At most `most` of the program, so that a very long one is not listed without end.
std::vector<Mistake> possibleMistakes(const Trial& sound, std::size_t most = 5000);

struct SpoiltJob {
    Program program;
    Setup setup;
};
// The job of `sound` with the mistake in it. Lines keep their numbers.
SpoiltJob withMistake(const Trial& sound, const Mistake& mistake);

}  // namespace firstoff
