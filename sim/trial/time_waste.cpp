// Air at feed: along a run of feed moves without a rapid between them, the way that takes no metal, lead-in and
// lead-out let pass once each. Where a move begins in air and then cuts, its way to the first metal counts. What it
// costs is the difference to the same way at rapid.
//
// Long retracts: a run of rapids from one feed move to the next with the same tool, without stop, dwell or index, that
// goes further out of the blank than kClearOfBlankMm beyond what either end needs; out and back at rapid is the cost.
#include "sim/trial/time_waste.h"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/control/codes.h"
#include "sim/motion/travel_time.h"
#include "sim/trial/metal_time.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

namespace {

constexpr double kLeastSaved = 0.05;  // s; less is not kept
constexpr double kWorthSayingS = 0.5;
constexpr double kWorthSayingShare = 0.01;  // of the cycle

class Waste {
public:
    Waste(const Machining& m, const LoadResult& loads, TimeAccount& account)
        : m_(m), loads_(loads), account_(account) {}

    void run() {
        if (!m_.stock) return;
        followFeed();
        followRapids();
        gather();
        report();
    }

private:
    const TimedMove& at(std::size_t i) const { return m_.timeline.moves[i]; }
    double lasts(std::size_t i) const { return at(i).t1 - at(i).t0; }
    double wayOf(std::size_t i) const {
        const TimedMove& t = at(i);
        if (t.kind != MoveKind::ArcClockwise && t.kind != MoveKind::ArcAnticlockwise) return distance(t.from, t.to);
        return arcBetween(t.from, t.to, t.centre, t.kind == MoveKind::ArcClockwise).length();
    }
    bool isAir(std::size_t i) const { return isAtFeed(at(i).kind) && !takesMetal(m_, i); }
    bool isLead(std::size_t i) const {
        const MoveKind kind = at(i).kind;
        return isAtFeed(kind) && kind != MoveKind::Thread && !wayIsTheCycles(i);
    }

    // Roughing, pecking and drilling cycles choose their ways themselves; nobody can bring them nearer.
    bool wayIsTheCycles(std::size_t i) const {
        const Move& move = moveAt(m_, i);
        const int motion = m_.toolpath.modals[move.modal].motion;
        if (motion >= 81 && motion <= 89) return true;
        if (move.cycleBlock == kNoBlock) return false;
        const Block& block = m_.program.blocks[move.cycleBlock];
        return std::any_of(m_.program.begin(block), m_.program.end(block), [&](const Word& word) {
            if (word.letter != 'G') return false;
            const auto tenths = static_cast<int>(std::lround(10 * word.value));
            const CodeEntry* code = codeEntry('G', tenths, m_.setup.control.codeSystem);
            return code != nullptr && code->order >= Order::RoughingAlong && code->order <= Order::ThreadingCycle;
        });
    }

    double rapidSeconds(double way) const {
        const double slower = std::min(m_.setup.machine.rapidZMmPerMin, m_.setup.machine.rapidRMmPerMin);
        return slower > 0 ? way / slower * 60 : 0;
    }

    void keep(TimeWaste::Kind kind, std::size_t i, double seconds, double way) {
        if (seconds < kLeastSaved || way < kLeastWayMm) return;
        found_.push_back({kind, operationOf(i), moveAt(m_, i).block, seconds, way});
    }

    std::size_t operationOf(std::size_t i) const {
        const auto behind = std::upper_bound(account_.operations.begin(), account_.operations.end(), i,
                                             [](std::size_t t, const TimeRow& row) { return t < row.firstTimed; });
        return static_cast<std::size_t>(behind - account_.operations.begin()) - 1;
    }

    // --- Air ---------------------------------------------------------------------------------------------------------

    void followFeed() {
        const std::size_t count = m_.timeline.moves.size();
        for (std::size_t i = 0; i < count;) {
            if (!isLead(i)) {
                ++i;
                continue;
            }
            // A stretch of feed moves, as far as they take no metal.
            const std::size_t first = i;
            double way = 0, time = 0;
            while (i < count && isLead(i) && isAir(i)) {
                way += wayOf(i);
                time += lasts(i++);
            }
            const bool runsIn = i < count && isLead(i);
            if (runsIn) addRunIn(i, way, time);
            keepAir(runsIn && i == first ? i : first, way, time);
            while (i < count && isLead(i) && !isAir(i)) ++i;
        }
    }

    void keepAir(std::size_t i, double way, double time) {
        const double over = way - kLeadInMm;
        if (over <= 0) return;
        keep(TimeWaste::Kind::AirCut, i, time * over / way - rapidSeconds(over), over);
    }

    // The part of a cutting move that lies before its first metal.
    void addRunIn(std::size_t i, double& way, double& time) {
        const auto stretches = stretchesInMetal(m_, loads_, static_cast<std::uint32_t>(i));
        const double clear = stretches.empty() ? 0 : stretches.front().min;
        if (clear <= 0) return;
        way += clear * wayOf(i);
        time += timeAt(at(i), m_.toolpath, m_.setup, clear) - at(i).t0;
    }

    // --- Retracts ----------------------------------------------------------------------------------------------------

    void followRapids() {
        const std::size_t count = m_.timeline.moves.size();
        for (std::size_t i = 1; i < count; ++i) {
            if (at(i).kind != MoveKind::Rapid || !isAtFeed(at(i - 1).kind)) continue;
            std::size_t end = i;
            while (end < count && at(end).kind == MoveKind::Rapid) ++end;
            // The spindle's change of speed may be waited for between; nothing else may.
            std::size_t next = end;
            while (next < count && at(next).wait == TimedMove::Wait::SpindleSpeed) ++next;
            const bool sameTool = next < count && isAtFeed(at(next).kind) &&
                                  moveAt(m_, next).call == moveAt(m_, i).call && !stopsBetween(i, next);
            if (sameTool) retract(i, end);
            i = end;
        }
    }

