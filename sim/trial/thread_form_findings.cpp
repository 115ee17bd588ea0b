// Threads as they came out on the part: whether all passes run in one groove, and what a gauge says.
//
// Notation. P: lead of a pass, mm; a: where along z its groove crosses the sector 0, modulo P; t: its radial depth
// below the deepest pass, mm; beta: half the flank angle of the tool. A shallower pass lies inside the groove of the
// deepest as long as
//        |a - a_deepest| <= t tan(beta)        (distance round the circle of length P),
// so flank infeed and any zigzag are let pass, and a start at another angle or from another Z is not. Passes at the
// full depth with different a are several starts; they are sound if they stand evenly apart.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/inspection/metric_thread.h"
#include "sim/inspection/thread_gauge.h"
#include "sim/stock/thread_zone.h"
#include "sim/trial/machining_findings.h"

namespace firstoff {

namespace {

constexpr double kSameDepthMm = 0.002;  // radial; a pass repeated without infeed
constexpr double kSameGrooveMm = 0.02;  // what a control's whole steps of angle and Z leave
constexpr double kSameLeadMm = 1e-4;
constexpr double kFlankDeg = 0.5;       // 6g and 6H leave a full flank about so much, from memory
constexpr double kCrestMm = 0.05;       // a crest turned or bored so far beside its limits still goes by that size
constexpr double kTurnedMm = 0.02;      // crest missing, on diameter: more than a finish cut leaves
constexpr double kGaugeMm = 0.0005;     // what the simulated gauge itself may be off
constexpr double kNearPitchMm = 0.3;    // a pitch diameter so near a size's is meant for it
constexpr double kCorrectionMm = 0.35;  // on diameter; more than that is another mistake
constexpr std::size_t kMostGauged = 40;

struct Pass {
    std::size_t timed = 0;
    Point from, to;  // of the tip
    double lead = 0;
    double groove = 0;  // a
    int hand = 1;       // of the helix: direction of the spindle times that of the feed
    bool inside = false;
    const Tool* tool = nullptr;

    double nearZ() const { return std::max(from.z, to.z); }
    double farZ() const { return std::min(from.z, to.z); }
    // Greater is deeper.
    double depth() const { return inside ? std::abs(to.r) : -std::abs(to.r); }
    bool tapered() const { return std::abs(to.r - from.r) > tolerance::kTouchMm; }
};

// Passes over one stretch at one lead.
struct Thread {
    std::vector<Pass> passes;
    double nearZ = 0, farZ = 0;
    bool crossed = false;  // by passes of another lead
    const Pass& deepest() const {
        return *std::max_element(passes.begin(), passes.end(),
                                 [](const Pass& a, const Pass& b) { return a.depth() < b.depth(); });
    }
};

double roundTheCircle(double difference, double length) {
    return std::abs(difference - length * std::round(difference / length));
}

class Forms {
public:
    explicit Forms(const Machining& m) : m_(m), zone_(threadZone(m.timeline, m.toolpath, m.setup)) {}

    std::vector<Finding> find() {
        for (std::size_t i = 0; i < zone_.parts.size(); ++i) {
            if (zone_.parts[i] == ThreadPart::Thread && zone_.turnsOf[i] != kNotStamped) take(i);
        }
        for (Thread& thread : threads_) lookAcross(thread);
        for (const Thread& thread : threads_) {
            if (thread.crossed || intoMaterial(thread) || groovesMiss(thread) || startsUneven(thread)) continue;
            gauge(thread);
        }
        return std::move(findings_);
    }

private:
    const Move& moveOf(std::size_t i) const { return m_.toolpath.moves[m_.timeline.moves[i].move]; }

