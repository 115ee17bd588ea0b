// The programs on the tape and in the files beside it, by number: what M98, G65 and G66 can call.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/program/program.h"

namespace firstoff {

// From its O number to the next one, to a `%`, or to the end of its file.
struct ProgramText {
    std::int32_t number = -1;
    BlockId first = 0;
    BlockId end = 0;
    bool behindTape = false;   // stands behind the closing %, which controls do not read
    bool byFileName = false;   // the file has no O number, or another one than its name
    bool otherNumber = false;  // the latter
};

class ProgramTexts {
public:
    explicit ProgramTexts(const Program& program);

    // Null if there is none. The first of several, a number written with O before one that only a file's name says.
    const ProgramText* find(std::int32_t number) const;
    // Whether another program has this number as well, written with O.
    const ProgramText* other(const ProgramText& found) const;

private:
    void readPart(const Program& program, std::uint16_t part);

    std::vector<ProgramText> texts_;  // by number, then by place
};

}  // namespace firstoff
