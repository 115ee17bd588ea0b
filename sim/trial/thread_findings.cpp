// Threads: those that cannot be cut into the billet, how deep the tool stands in metal where no thread can be that
// deep, and how much way the slide has to catch up with the spindle.
//
// Notation. L: lead, mm; n: rev/min. A slide that starts behind a turning spindle lags and catches up; the lead is
// wrong on the way there. From memory, common practice of threading with a servo of usual stiffness:
//     delta2 = L n / 1800          what the slide lags behind, and what it runs on at the end
//     delta1 = 3.6 delta2          until the lead is right to 1 %
// Controls and slides differ, so only the first turns of a thread that starts within delta2 are called spoilt.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/control/thread_lead.h"
#include "sim/inspection/metric_thread.h"
#include "sim/stock/thread_zone.h"
#include "sim/trial/machining_findings.h"

namespace firstoff {

namespace {

constexpr double kLagPerSpeed = 1.0 / 1800;  // min
constexpr double kLagsToOnePercent = 3.6;
// Metal above the crest that a cycle reckons from: what a finish cut with a worn offset leaves.
constexpr double kCrestMm = 0.05;
constexpr double kTapThreadDepth = 0.61343;  // of the pitch, h3 of ISO 724
constexpr int kLooks = 400;                  // places along a pass at which the billet is looked at
constexpr int kMostLookedAt = 50;            // passes of different threads; each takes a seek

bool alongZ(const TimedMove& timed) {
    return std::abs(timed.to.z - timed.from.z) >= std::abs(timed.to.r - timed.from.r);
}

class Threads {
public:
    explicit Threads(const Machining& m) : m_(m), zone_(threadZone(m.timeline, m.toolpath, m.setup)) {}

    std::vector<Finding> find() {
        for (std::size_t i = 0; i < zone_.parts.size(); ++i) {
            if (isThread(i)) look(i);
        }
        sayWhatMetNothing();
        return std::move(findings_);
    }

private:
    const Move& moveOf(std::size_t i) const { return m_.toolpath.moves[m_.timeline.moves[i].move]; }
    const MoveExtra& extraOf(std::size_t i) const { return m_.toolpath.extras[moveOf(i).extra]; }
    const Tool* toolOf(std::size_t i) const {
        const int index = m_.toolpath.calls[moveOf(i).call].toolIndex;
        return index < 0 ? nullptr : &m_.setup.tools[static_cast<std::size_t>(index)];
    }
    BlockId ownBlock(std::size_t i) const {
        return moveOf(i).cycleBlock != kNoBlock ? moveOf(i).cycleBlock : moveOf(i).block;
    }
    bool isThread(std::size_t i) const {
        return zone_.parts[i] == ThreadPart::Thread || zone_.parts[i] == ThreadPart::Return;
    }
    bool chained(std::size_t i) const { return i > 0 && isThread(i - 1); }

    Finding& add(std::size_t i, Severity severity, const char* code) {
        Finding finding;
        finding.severity = severity;
        finding.code = code;
        finding.span = m_.program.span(ownBlock(i));
        finding.timeS = m_.timeline.moves[i].t0;
        finding.place = m_.timeline.moves[i].from + m_.toolpath.tipShift(moveOf(i));
        findings_.push_back(std::move(finding));
        return findings_.back();
    }

    std::string spoken(std::size_t i, Point lathe) const {
        const Point work = lathe - m_.toolpath.datumOf(moveOf(i));
        return fmt::format("X{:.3f} Z{:.3f}", 2 * work.r, work.z);
    }

    std::string toolWord(std::size_t i) const {
        const ToolCall& call = m_.toolpath.calls[moveOf(i).call];
        return firstoff::toolWord(call);
    }

    void look(std::size_t i) {
        if (moveOf(i).extra >= m_.toolpath.extras.size()) return;
        if (toolOf(i) == nullptr) return;
        const bool stamped = zone_.turnsOf[i] != kNotStamped || zone_.parts[i] == ThreadPart::Return;
        if (!stamped && notCutSaid_.insert(moveOf(i).call).second) sayNotCut(i);
        checkDepth(i);
        if (!chained(i)) checkRunIn(i);
    }

    void sayNotCut(std::size_t i) {
        Finding& finding = add(i, Severity::Warning, "thread-not-cut");
        finding.unproven = true;
        finding.message = say(
            "The thread of tool {} is timed and checked for clearance, but its form cannot be cut into the billet: the "
            "spindle stands still, or turns far too often on the way.",
            toolWord(i));
        finding.remedy = tr("Start the spindle and check F, or gauge the thread of the first part.");
    }