    // Sorts a pass into its thread. Pull-outs, face threads and taps are none.
    void take(std::size_t i) {
        const Move& move = moveOf(i);
        const int index = m_.toolpath.calls[move.call].toolIndex;
        if (index < 0 || m_.stock->cuts()[i].deepestMm <= tolerance::kTouchMm) return;
        Pass pass;
        pass.timed = i;
        pass.tool = &m_.setup.tools[static_cast<std::size_t>(index)];
        const TimedMove& timed = m_.timeline.moves[i];
        pass.from = timed.from + m_.toolpath.tipShift(move);
        pass.to = timed.to + m_.toolpath.tipShift(move);
        const Point way = pass.to - pass.from;
        const SpindleTurns& turns = zone_.turns[zone_.turnsOf[i]];
        if (pass.tool->kind == ToolKind::Tap || turns.lead.change != 0) return;
        if (std::abs(way.r) > 0.5 * std::abs(way.z) || std::abs(way.z) < turns.lead.lead) return;
        pass.lead = turns.lead.lead;
        pass.inside = cutsInside(*pass.tool);
        pass.hand = turns.direction * (way.z < 0 ? 1 : -1);
        const double n = -turns.from - std::floor(-turns.from);
        const double z = pass.from.z + (way.z < 0 ? -1 : 1) * pass.lead * n;
        pass.groove = z - pass.lead * std::floor(z / pass.lead);
        for (Thread& thread : threads_) {
            const Pass& first = thread.passes.front();
            if (first.inside != pass.inside || std::abs(first.lead - pass.lead) > kSameLeadMm) continue;
            if (pass.farZ() >= thread.nearZ || pass.nearZ() <= thread.farZ) continue;
            thread.nearZ = std::max(thread.nearZ, pass.nearZ());
            thread.farZ = std::min(thread.farZ, pass.farZ());
            thread.passes.push_back(pass);
            return;
        }
        threads_.push_back({{pass}, pass.nearZ(), pass.farZ(), false});
    }

    // Deeper than its flanks are apart: that was said by threadFindings(), and there is no thread to gauge.
    bool intoMaterial(const Thread& thread) const {
        return std::any_of(thread.passes.begin(), thread.passes.end(), [&](const Pass& pass) {
            return m_.stock->cuts()[pass.timed].deepestMm > pass.lead / (2 * std::tan(halfThreadAngle(*pass.tool)));
        });
    }

    Finding& add(const Pass& pass, Severity severity, const char* code) {
        Finding finding;
        finding.severity = severity;
        finding.code = code;
        const Move& move = moveOf(pass.timed);
        finding.span = m_.program.span(move.cycleBlock != kNoBlock ? move.cycleBlock : move.block);
        finding.timeS = m_.timeline.moves[pass.timed].t0;
        finding.place = pass.from;
        findings_.push_back(std::move(finding));
        return findings_.back();
    }

    // Passes of another lead over the same stretch, with metal there.
    void lookAcross(Thread& thread) {
        const Pass& here = thread.passes.front();
        for (Thread& other : threads_) {
            const Pass& there = other.passes.front();
            if (there.timed >= here.timed || there.inside != here.inside) continue;
            if (std::abs(there.lead - here.lead) <= kSameLeadMm) continue;
            const double nearZ = std::min(thread.nearZ, other.nearZ), farZ = std::max(thread.farZ, other.farZ);
            // Run-in in the air and the last turn at a relief may overlap.
            if (nearZ - farZ < 2 * std::max(here.lead, there.lead) || !metalBetween(farZ, nearZ, here)) continue;
            Finding& finding = add(here, Severity::Stop, "thread-cross-cut");
            finding.message =
                say("A pass of lead {:g} mm runs over a thread of lead {:g} mm: it cuts across its flanks.", here.lead,
                    there.lead);
            finding.remedy = tr("Give F the same value in every pass of the thread.");
            finding.values = {{"lead_mm", here.lead}, {"other_lead_mm", there.lead}};
            thread.crossed = other.crossed = true;
            return;
        }
    }

    bool metalBetween(double farZ, double nearZ, const Pass& pass) {
        const Billet& billet = billetAfter(pass.timed);
        return solidAt((farZ + nearZ) / 2, billet, pass);
    }

    const Billet& billetAfter(std::size_t timed) {
        if (!cursor_) cursor_.emplace(m_.stock);
        cursor_->seek(static_cast<std::uint32_t>(timed) + 1, 0);
        return cursor_->billet();
    }

    bool solidAt(double z, const Billet& billet, const Pass& pass) {
        std::vector<Interval> solids;
        billet.intervals(billet.grid().columnNear(z), solids);
        if (solids.empty()) return false;
        const double along = (z - pass.from.z) / (pass.to.z - pass.from.z);
        const double r = std::abs(pass.from.r + along * (pass.to.r - pass.from.r));
        return pass.inside ? solids.front().inner < r - tolerance::kTouchMm
                           : solids.back().outer > r + tolerance::kTouchMm;
    }

