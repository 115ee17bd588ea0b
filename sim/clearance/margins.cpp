#include "sim/clearance/margins.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace firstoff {

namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();
// To what a margin is known: this share of it, within these bounds. Told on the safe side.
constexpr double kShare = 0.02;
constexpr double kFinestMm = 0.005, kCoarsestMm = 1;
// Steps towards a contact, each as long as the gap that is left; grazing ones are ended early, on the safe side.
constexpr int kMostSteps = 40;
// Nearer to the metal than this at rapid: a cut ends or starts there.
constexpr double kOnMetalMm = 0.02;
// How far a gap is followed up, so that it need not be asked for again for some moves.
constexpr double kFurtherMm = 4;

using Direction = MarginSearch::Direction;
using Group = MarginSearch::Group;
using Table = MarginSearch::Table;
constexpr std::array<Point, MarginSearch::kDirections> kWays{{{0, 1}, {0, -1}, {1, 0}, {-1, 0}}};

void keepLess(Margin& margin, const Margin& other) {
    if (other.mm < margin.mm) margin = other;
}

double knownTo(double marginMm) {
    return marginMm < kMarginLimit ? std::clamp(kShare * marginMm, kFinestMm, kCoarsestMm) : 0;
}

bool onTurret(const MachineBody& body) {
    return body.carrier == Carrier::Turret || body.carrier == Carrier::TurretSlide;
}

Margin leastOf(const Table& table, std::initializer_list<Group> groups, Direction direction) {
    Margin least;
    for (Group group : groups) keepLess(least, table[group][direction]);
    return least;
}

}  // namespace

MarginSearch::MarginSearch(const GaugeShapes& shapes, const std::vector<BodyPair>& pairs, MoveGauge& gauge,
                           const std::vector<std::uint32_t>& firstCuts, std::size_t firstCut)
    : shapes_(shapes),
      pairs_(pairs),
      gauge_(gauge),
      firstCuts_(firstCuts),
      firstCut_(firstCut),
      tables_(shapes.setup.tools.size()),
      slacks_(pairs.size()) {
    forget();
}

MarginSearch::Group MarginSearch::groupOf(bool own, bool edge, bool billet, std::size_t timedMove) const {
    const bool blank = timedMove < firstCut_;
    if (!billet) return own ? OwnRest : TurretRest;
    if (edge) return blank ? EdgeBlank : EdgeBillet;
    if (own) return blank ? HolderBlank : HolderBillet;
    return blank ? TurretBlank : TurretBillet;
}

void MarginSearch::forget() {
    for (auto& slacks : slacks_) slacks.fill(-kInf);
}

void MarginSearch::take(std::size_t timedMove) {
    const MachineWay& way = gauge_.way();
    if (way.toolIndex != tool_ || way.swings()) forget();
    tool_ = way.toolIndex;
    if (way.toolIndex < 0 || way.swings()) return;
    Table& table = tables_[static_cast<std::size_t>(way.toolIndex)];
    const MachineBodies& all = shapes_.bodies;
    for (std::size_t p = 0; p < pairs_.size(); ++p) {
        const BodyPair& pair = pairs_[p];
        const MachineBody& body = all.bodies[pair.body];
        // Without a table [turret] only the tool in use is where its body says.
        const bool elsewhere = !shapes_.setup.turret && body.station > 0 && body.station != way.station;
        if (!onTurret(body) || elsewhere) continue;
        const double travel = motionOf(pair, all, way).travelMm;
        for (double& slack : slacks_[p]) slack -= travel;
        const bool own = isInUse(body, way);
        const bool edge = own && body.kind == BodyKind::Edge && pair.other == 0;
        if (edge && (way.feeds() || way.kind == MoveKind::Dwell || timedMove > firstCuts_[timedMove])) continue;
        const Group group = groupOf(own, edge, pair.other == 0, timedMove);
        // A rapid that takes off metal is a crash as it stands.
        if (edge && timedMove == firstCuts_[timedMove]) {
            table[group].fill({0, timedMove, pair.body, pair.other});
            continue;
        }
        bool onMetal = false, known = !edge;
        for (std::size_t d = 0; d < kDirections; ++d) {
            Margin& margin = table[group][d];
            double& slack = slacks_[p][d];
            if (slack > 0 || margin.mm <= 0) continue;
            // Only what would narrow the margin by more than it is known to is of interest.
            const double asked = std::max(0.0, margin.mm - knownTo(margin.mm));
            slack = gauge_.gapWhenOff(pair, asked * kWays[d], kFurtherMm);
            if (slack > 0) continue;
            if (!known) onMetal = gauge_.gapWhenOff(pair, {}, kFurtherMm) <= kOnMetalMm;
            known = true;
            if (!onMetal) narrow(margin, pair, kWays[d], timedMove);
        }
    }
}