    // Only along Z: how deep a face thread goes is not seen in a radial column.
    void checkDepth(std::size_t i) {
        const float deepest = m_.stock->cuts()[i].deepestMm;
        Met& met = met_.try_emplace(moveOf(i).call, Met{i, 0}).first->second;
        met.deepest = std::max(met.deepest, deepest);
        if (!alongZ(m_.timeline.moves[i]) || depthSaid_.contains({moveOf(i).call, ownBlock(i)})) return;
        if (toolOf(i)->kind == ToolKind::Tap ? tapTooDeep(i) : tooDeep(i) || deeperThanMeant(i)) {
            depthSaid_.insert({moveOf(i).call, ownBlock(i)});
        }
    }

    // A thread is no deeper than its flanks are apart: beyond that the crest is gone, or a shoulder stands in the way.
    bool tooDeep(std::size_t i) {
        const TimedMove& timed = m_.timeline.moves[i];
        const MoveExtra& extra = extraOf(i);
        const LeadLaw law{extra.lead, extra.leadChange};
        const double lead = std::max(law.lead, law.leadAt(std::abs(timed.to.z - timed.from.z)));
        const double most = lead / (2 * std::tan(halfThreadAngle(*toolOf(i))));
        const Cut& cut = m_.stock->cuts()[i];
        if (cut.deepestMm <= most) return false;
        Finding& finding = add(i, Severity::Stop, "thread-into-material");
        finding.place = Point{cut.atZ, finding.place->r};
        finding.message =
            say("On a pass of a thread of lead {:g} mm tool {} stands {:.3f} mm deep in metal near {}; flanks that far "
                "apart meet at {:.3f} mm. A shoulder stands in the way, or the diameter was not turned down.",
                lead, toolWord(i), cut.deepestMm, spoken(i, *finding.place), most);
        finding.remedy = tr("End the thread in front of the shoulder, and check X and F of the pass.");
        finding.values = {{"depth_mm", cut.deepestMm}, {"most_mm", most}};
        return true;
    }

    // The cycle reckons from its crest; metal above it is cut as well.
    bool deeperThanMeant(std::size_t i) {
        const double meant = extraOf(i).threadDepth;
        const Cut& cut = m_.stock->cuts()[i];
        if (meant <= 0 || cut.deepestMm <= meant + kCrestMm) return false;
        Finding& finding = add(i, Severity::Warning, "thread-deeper-than-meant");
        finding.place = Point{cut.atZ, finding.place->r};
        finding.message = say(
            "Pass {} is meant {:.3f} mm deep, but tool {} stands {:.3f} mm deep in metal near {}: the diameter there "
            "is {:.3f} mm off, or a shoulder stands in the way.",
            moveOf(i).pass, meant, toolWord(i), cut.deepestMm, spoken(i, *finding.place), 2 * (cut.deepestMm - meant));
        finding.remedy =
            tr("Turn (bore) the crest of the thread to size first, or correct X and the depth of the cycle.");
        finding.values = {{"depth_mm", cut.deepestMm}, {"meant_mm", meant}};
        return true;
    }

    // Deeper than the core of the tap: no hole, one too small, or one that ends before the tap does.
    bool tapTooDeep(std::size_t i) {
        const Tool& tap = *toolOf(i);
        const double pitch = tap.pitch > 0 ? tap.pitch : extraOf(i).lead;
        const Cut& cut = m_.stock->cuts()[i];
        if (cut.deepestMm <= kTapThreadDepth * pitch + kCrestMm) return holeTooLarge(i, tap, pitch);
        Finding& finding = add(i, Severity::Stop, "tap-into-material");
        finding.place = Point{cut.atZ, 0};
        finding.message =
            say("Tap {} stands {:.3f} mm deep in metal near {}, its thread is {:.3f} mm deep: there is no hole, or it "
                "is too small or too short.",
                toolWord(i), cut.deepestMm, spoken(i, *finding.place), kTapThreadDepth * pitch);
        finding.remedy =
            say("Drill to about {:g} mm (diameter less pitch), and deeper than the tap goes.", tap.diameter - pitch);
        finding.values = {{"depth_mm", cut.deepestMm}, {"thread_depth_mm", kTapThreadDepth * pitch}};
        return true;
    }