    bool stopsBetween(std::size_t from, std::size_t to) const {
        const std::uint32_t first = at(from).move, last = at(to).move;
        return std::any_of(m_.toolpath.stops.begin(), m_.toolpath.stops.end(), [&](const ProgramStop& stop) {
            return stop.beforeMove >= first && stop.beforeMove <= last;
        });
    }

    void retract(std::size_t first, std::size_t end) {
        const Point from = tipFrom(m_, first), back = tipTo(m_, end - 1);
        const double neededR = std::max({m_.setup.stock.outerRadius, from.r, back.r}) + kClearOfBlankMm;
        const double neededZ = std::max({m_.setup.stock.frontZ, from.z, back.z}) + kClearOfBlankMm;
        double overR = 0, overZ = 0;
        for (std::size_t i = first; i < end; ++i) {
            overR = std::max(overR, tipTo(m_, i).r - neededR);
            overZ = std::max(overZ, tipTo(m_, i).z - neededZ);
        }
        const Machine& machine = m_.setup.machine;
        const double share = m_.setup.overrides.rapid;
        const double secondsR = machine.rapidRMmPerMin > 0 ? 2 * overR / (machine.rapidRMmPerMin * share) * 60 : 0;
        const double secondsZ = machine.rapidZMmPerMin > 0 ? 2 * overZ / (machine.rapidZMmPerMin * share) * 60 : 0;
        keep(TimeWaste::Kind::LongRetract, first, std::max(secondsR, secondsZ), 2 * std::max(overR, overZ));
    }

    // --- Telling -----------------------------------------------------------------------------------------------------

    struct Found {
        TimeWaste::Kind kind;
        std::size_t operation;
        BlockId block;
        double seconds, way;
    };

    // One entry for each operation and kind, at the place that costs waste.
    void gather() {
        std::map<std::pair<std::size_t, TimeWaste::Kind>, std::pair<TimeWaste, double>> all;
        for (const Found& f : found_) {
            auto& [waste, greatest] = all[{f.operation, f.kind}];
            if (waste.times == 0 || waste.seconds == 0) waste.times = 0;
            waste.kind = f.kind;
            if (f.seconds > greatest) {
                greatest = f.seconds;
                waste.block = f.block;
            }
            waste.seconds += f.seconds;
            waste.lengthMm += f.way;
            ++waste.times;
        }
        for (const auto& [key, entry] : all) {
            account_.wastes.push_back(entry.first);
            operation_.push_back(key.first);
        }
        order();
    }

    void order() {
        std::vector<std::size_t> by(account_.wastes.size());
        for (std::size_t i = 0; i < by.size(); ++i) by[i] = i;
        std::stable_sort(by.begin(), by.end(), [&](std::size_t a, std::size_t b) {
            return account_.wastes[a].seconds > account_.wastes[b].seconds;
        });
        std::vector<TimeWaste> wastes;
        std::vector<std::size_t> operations;
        for (std::size_t i : by) {
            wastes.push_back(account_.wastes[i]);
            operations.push_back(operation_[i]);
        }
        account_.wastes = std::move(wastes);
        operation_ = std::move(operations);
    }

    void report() {
        const double cycle = m_.timeline.cycleTimeS;
        for (std::size_t i = 0; i < account_.wastes.size(); ++i) {
            const TimeWaste& waste = account_.wastes[i];
            if (waste.seconds < kWorthSayingS || waste.seconds < kWorthSayingShare * cycle) continue;
            note(waste, 100 * waste.seconds / cycle, account_.operations[operation_[i]].name);
        }
    }

    static std::string inWords(double way) { return fmt::format("{:.{}f} mm", way, way < 10 ? 1 : 0); }

    void note(const TimeWaste& waste, double percent, const std::string& operation) {
        Finding& finding = account_.findings.emplace_back();
        finding.severity = Severity::Note;
        finding.code = waste.kind == TimeWaste::Kind::AirCut ? "feed-in-air" : "long-retract";
        if (waste.block != kNoBlock) finding.span = {SourceSpan::File::Program, waste.block + 1, 0, 0};
        finding.message =
            waste.kind == TimeWaste::Kind::AirCut
                ? say("{}: the tool goes {} at feed where there is no metal, the {:g} mm of a lead-in not "
                      "counted; at rapid the cycle would be {:.1f} s ({:.1f} %) shorter.",
                      operation, inWords(waste.lengthMm), kLeadInMm, waste.seconds, percent)
                : say("{}: between its cuts the tool goes {} further out and back than {:g} mm clear of the "
                      "blank; staying near, the cycle would be {:.1f} s ({:.1f} %) shorter.",
                      operation, inWords(waste.lengthMm), kClearOfBlankMm, waste.seconds, percent);
        finding.remedy =
            waste.kind == TimeWaste::Kind::AirCut
                ? tr("Bring the tool nearer at rapid, if nothing stands there that this set-up does not know.")
                : tr("Retract less, if clamps, coolant pipes and the shape of the part let you.");
        finding.values = {{"saved_s", waste.seconds}, {"saved_percent", percent}, {"way_mm", waste.lengthMm}};
    }

    const Machining& m_;
    const LoadResult& loads_;
    TimeAccount& account_;
    std::vector<Found> found_;
    std::vector<std::size_t> operation_;  // of each waste
};

}  // namespace

void lookForWaste(const Machining& machining, const LoadResult& loads, TimeAccount& account) {
    Waste(machining, loads, account).run();
}

}  // namespace firstoff
