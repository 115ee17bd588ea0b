// By how much offsets, overhangs, stick-out and datum may be wrong before the first contact.
//
// Each timed move is taken as the program makes it, with the metal as it leaves it, and what the turret carries is put
// out of place by a growing amount in one direction. Contacts count as in the check itself; the edge in use counts
// against the billet at rapid, until its tool call takes off metal. Index swings are left out.
#pragma once

#include <array>
#include <cstddef>
#include <limits>
#include <vector>

#include "sim/clearance/body_pairs.h"
#include "sim/clearance/clearance.h"
#include "sim/clearance/move_gauge.h"

namespace firstoff {

class MarginSearch {
public:
    enum Direction : std::size_t { Outwards, Inwards, Away, Toward, kDirections };
    // Whose contact it is, and with what: of the edge in use, of its holder, of the rest of the turret; with the blank
    // before anything is cut off it, with the billet later, with anything else. The edge counts against the billet at
    // rapid until its tool call takes off metal itself: what it has cut is where it is because of it.
    enum Group : std::size_t {
        EdgeBlank,
        EdgeBillet,
        HolderBlank,
        HolderBillet,
        OwnRest,
        TurretBlank,
        TurretBillet,
        TurretRest,
        kGroups
    };
    using Table = std::array<std::array<Margin, kDirections>, kGroups>;

    // `firstCuts`: per timed move, the first of its tool call that takes off metal; `firstCut` of all.
    MarginSearch(const GaugeShapes& shapes, const std::vector<BodyPair>& pairs, MoveGauge& gauge,
                 const std::vector<std::uint32_t>& firstCuts, std::size_t firstCut);

    // Narrows the margins by one timed move, which the gauge has started. Moves in order.
    void take(std::size_t timedMove);
    // Per tool of the set-up.
    const std::vector<Table>& tables() const { return tables_; }

private:
    void forget();
    Group groupOf(bool own, bool edge, bool billet, std::size_t timedMove) const;
    void narrow(Margin& margin, const BodyPair& pair, Point direction, std::size_t timedMove);

    const GaugeShapes& shapes_;
    const std::vector<BodyPair>& pairs_;
    MoveGauge& gauge_;
    const std::vector<std::uint32_t>& firstCuts_;
    std::size_t firstCut_;
    std::vector<Table> tables_;
    // Per pair and direction: by how much, at least, it stays apart where everything stands now and out of place by the
    // margin so far. Metal only goes and margins only get narrower, so that travel alone uses it up.
    std::vector<std::array<double, kDirections>> slacks_;
    int tool_ = -2;
};

// The least of what several searches found.
Margins marginsFrom(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                    const std::vector<std::vector<MarginSearch::Table>>& searches);

}  // namespace firstoff
