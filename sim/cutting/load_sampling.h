// The load along one timed move, at as many places as it takes. Inside sim/cutting only.
//
// Places. Every figure but feed and speed changes with the engaged section alone, and G = 2 pi int r dw of it
// integrates over the way to the metal that the move takes, which the history of the billet knows by itself. So places
// are set until two tests pass: halving a stretch changes its metal by less than one part in ten thousand of that of
// the move (a shoulder, where the section jumps, is thus closed in to within so much), and the whole adds up to what
// the billet lost. A peak that was stepped over is metal that is missing: then places are set twice as densely and all
// is done again. What still fits in between takes less than one part in two thousand of the metal of the move, or of a
// move that is small beside the others, of a twentieth of their mean.
//
// Time. What is engaged knows nothing of time. Where the slides take time to gain and lose speed the spindle turns on,
// and every revolution takes less than the feed asked for: so pace, feed per revolution and all that follows from them
// are those of the true pace at each place (feed_run.h), and places stand where speed has been gained and begins to be
// lost.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/control/toolpath.h"
#include "sim/cutting/chip_force.h"
#include "sim/cutting/cutting_load.h"
#include "sim/cutting/engaged_front.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/history.h"

namespace firstoff {

// What one move asks for.
struct MoveLoad {
    std::vector<LoadSample> samples;
    double energyJ = 0;
    double removedMm3 = 0;  // integral over the samples
    bool mean = false;
    bool leastPassive = false;  // see ToolLoad
    // Why nothing was reckoned, though metal went.
    enum class Left : std::uint8_t { Nothing, SpindleStands, NoFeed, NotFollowed } left = Left::Nothing;
};

// Of edges that cut at a time, as the set-up says or as the kind has it: drills 2; reamers and taps as most of their
// size have; 1 for inserts.
int edgesOf(const Tool& tool);

// What the metal of a move is measured by.
struct MoveMetal {
    double removedMm3 = 0;  // that it took
    double leastMm3 = 0;    // so little counts as so much, where differences are judged
};

// `cursor` stands before the move, and may stand anywhere afterwards. `law` with kc11 0: no forces.
MoveLoad sampleMove(std::uint32_t timedMove, const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                    const ChipLaw& law, StockCursor& cursor, const MoveMetal& metal);

}  // namespace firstoff