void MarginSearch::narrow(Margin& margin, const BodyPair& pair, Point direction, std::size_t timedMove) {
    double apart = 0;
    for (int i = 0; i < kMostSteps; ++i) {
        const double gap = gauge_.gapWhenOff(pair, apart * direction, margin.mm - apart);
        if (gap <= kFinestMm / 2) break;
        apart += gap;
        if (apart >= margin.mm) return;
    }
    margin = {apart, timedMove, pair.body, pair.other};
}

Margins marginsFrom(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                    const std::vector<std::vector<MarginSearch::Table>>& batches) {
    std::vector<Table> tables(setup.tools.size());
    for (const std::vector<Table>& batch : batches) {
        for (std::size_t t = 0; t < batch.size(); ++t) {
            for (std::size_t g = 0; g < MarginSearch::kGroups; ++g) {
                for (std::size_t d = 0; d < MarginSearch::kDirections; ++d) keepLess(tables[t][g][d], batch[t][g][d]);
            }
        }
    }
    for (Table& table : tables) {
        for (auto& group : table) {
            for (Margin& margin : group) margin.mm = std::max(0.0, margin.mm - knownTo(margin.mm));
        }
    }
    std::vector<bool> used(setup.tools.size());
    for (const TimedMove& timed : timeline.moves) {
        const int tool = toolpath.calls[toolpath.moves[timed.move].call].toolIndex;
        if (tool >= 0) used[static_cast<std::size_t>(tool)] = true;
    }
    Margins margins;
    for (std::size_t t = 0; t < tables.size(); ++t) {
        if (!used[t]) continue;
        const Table& table = tables[t];
        using G = MarginSearch::Group;
        const auto all = {G::EdgeBlank, G::EdgeBillet,  G::HolderBlank,  G::HolderBillet,
                          G::OwnRest,   G::TurretBlank, G::TurretBillet, G::TurretRest};
        const auto own = {G::EdgeBlank, G::EdgeBillet, G::HolderBlank, G::HolderBillet, G::OwnRest};
        const auto rest = {G::TurretBlank, G::TurretBillet, G::TurretRest};
        // The datum takes the cut metal along, so that only the blank counts, and what stands round it; the stick-out
        // only the blank.
        const auto blank = {G::EdgeBlank, G::HolderBlank, G::TurretBlank};
        const auto round = {G::EdgeBlank, G::HolderBlank, G::TurretBlank, G::OwnRest, G::TurretRest};
        const Direction outOfTheBlock = standsAlongZ(setup.tools[t]) ? Direction::Toward : Direction::Inwards;
        ToolMargins tool;
        tool.toolIndex = static_cast<int>(t);
        tool.station = setup.tools[t].station;
        tool.xLarger = leastOf(table, all, Direction::Outwards);
        tool.xSmaller = leastOf(table, all, Direction::Inwards);
        tool.zAway = leastOf(table, all, Direction::Away);
        tool.zToward = leastOf(table, all, Direction::Toward);
        tool.overhangLess = leastOf(table, rest, outOfTheBlock);
        tool.overhangMore = leastOf(table, own, outOfTheBlock);
        margins.tools.push_back(tool);
        keepLess(margins.setup.datumAway, leastOf(table, round, Direction::Away));
        keepLess(margins.setup.datumToward, leastOf(table, round, Direction::Toward));
        keepLess(margins.setup.stickOutMore, leastOf(table, blank, Direction::Toward));
        keepLess(margins.setup.stickOutLess, leastOf(table, blank, Direction::Away));
    }
    return margins;
}

}  // namespace firstoff