    std::vector<const Pass*> startsOf(const Thread& thread) const {
        const double depth = thread.deepest().depth();
        std::vector<const Pass*> starts;
        for (const Pass& pass : thread.passes) {
            if (depth - pass.depth() > kSameDepthMm) continue;
            const bool known = std::any_of(starts.begin(), starts.end(), [&](const Pass* start) {
                return roundTheCircle(start->groove - pass.groove, pass.lead) <= kSameGrooveMm;
            });
            if (!known) starts.push_back(&pass);
        }
        return starts;
    }

    // A pass that runs beside the grooves of the deepest ones.
    bool groovesMiss(const Thread& thread) {
        const std::vector<const Pass*> starts = startsOf(thread);
        const double depth = thread.deepest().depth();
        const BlockId cycle = moveOf(thread.deepest().timed).cycleBlock;
        for (const Pass& pass : thread.passes) {
            // The passes of one cycle start in step; how it shifts them is its infeed angle, which the control looks
            // at.
            if (cycle != kNoBlock && moveOf(pass.timed).cycleBlock == cycle && pass.hand == starts.front()->hand)
                continue;
            const double room = (depth - pass.depth()) * std::tan(halfThreadAngle(*pass.tool)) + kSameGrooveMm;
            double off = pass.lead;
            for (const Pass* start : starts) {
                if (start->hand != pass.hand) continue;
                off = std::min(off, roundTheCircle(start->groove - pass.groove, pass.lead));
            }
            if (off <= room) continue;
            const bool otherHand = pass.hand != starts.front()->hand;
            Finding& finding = add(pass, Severity::Stop, "thread-cross-cut");
            finding.message =
                otherHand
                    ? tr("This pass runs against the hand of the thread: spindle or feed go the other way than in its "
                         "other passes.")
                    : say("This pass runs {:.3f} mm beside the groove of the deepest one ({:.0f}° of the "
                          "spindle): another start Z, start angle or speed than the passes before.",
                          off, 360 * off / pass.lead);
            finding.remedy =
                otherHand ? tr("Cut all passes of a thread with one direction of spindle and feed.")
                          : tr("Start every pass at the same Z and the same Q, or change the start by whole leads.");
            finding.values = {{"beside_mm", off}, {"angle_deg", 360 * off / pass.lead}};
            return true;
        }
        return false;
    }

    bool startsUneven(const Thread& thread) {
        std::vector<const Pass*> starts = startsOf(thread);
        if (starts.size() < 2) return false;
        std::vector<double> places;
        for (const Pass* start : starts) places.push_back(start->groove);
        std::sort(places.begin(), places.end());
        const double lead = starts.front()->lead;
        const double even = lead / static_cast<double>(places.size());
        double worst = even;
        for (std::size_t i = 0; i < places.size(); ++i) {
            const double next = i + 1 < places.size() ? places[i + 1] : places.front() + lead;
            const double gap = next - places[i];
            if (std::abs(gap - even) > std::abs(worst - even)) worst = gap;
        }
        if (std::abs(worst - even) <= kSameGrooveMm) return false;
        Finding& finding = add(*starts.back(), Severity::Stop, "thread-starts-uneven");
        finding.message =
            say("Passes at full depth leave {} grooves in a lead of {:g} mm, {:.3f} mm apart where {:.3f} mm would be "
                "even: a thread picked up at the wrong angle, or start angles that do not share out the turn.",
                places.size(), lead, worst, even);
        finding.remedy =
            say("For one start give every pass the same start Z and Q; for {} starts, Q {:g} degrees apart.",
                places.size(), 360.0 / static_cast<double>(places.size()));
        finding.values = {{"gap_mm", worst}, {"even_mm", even}, {"grooves", static_cast<double>(places.size())}};
        return true;
    }

    // Where the thread has its full depth in metal, a lead away from both ends; nothing if that is too short.
    std::optional<std::pair<double, double>> fullSpan(const Pass& pass, const Billet& billet) {
        const double step = pass.lead / 16;
        double far = pass.farZ(), near = pass.nearZ();
        while (near > far && !solidAt(near, billet, pass)) near -= step;
        double z = near;
        while (z > far && solidAt(z, billet, pass)) z -= step;
        far = std::max(far, z);
        far += pass.lead;
        near -= pass.lead;
        if (near - far < 1.05 * pass.lead) return std::nullopt;
        return std::pair(far, near);
    }