    // The hole as it was before the tap, where that is deepest in metal.
    bool holeTooLarge(std::size_t i, const Tool& tap, double pitch) {
        const ThreadLimits minor = nutMinor6H(metricThread(tap.diameter, pitch));
        const TimedMove& timed = m_.timeline.moves[i];
        if (timed.to.z > timed.from.z || m_.stock->cuts()[i].deepestMm <= tolerance::kTouchMm) return false;
        if (!cursor_) cursor_.emplace(m_.stock);
        cursor_->seek(static_cast<std::uint32_t>(i), 0);
        const double hole = 2 * cursor_->outermostAt(m_.stock->cuts()[i].atZ).inner;
        if (hole <= minor.most + kCrestMm) return false;
        Finding& finding = add(i, Severity::Warning, "tap-hole-too-large");
        const double full = 100 * (tap.diameter - hole) / (tap.diameter - minor.least);
        finding.message =
            say("The hole for tap {} measures {:.3f}; for M{:g}x{:g} 6H it should be {:.3f} to {:.3f}: only {:.0f} % "
                "of the thread is left (ISO 965-1, reckoned).",
                toolWord(i), hole, tap.diameter, pitch, minor.least, minor.most, full);
        finding.remedy = say("Drill to about {:g} mm (diameter less pitch).", tap.diameter - pitch);
        finding.values = {{"hole_mm", hole}, {"most_mm", minor.most}};
        return true;
    }

    void sayWhatMetNothing() {
        for (const auto& [call, met] : met_) {
            if (met.deepest > tolerance::kTouchMm) continue;
            Finding& finding = add(met.first, Severity::Warning, "thread-meets-no-metal");
            finding.message = say("No pass of the threads of tool {} meets metal.", toolWord(met.first));
            finding.remedy = tr("Check X and Z of the passes, the tool's offset and what was turned before.");
        }
    }

    // Way from the start of the pass to the first metal, along the longer axis; nothing where it meets none.
    std::optional<double> runIn(std::size_t i) {
        const TimedMove& timed = m_.timeline.moves[i];
        const Point tip = m_.toolpath.tipShift(moveOf(i));
        if (!cursor_) cursor_.emplace(m_.stock);
        cursor_->seek(static_cast<std::uint32_t>(i), 0);
        const Point way = timed.to - timed.from;
        const double length = std::max(std::abs(way.z), std::abs(way.r));
        for (int look = 0; look <= kLooks; ++look) {
            const double share = static_cast<double>(look) / kLooks;
            const Point at = timed.from + tip + share * way;
            const Interval metal = cursor_->outermostAt(at.z);
            const double r = std::abs(at.r);
            if (r > metal.inner - tolerance::kTouchMm && r < metal.outer - tolerance::kTouchMm) return share * length;
        }
        return std::nullopt;
    }

    void checkRunIn(std::size_t i) {
        const TimedMove& timed = m_.timeline.moves[i];
        // The passes of a cycle start side by side; written out, at the same Z.
        const double place =
            moveOf(i).cycleBlock != kNoBlock ? 0.5 + moveOf(i).cycleBlock : std::round(100 * timed.from.z);
        const std::pair<std::uint32_t, double> start{moveOf(i).call, place};
        if (timed.rpmStart <= 0 || runIns_.size() >= kMostLookedAt || !runIns_.insert(start).second) return;
        if (m_.stock->cuts()[i].deepestMm <= tolerance::kTouchMm) return;
        const double lag = extraOf(i).lead * timed.rpmStart * kLagPerSpeed;
        const auto has = runIn(i);
        if (!has || *has >= kLagsToOnePercent * lag) return;
        const bool spoilt = *has < lag;
        Finding& finding = add(i, spoilt ? Severity::Warning : Severity::Note, "thread-short-run-in");
        finding.message =
            say("The thread starts {:.2f} mm before the metal. At a lead of {:g} mm and {:.0f} rev/min the slide lags "
                "about {:.2f} mm and takes about {:.2f} mm until the lead is right to 1 % (usual practice, machines "
                "differ).",
                *has, extraOf(i).lead, timed.rpmStart, lag, kLagsToOnePercent * lag);
        finding.remedy = tr("Start further in front of the thread, or turn slower.");
        finding.values = {{"run_in_mm", *has}, {"lag_mm", lag}, {"needed_mm", kLagsToOnePercent * lag}};
    }

    struct Met {
        std::size_t first = 0;  // timed move
        float deepest = 0;
    };

    const Machining& m_;
    ThreadZone zone_;
    std::map<std::uint32_t, Met> met_;  // by tool call
    std::optional<StockCursor> cursor_;
    std::set<std::uint32_t> notCutSaid_;                     // tool calls
    std::set<std::pair<std::uint32_t, BlockId>> depthSaid_;  // tool call, block
    std::set<std::pair<std::uint32_t, double>> runIns_;      // tool call, start in hundredths of a mm or cycle
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> threadFindings(const Machining& machining) {
    if (machining.toolpath.extras.empty()) return {};
    return Threads(machining).find();
}

}  // namespace firstoff
