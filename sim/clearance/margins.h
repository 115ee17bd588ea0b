// By how much offsets, overhangs, stick-out and datum may be wrong before the first contact.
//
// Each timed move is taken as the program makes it, with the metal as it is there, and what the turret carries is put
// out of place by a growing amount in one direction. Contacts count as in the check itself; the edge in use counts
// against the billet at rapid, on moves that do not start or end on the metal. Index swings are left out.
#pragma once

#include <memory>
#include <stop_token>
#include <vector>

#include "sim/clearance/body_pairs.h"
#include "sim/clearance/clearance.h"
#include "sim/clearance/move_gauge.h"
#include "sim/stock/worker_team.h"

namespace firstoff {

Margins marginsOf(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                  const std::shared_ptr<const StockHistory>& stock, const GaugeShapes& shapes, const MachineWays& ways,
                  const std::vector<BodyPair>& pairs, const std::vector<CutReach>& reaches, WorkerTeam& team,
                  const std::stop_token& stop);

}  // namespace firstoff