    void gauge(const Thread& thread) {
        if (gauged_ >= kMostGauged) return;
        ++gauged_;
        const Pass& pass = thread.deepest();
        const Billet& billet = billetAfter(thread.passes.back().timed);
        std::optional<ThreadFigures> figures;
        const auto span = fullSpan(pass, billet);
        if (span && !pass.tapered()) {
            figures = gaugeThread(billet, 0, span->first, span->second, pass.lead, pass.inside);
        }
        if (!figures) return sayNotGauged(pass);
        if (crestGone(pass, *figures, billet, (span->first + span->second) / 2)) return;
        compare(pass, *figures);
    }

    void sayNotGauged(const Pass& pass) {
        Finding& finding = add(pass, Severity::Note, "thread-not-gauged");
        finding.message =
            pass.tapered() ? tr("A tapered thread: it is cut, but not gauged here.")
                           : tr("Less than a whole lead of this thread has its full depth in metal: not gauged here.");
        finding.remedy = tr("Gauge the thread of the first part.");
    }

    // A profile that takes the crest to size is meant to take it down, by no more than it has to spare.
    bool crestGone(const Pass& pass, const ThreadFigures& figures, const Billet& billet, double z) {
        std::vector<Interval> solids;
        billet.intervals(billet.grid().columnNear(z), solids);
        const double smooth = 2 * (pass.inside ? solids.front().inner : solids.back().outer);
        const double crest = pass.inside ? figures.minorMm : figures.majorMm;
        const double gone = std::abs(smooth - crest);
        const bool pointed = figures.crestFlatMm < pass.lead / 100;
        if (gone <= kTurnedMm || !pointed) return false;
        Finding& finding = add(pass, Severity::Warning, "thread-crest-gone");
        finding.message =
            pass.inside
                ? say("The crests of this thread come to a point at {:.3f} mm, {:.3f} mm on diameter short of the bore "
                      "of {:.3f}: it is cut too deep for its lead of {:g} mm, or two grooves share a turn.",
                      crest, gone, smooth, pass.lead)
                : say("The crests of this thread come to a point at {:.3f} mm, {:.3f} mm on diameter short of the "
                      "diameter of {:.3f}: it is cut too deep for its lead of {:g} mm, or two grooves share a turn.",
                      crest, gone, smooth, pass.lead);
        finding.remedy = tr("Check X of the last pass, the depth and F.");
        finding.values = {{"crest_mm", crest}, {"smooth_mm", smooth}};
        return true;
    }

    void compare(const Pass& pass, const ThreadFigures& figures) {
        const double pitch = pass.lead / std::max(1.0, std::round(figures.grooves));
        const bool metricProfile = std::abs(degrees(halfThreadAngle(*pass.tool)) - 30) < kFlankDeg;
        std::optional<MetricThread> size;
        if (metricProfile) {
            size = pass.inside ? metricNut(figures.minorMm, pitch, kCrestMm)
                               : metricBolt(figures.majorMm, pitch, kCrestMm);
        }
        if (metricProfile && !size) {
            const auto likely = metricByPitchDiameter(figures.pitchMm, pitch, kNearPitchMm);
            if (likely) return sayCrestOff(pass, figures, *likely);
        }
        if (size && (offSize(pass, figures, *size) || flanksOff(pass, figures))) return;
        Finding& finding = add(pass, Severity::Note, "thread-gauged");
        finding.message = spoken(pass, figures) + (size ? within(pass, *size)
                                                        : tr(" No metric size goes with that; compare it with "
                                                             "the drawing."));
        finding.remedy = tr("Gauge the thread of the first part all the same.");
        finding.values = valuesOf(figures);
    }

    static std::string spoken(const Pass& pass, const ThreadFigures& f) {
        const long starts = std::max(1L, std::lround(f.grooves));
        return say(
            "Gauged on the simulated part: {}{}, major diameter {:.3f}, pitch diameter {:.3f}, minor diameter {:.3f}, "
            "lead {:.3f}, flanks {:.1f}° and {:.1f}°.",
            pass.hand > 0 ? tr("right hand") : tr("LEFT HAND"), starts > 1 ? say(", {} starts", starts) : std::string(),
            f.majorMm, f.pitchMm, f.minorMm, f.leadMm, degrees(f.flankFront), degrees(f.flankBack));
    }

    static std::vector<std::pair<std::string, double>> valuesOf(const ThreadFigures& f) {
        return {{"major_mm", f.majorMm},
                {"pitch_mm", f.pitchMm},
                {"minor_mm", f.minorMm},
                {"depth_mm", f.depthMm},
                {"lead_mm", f.leadMm}};
    }

