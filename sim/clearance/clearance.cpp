#include "sim/clearance/clearance.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "sim/clearance/approach.h"
#include "sim/clearance/contact_runs.h"
#include "sim/clearance/contact_zone.h"
#include "sim/clearance/envelopes.h"
#include "sim/motion/travel_time.h"

namespace firstoff {

namespace {

// How far the chords of an arc may be off it. Taken off the gap, so that it stays on the safe side.
constexpr double kChordMm = 0.0005;
// Chords of one arc; reached only by arcs of metres.
constexpr int kMostChords = 4096;

bool isArc(MoveKind kind) {
    return kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise;
}

void follow(const TimedMove& timed, Point tip, TipWay& way) {
    way.points.clear();
    way.slack = 0;
    way.points.push_back(timed.from + tip);
    if (isArc(timed.kind)) {
        const Arc arc = arcBetween(timed.from, timed.to, timed.centre, timed.kind == MoveKind::ArcClockwise);
        const double radius = std::max(arc.radiusFrom, arc.radiusTo);
        const double step = 2 * std::acos(std::max(0.0, 1 - kChordMm / std::max(radius, kChordMm)));
        const double wanted = std::ceil(std::abs(arc.turn) / step);
        const int chords = static_cast<int>(std::clamp(wanted, 1.0, double{kMostChords}));
        for (int i = 1; i < chords; ++i) way.points.push_back(arc.at(double(i) / chords) + tip);
        const double turn = std::abs(arc.turn) / chords;
        // Height of the arc above its chord, and what the radius changes on the way.
        way.slack = radius * (1 - std::cos(turn / 2)) + std::abs(arc.radiusTo - arc.radiusFrom) / chords;
    }
    way.points.push_back(timed.to + tip);
}

// One convex part of the tool against one envelope.
struct Pair {
    Body body;
    ToolPart part;
    ContactZone zone;
    Point readAt;
    ContactZone::Reading reading;  // at `readAt`
    bool isRead = false;
    double least = 0;  // for the move in hand
};

std::vector<Pair> pairsOf(const Tool& tool, const std::vector<Envelope>& envelopes) {
    std::vector<Pair> pairs;
    for (const Envelope& envelope : envelopes) {
        if (!tool.cutting.empty()) {
            pairs.push_back({envelope.body, ToolPart::Edge, {envelope.corners, tool.cutting}, {}, {}});
        }
        for (const Outline& step : tool.steps) {
            pairs.push_back({envelope.body, ToolPart::Edge, {envelope.corners, step}, {}, {}});
        }
        if (!tool.holder.empty()) {
            pairs.push_back({envelope.body, ToolPart::Holder, {envelope.corners, tool.holder}, {}, {}});
        }
    }
    return pairs;
}

class Check {
public:
    Check(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup)
        : timeline_(timeline), toolpath_(toolpath), runs_(timeline, toolpath, setup) {
        const std::vector<Envelope> envelopes = envelopesOf(setup);
        for (const Tool& tool : setup.tools) pairs_.push_back(pairsOf(tool, envelopes));
    }

    std::vector<Clearance> run(const std::stop_token& stop);
    std::vector<Finding> findings() const { return runs_.findings(); }

private:
    Clearance check(std::uint32_t index);
    void tryPair(Pair& pair, int toolIndex, Clearance& smallest, Contacts& contacts);

