#include "sim/clearance/margins.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace firstoff {

namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();
constexpr std::size_t kBatch = 512;
// To what a margin is known; it is told on the safe side.
constexpr double kMarginStepMm = 0.002;
// Nearer to the metal than this at rapid: a cut ends or starts there.
constexpr double kOnMetalMm = 0.02;

enum Direction : std::size_t { Outwards, Inwards, Away, Toward, kDirections };
constexpr std::array<Point, kDirections> kWays{{{0, 1}, {0, -1}, {1, 0}, {-1, 0}}};

// Whose contact it is: of the tool in use itself or of the rest of the turret, with the billet or with anything else.
enum Group : std::size_t { OwnBillet, OwnRest, TurretBillet, TurretRest, kGroups };

using Table = std::array<std::array<Margin, kDirections>, kGroups>;

void keepLess(Margin& margin, const Margin& other) {
    if (other.mm < margin.mm) margin = other;
}

bool onTurret(const MachineBody& body) {
    return body.carrier == Carrier::Turret || body.carrier == Carrier::TurretSlide;
}

class Search {
public:
    Search(const GaugeShapes& shapes, const std::vector<BodyPair>& pairs, MoveGauge& gauge, std::size_t tools)
        : bodies_(shapes.bodies), turretSaid_(shapes.setup.turret.has_value()), pairs_(pairs), gauge_(gauge), tables_(tools), bounds_(pairs.size(), -kInf) {}

    void move(std::size_t index) {
        gauge_.start(index);
        const MachineWay& way = gauge_.way();
        if (way.toolIndex != tool_ || way.swings()) std::fill(bounds_.begin(), bounds_.end(), -kInf);
        tool_ = way.toolIndex;
        if (way.toolIndex < 0 || way.swings()) return;
        Table& table = tables_[static_cast<std::size_t>(way.toolIndex)];
        for (std::size_t p = 0; p < pairs_.size(); ++p) {
            const BodyPair& pair = pairs_[p];
            const MachineBody& body = bodies_.bodies[pair.body];
            if (!onTurret(body) || (!turretSaid_ && body.station > 0 && body.station != way.station)) continue;
            bounds_[p] -= motionOf(pair, bodies_, way).travelMm;
            const bool own = isInUse(body, way);
            const bool edge = own && body.kind == BodyKind::Edge && pair.other == 0;
            if (edge && (way.feeds() || way.kind == MoveKind::Dwell)) continue;
            const Group group =
                own ? (pair.other == 0 ? OwnBillet : OwnRest) : (pair.other == 0 ? TurretBillet : TurretRest);
            auto& margins = table[group];
            double most = 0;
            for (const Margin& margin : margins) most = std::max(most, margin.mm);
            if (bounds_[p] > most) continue;
            double gap = 0;
            if (edge) {
                gap = gauge_.edgeGap(pair, most + 4);
                bounds_[p] = -kInf;
                if (gap <= kOnMetalMm) continue;
            } else {
                gap = gauge_.measure(pair, most + 4).gap;
                bounds_[p] = gap;
                if (gap <= 0) {
                    margins.fill({0, index, pair.body, pair.other});
                    continue;
                }
            }
            for (std::size_t d = 0; d < kDirections; ++d) {
                if (gap < margins[d].mm) narrow(margins[d], pair, kWays[d], gap, index);
            }
        }
    }

    const std::vector<Table>& tables() const { return tables_; }

private:
    void narrow(Margin& margin, const BodyPair& pair, Point direction, double gap, std::size_t index) {
        if (gauge_.staysApart(pair, margin.mm * direction, true)) return;
        double apart = std::min(gap, margin.mm), touching = margin.mm;
        while (touching - apart > kMarginStepMm) {
            const double middle = (apart + touching) / 2;
            (gauge_.staysApart(pair, middle * direction, true) ? apart : touching) = middle;
        }
        margin = {apart, index, pair.body, pair.other};
    }

    const MachineBodies& bodies_;
    bool turretSaid_;  // without, only the tool in use is where its body says
    const std::vector<BodyPair>& pairs_;
    MoveGauge& gauge_;
    std::vector<Table> tables_;  // per tool of the set-up
    std::vector<double> bounds_;
    int tool_ = -2;
};

Margin leastOf(const Table& table, std::initializer_list<Group> groups, Direction direction) {
    Margin least;
    for (Group group : groups) keepLess(least, table[group][direction]);
    return least;
}

bool standsAlongTheAxis(const Tool& tool) {
    return worksOnTheAxis(tool.kind) || tool.kind == ToolKind::Boring || tool.inside || tool.face;
}

}  // namespace

Margins marginsOf(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                  const std::shared_ptr<const StockHistory>& stock, const GaugeShapes& shapes, const MachineWays& ways,
                  const std::vector<BodyPair>& pairs, const std::vector<CutReach>& reaches, WorkerTeam& team,
                  const std::stop_token& stop) {
    const std::size_t moves = timeline.moves.size();
    std::vector<std::vector<Table>> batches((moves + kBatch - 1) / kBatch);
    team.share(static_cast<int>(batches.size()), [&](int b) {
        const auto batch = static_cast<std::size_t>(b);
        MoveGauge gauge(shapes, ways, stock, reaches);
        Search search(shapes, pairs, gauge, setup.tools.size());
        for (std::size_t i = batch * kBatch; i < std::min(moves, (batch + 1) * kBatch); ++i) {
            if (stop.stop_requested()) return;
            search.move(i);
        }
        batches[batch] = search.tables();
    });
    std::vector<Table> tables(setup.tools.size());
    for (const std::vector<Table>& batch : batches) {
        for (std::size_t t = 0; t < batch.size(); ++t) {
            for (std::size_t g = 0; g < kGroups; ++g) {
                for (std::size_t d = 0; d < kDirections; ++d) keepLess(tables[t][g][d], batch[t][g][d]);
            }
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
        const auto all = {OwnBillet, OwnRest, TurretBillet, TurretRest};
        const Direction inTheWayOfTheTool = standsAlongTheAxis(setup.tools[t]) ? Toward : Inwards;
        ToolMargins tool;
        tool.toolIndex = static_cast<int>(t);
        tool.station = setup.tools[t].station;
        tool.xLarger = leastOf(table, all, Outwards);
        tool.xSmaller = leastOf(table, all, Inwards);
        tool.zAway = leastOf(table, all, Away);
        tool.zToward = leastOf(table, all, Toward);
        tool.overhangLess = leastOf(table, {TurretBillet, TurretRest}, inTheWayOfTheTool);
        tool.overhangMore = leastOf(table, {OwnBillet, OwnRest}, inTheWayOfTheTool);
        margins.tools.push_back(tool);
        keepLess(margins.setup.datumAway, tool.zAway);
        keepLess(margins.setup.datumToward, tool.zToward);
        keepLess(margins.setup.stickOutMore, leastOf(table, {OwnBillet, TurretBillet}, Toward));
        keepLess(margins.setup.stickOutLess, leastOf(table, {OwnBillet, TurretBillet}, Away));
    }
    return margins;
}

}  // namespace firstoff