    static ThreadLimits pitchLimits(const Pass& pass, const MetricThread& size) {
        return pass.inside ? nutPitch6H(size) : boltPitch6g(size);
    }

    static std::string within(const Pass& pass, const MetricThread& size) {
        const ThreadLimits limits = pitchLimits(pass, size);
        return say(" For M{:g}x{:g} {} the pitch diameter is {:.3f} to {:.3f} (ISO 965-1, reckoned).", size.nominalMm,
                   size.pitchMm, pass.inside ? "6H" : "6g", limits.least, limits.most);
    }

    bool offSize(const Pass& pass, const ThreadFigures& figures, const MetricThread& size) {
        const ThreadLimits limits = pitchLimits(pass, size);
        const double low = limits.least - figures.pitchMm, high = figures.pitchMm - limits.most;
        if (low <= kGaugeMm && high <= kGaugeMm) return false;
        Finding& finding = add(pass, Severity::Warning, "thread-off-size");
        const double middle = (limits.least + limits.most) / 2;
        finding.message = spoken(pass, figures) + within(pass, size) +
                          (high > 0 ? say(" It is {:.3f} mm too large.", std::max(low, high))
                                    : say(" It is {:.3f} mm too small.", std::max(low, high)));
        finding.remedy =
            std::abs(middle - figures.pitchMm) > kCorrectionMm
                ? std::string(
                      tr("Check F, the starts, the depth and the insert's profile first: it is more than an offset "
                         "corrects."))
                : say("Put {:+.3f} mm on X (diameter) of the last pass, or as wear of its offset, to bring it to the "
                      "middle; if another size is wanted, compare it with the drawing.",
                      middle - figures.pitchMm);
        finding.values = valuesOf(figures);
        finding.values.emplace_back("pitch_least_mm", limits.least);
        finding.values.emplace_back("pitch_most_mm", limits.most);
        return true;
    }

    // Lead and pitch diameter are a size's, the crest is not: it was not turned (bored) to size first.
    void sayCrestOff(const Pass& pass, const ThreadFigures& figures, const MetricThread& size) {
        const ThreadLimits crest = pass.inside ? nutMinor6H(size) : boltMajor6g(size);
        const double is = pass.inside ? figures.minorMm : figures.majorMm;
        Finding& finding = add(pass, Severity::Warning, "thread-off-size");
        finding.message = spoken(pass, figures) +
                          (pass.inside ? say(" Lead and pitch diameter go with M{:g}x{:g}, but its minor diameter "
                                             "should be {:.3f} to {:.3f}:",
                                             size.nominalMm, size.pitchMm, crest.least, crest.most)
                                       : say(" Lead and pitch diameter go with M{:g}x{:g}, but its major diameter "
                                             "should be {:.3f} to {:.3f}:",
                                             size.nominalMm, size.pitchMm, crest.least, crest.most)) +
                          (is < crest.least ? say(" it is {:.3f} mm too small.", crest.least - is)
                                            : say(" it is {:.3f} mm too large.", is - crest.most));
        finding.remedy = pass.inside
                             ? tr("Bore the hole to size before the thread, or compare it with the drawing.")
                             : tr("Turn the diameter to size before the thread, or compare it with the drawing.");
        finding.values = valuesOf(figures);
    }

    bool flanksOff(const Pass& pass, const ThreadFigures& figures) {
        const double front = degrees(figures.flankFront), back = degrees(figures.flankBack);
        if (std::abs(front - 30) <= kFlankDeg && std::abs(back - 30) <= kFlankDeg) return false;
        Finding& finding = add(pass, Severity::Warning, "thread-flanks-off");
        finding.message =
            spoken(pass, figures) + tr(" Both should be 30°: the insert's profile or how it is set is wrong.");
        finding.remedy = tr("Set the insert square to the axis, and check its angle.");
        finding.values = {{"flank_front_deg", front}, {"flank_back_deg", back}};
        return true;
    }

    const Machining& m_;
    ThreadZone zone_;
    std::vector<Thread> threads_;
    std::optional<StockCursor> cursor_;
    std::size_t gauged_ = 0;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> threadFormFindings(const Machining& machining) {
    if (machining.toolpath.extras.empty()) return {};
    return Forms(machining).find();
}

}  // namespace firstoff