    const Timeline& timeline_;
    const Toolpath& toolpath_;
    std::vector<std::vector<Pair>> pairs_;  // per tool
    ContactRuns runs_;
    TipWay way_;
    double smallest_ = 0;  // of the move in hand, so far
};

void Check::tryPair(Pair& pair, int toolIndex, Clearance& smallest, Contacts& contacts) {
    const bool known = pair.isRead && pair.readAt == way_.points.front();
    ContactZone::Reading end = pair.reading;
    const Approach a = approach(pair.zone, way_, known ? &pair.reading : nullptr, &end);
    pair.reading = end;
    pair.readAt = way_.points.back();
    pair.isRead = true;
    if (a.gap < smallest_) {
        smallest_ = a.gap;
        smallest = {static_cast<float>(a.gap), 0, 0, inSpace(pair.zone.placeOnBody(a.reading, a.tip)), 0};
    }
    if (a.contactAt < 0) return;
    Contact& contact = contacts[groupOf(pair.body)];
    const double depth = std::max(-a.gap, 0.0);
    if (contact.depthMm < 0 || a.contactAt < contact.fraction) {
        contact = {pair.body,
                   pair.part,
                   a.contactAt,
                   std::max(depth, contact.depthMm),
                   pair.zone.placeOnBody(a.contactReading, a.contactTip),
                   toolIndex};
    }
    contact.depthMm = std::max(contact.depthMm, depth);
}

Clearance Check::check(std::uint32_t index) {
    constexpr double inf = std::numeric_limits<double>::infinity();
    Clearance smallest;
    smallest.gapMm = std::numeric_limits<float>::infinity();
    const TimedMove& timed = timeline_.moves[index];
    const ToolCall& call = toolpath_.calls[toolpath_.moves[timed.move].call];
    Contacts contacts = noContacts();
    smallest_ = inf;
    if (call.toolIndex >= 0 && !pairs_[call.toolIndex].empty()) {
        std::vector<Pair>& pairs = pairs_[call.toolIndex];
        follow(timed, call.tip, way_);
        const Box box = way_.box();
        Pair* nearest = &pairs.front();
        for (Pair& pair : pairs) {
            pair.least = leastGap(box, pair.zone.box());
            if (pair.least < nearest->least) nearest = &pair;
        }
        tryPair(*nearest, call.toolIndex, smallest, contacts);
        for (Pair& pair : pairs) {
            if (&pair != nearest && pair.least < smallest_) tryPair(pair, call.toolIndex, smallest, contacts);
        }
    }
    if (smallest_ <= 0) {
        runs_.touch(index, contacts);
    } else {
        runs_.pass(index);
    }
    return smallest;
}

std::vector<Clearance> Check::run(const std::stop_token& stop) {
    constexpr std::size_t kBetweenStops = 4096;
    std::vector<Clearance> clearances;
    clearances.reserve(timeline_.moves.size());
    for (std::size_t i = 0; i < timeline_.moves.size(); ++i) {
        if (i % kBetweenStops == 0 && stop.stop_requested()) break;
        clearances.push_back(check(static_cast<std::uint32_t>(i)));
    }
    return clearances;
}

std::vector<std::string> notModelled(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup) {
    std::vector<bool> used(toolpath.calls.size());
    bool indexes = false;
    for (const TimedMove& timed : timeline.moves) {
        used[toolpath.moves[timed.move].call] = true;
        if (timed.kind == MoveKind::Index) indexes = true;
    }
    std::vector<std::string> entries;
    const auto add = [&entries](std::string entry) {
        if (std::find(entries.begin(), entries.end(), entry) == entries.end()) entries.push_back(std::move(entry));
    };
    if (indexes) {
        add("The turret indexes, and the tools of the other stations swing past: that is not checked against chuck, "
            "jaws and "
            "tailstock.");
    }
    for (std::size_t i = 0; i < used.size(); ++i) {
        const ToolCall& call = toolpath.calls[i];
        if (!used[i] || call.station == 0) continue;
        if (call.toolIndex < 0) {
            add(fmt::format("Station {} has no tool in the set-up: what stands there is not checked.", call.station));
        } else if (setup.tools[call.toolIndex].holder.empty()) {
            add(fmt::format("The set-up does not give the holder of station {}: only its edge is checked.",
                            call.station));
        }
    }
    const Chuck& chuck = setup.chuck;
    if (chuck.jawLength > 0 && setup.stock.outerRadius >= chuck.jawOuterRadius) {
        add("The bar is as large as the circle the jaws sweep: the jaws are not checked.");
    }
    return entries;
}

}  // namespace

ClearanceResult checkClearances(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                                const std::shared_ptr<const StockHistory>& /*stock*/, const ClearanceOptions& options) {
    Check check(timeline, toolpath, setup);
    ClearanceResult result;
    result.bodies = std::make_shared<const MachineBodies>(machineBodies(setup));
    result.perMove = check.run(options.stop);
    result.findings = check.findings();
    result.notModelled = notModelled(timeline, toolpath, setup);
    return result;
}

}  // namespace firstoff
