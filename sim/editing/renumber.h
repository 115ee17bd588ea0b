// New sequence numbers for a program, with everything that names one of them following.
//
// What names a number: P and Q of the cycles along a profile, GOTO with a figure, and P of M99, which goes back to a
// block of the calling program. Each is looked up as the control does it, within its own program of the tape. Where
// that cannot be said for certain – a GOTO that calculates its target, a number that stands twice – nothing is changed
// at all, and the line is named. Remarks are not read: a number in one stays as it is.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim/editing/text_change.h"
#include "sim/program/program.h"
#include "sim/setup/setup.h"

namespace firstoff {

struct Renumbering {
    std::int32_t first = 10, step = 10;  // at least 0 and 1; each program of the tape begins anew
    // Every block with words or a statement gets a number; otherwise only those that have one.
    bool everyBlock = true;
};

struct Renumbered {
    TextChanges changes;        // in the program's own file; empty where something was refused
    std::size_t blocks = 0;     // that have a number afterwards
    std::size_t followers = 0;  // words and statements that name one and were changed with it
    struct Remark {
        BlockId block = kNoBlock;
        std::string text;  // for people; names the line
    };
    std::vector<Remark> refusals;  // why nothing was changed
    std::vector<Remark> cautions;  // what was left alone and should be looked at
};

// The largest sequence number that any control takes: five figures (NISTIR 6556 sec. 3.3.1).
inline constexpr std::int32_t kLargestSequenceNumber = 99999;

// `program`: with the files that it calls, where they are known. `system`: of the control, by which codes are read.
Renumbered renumber(const Program& program, CodeSystem system, const Renumbering& wish);

}  // namespace firstoff
