// Passes of a thread and tapped holes: one figure for all of the pass, from the metal that it took.
//
// The billet knows threads by stamping the edge once per turn (sim/stock/stamps.h), so what a pass takes is known
// exactly, V; where along the flanks it takes it is not followed. Over the way that lies in metal, with N turns and the
// middle radius rm of what is taken,
//     chip area per turn  A = V / (2 pi rm N)
//     chip thickness      h = A / (b z),    b: both flanks as deep as the pass stands in the metal,  b = 2 d /
//     cos(alpha/2)
// A tap spreads its cut over the teeth of its chamfer: z is edges times threads of the chamfer then.
#pragma once

#include "sim/cutting/load_sampling.h"
#include "sim/stock/history.h"
#include "sim/stock/thread_zone.h"

namespace firstoff {

// `before`: the billet before the move, crests of threads left standing. Samples: one at the first metal, one where the
// metal or the move ends.
MoveLoad meanLoad(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup, const ChipLaw& law,
                  const Billet& before, const Cut& cut);

}  // namespace firstoff
