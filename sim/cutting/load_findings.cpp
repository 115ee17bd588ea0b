#include "sim/cutting/load_findings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/cutting/chip_force.h"
#include "sim/cutting/cut_finding.h"
#include "sim/cutting/load_sampling.h"
#include "sim/cutting/spindle_limits.h"
#include "sim/setup/material_table.h"

namespace firstoff {

namespace {

enum class Limit : std::uint8_t { Torque, Power, Force, Feed, Depth };

// The worst that one tool call asks of one limit.
struct Excess {
    double asked = 0, stands = 0;
    double revPerMin = 0;
    std::uint32_t sample = 0, timedMove = 0;
    std::set<BlockId> blocks;  // that pass the limit

    double share() const { return stands > 0 ? asked / stands : 0; }
};

class Telling {
public:
    Telling(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, LoadResult& loads)
        : timeline_(timeline), toolpath_(toolpath), setup_(setup), loads_(loads) {}

    void run() {
        for (const LoadRun& run : loads_.runs) compare(run);
        for (const auto& [key, excess] : worst_) tell(key.first, key.second, excess);
        if (loads_.runs.empty()) return;
        tellMaterial();
        if (loads_.forcesKnown) tellSpindle();
        tellAssumed();
    }

private:
    const Tool& toolOf(const TimedMove& timed) const {
        const int index = toolpath_.calls[toolpath_.moves[timed.move].call].toolIndex;
        return setup_.tools[static_cast<std::size_t>(index)];
    }

    void compare(const LoadRun& run) {
        const TimedMove& timed = timeline_.moves[run.timedMove];
        const Tool& tool = toolOf(timed);
        const SpindleDrive& drive = setup_.machine.spindle;
        const auto motor = powerAtChuckKw(drive);
        const bool spindleKnown = loads_.forcesKnown && (motor || !drive.curve.empty());
        for (std::uint32_t i = run.first; i < run.first + run.count; ++i) {
            const LoadSample& s = loads_.samples[i];
            if (s.chipAreaMm2 <= 0) continue;
            if (spindleKnown) {
                const double rpm = revPerMinAt(timed, toolpath_, setup_, double{s.fraction});
                const auto torque = torqueAvailableNm(drive, rpm);
                if (torque) take(Limit::Torque, double{s.torqueNm}, *torque, rpm, i, run.timedMove);
                if (motor) take(Limit::Power, double{s.powerKw}, *motor, rpm, i, run.timedMove);
            }
            if (loads_.forcesKnown) take(Limit::Force, double{s.cuttingMostN}, tool.maxForceN, 0, i, run.timedMove);
            if (run.mean) continue;
            take(Limit::Feed, feedMmPerRev(s), tool.maxFeed, 0, i, run.timedMove);
            take(Limit::Depth, double{s.depthMm}, tool.maxDepth, 0, i, run.timedMove);
        }
    }

    // A limit of 0 is not known. What rounding makes of a figure is no excess.
    void take(Limit limit, double asked, double stands, double rpm, std::uint32_t sample, std::uint32_t timedMove) {
        constexpr double kRounding = 1e-4;
        if (stands <= 0 || asked <= stands * (1 + kRounding)) return;
        const Move& move = toolpath_.moves[timeline_.moves[timedMove].move];
        Excess& excess = worst_[{move.call, limit}];
        excess.blocks.insert(move.block);
        if (asked / stands <= excess.share()) return;
        excess.asked = asked;
        excess.stands = stands;
        excess.revPerMin = rpm;
        excess.sample = sample;
        excess.timedMove = timedMove;
    }

    void tell(std::uint16_t call, Limit limit, const Excess& e) {
        const LoadSample& s = loads_.samples[e.sample];
        const ToolCall& tool = toolpath_.calls[call];
        Finding f = cutFinding(timeline_, toolpath_, setup_, e.timedMove, double{s.fraction}, Severity::Warning, "");
        f.place = Point{double{s.atZ}, double{s.atR}};  // the middle of what is engaged
        const std::string who = toolWord(tool);
        const std::string more =
            e.blocks.size() > 1 ? say(" {} blocks of this tool pass the limit.", e.blocks.size()) : "";
        describe(f, limit, e, who, s);
        f.message += more;
        loads_.findings.push_back(std::move(f));
    }

    void describe(Finding& f, Limit limit, const Excess& e, const std::string& who, const LoadSample& s) const {
        switch (limit) {
            case Limit::Torque:
                f.code = "spindle-torque-exceeded";
                f.values = {{"torque_nm", e.asked}, {"available_nm", e.stands}, {"rev_per_min", e.revPerMin}};
                f.message =
                    s.torqueMostNm > s.torqueNm * 1.0001F
                        ? say("{} asks for {:.1f} N m in the mean of a turn; the spindle gives {:.1f} N m at {:.0f} "
                              "rev/min, so it slows down or stalls in the cut.",
                              who, e.asked, e.stands, e.revPerMin)
                        : say("{} asks for {:.1f} N m; the spindle gives {:.1f} N m at {:.0f} rev/min, so it slows "
                              "down "
                              "or stalls in the cut.",
                              who, e.asked, e.stands, e.revPerMin);
                f.remedy = tr("Take a smaller depth of cut or feed, or another gear or speed.");
                break;
            case Limit::Power: {
                const SpindleDrive& drive = setup_.machine.spindle;
                f.code = "spindle-power-exceeded";
                f.values = {{"power_kw", e.asked}, {"available_kw", e.stands}, {"removal_mm3_per_s", s.removalMm3PerS}};
                f.message = drive.efficiency > 0
                                ? say("{} asks for {:.2f} kW at the cut; the motor of {:g} kW gives {:.2f} kW there.",
                                      who, e.asked, drive.powerKw, e.stands)
                                : say("{} asks for {:.2f} kW at the cut; the motor of {:g} kW gives {:.2f} kW there at "
                                      "most (its "
                                      "efficiency is not known).",
                                      who, e.asked, drive.powerKw, e.stands);
                f.remedy = tr("Take a smaller depth of cut or feed, or less surface speed.");
                break;
            }
            case Limit::Force:
                f.code = "cutting-force-above-limit";
                f.values = {{"force_n", e.asked}, {"limit_n", e.stands}};
                f.message =
                    say("{} cuts with {:.0f} N; max_cutting_force_n of the tool is {:g} N.", who, e.asked, e.stands);
                f.remedy = tr("Take a smaller depth of cut or feed, or a stronger insert and holder.");
                break;
            case Limit::Feed:
                f.code = "feed-above-edge-limit";
                f.values = {{"feed_mm_per_rev", e.asked}, {"limit_mm_per_rev", e.stands}};
                f.message = say("{} is fed at {:.3f} mm/rev in metal; max_feed_mm_per_rev of the tool is {:g}.", who,
                                e.asked, e.stands);
                f.remedy = tr("Feed more slowly, or take an edge that is made for this feed.");
                break;
            case Limit::Depth:
                f.code = "depth-above-edge-limit";
                f.values = {{"depth_mm", e.asked}, {"limit_mm", e.stands}};
                f.message = say("{} stands {:.3f} mm deep in the cut; max_depth_mm of the tool is {:g}.", who, e.asked,
                                e.stands);
                f.remedy = tr("Share the metal out among more passes, or take an insert with a longer edge.");
                break;
        }
    }

    void note(std::string code, SourceSpan span, std::string message, std::string remedy) {
        Finding f;
        f.code = std::move(code);
        span.file = SourceSpan::File::Setup;
        f.span = span;
        f.message = std::move(message);
        f.remedy = std::move(remedy);
        loads_.findings.push_back(std::move(f));
    }

    void tellMaterial() {
        const Material& m = setup_.material;
        if (m.cuts()) return;
        if (m.name.empty()) {
            loads_.notReckoned.emplace_back(
                tr("Forces, torque and power: the set-up does not say what the bar is made of ([stock] material)."));
            return;
        }
        const MaterialRow* row = findMaterial(m.name);
        const std::string why = row && row->lacksExponent
                                    ? say("of {} only kc1.1 is printed, without the exponent mc", m.name)
                                    : say("the table of materials has nothing under \"{}\"", m.name);
        loads_.notReckoned.push_back(say("Forces, torque and power: {}.", why));
        note("material-without-data", m.span, say("No cutting forces are told: {}.", why),
             tr("Write a name that `firstoff materials` lists, or add a table [material] with kc11_n_per_mm2, mc and "
                "their source."));
    }

    void tellSpindle() {
        const SpindleDrive& drive = setup_.machine.spindle;
        if (!drive.curve.empty() && drive.powerKw > 0) return tellCurve(drive);
        const bool none = drive.curve.empty() && drive.powerKw <= 0;
        const std::string missing = none                  ? tr("neither torque nor power of the spindle is known")
                                    : drive.curve.empty() ? tr("the torque of the spindle over its speed is not known")
                                                          : tr("the power of the motor is not known");
        const char* compared = none ? tr("What the cuts ask for is told, but not compared")
                               : drive.curve.empty()
                                   ? tr("The power that the cuts ask for is compared, their torque is not")
                                   : tr("What the cuts ask for is compared with the torque curve alone");
        const char* add = none                  ? tr("power_kw, efficiency, curve_rev_per_min and curve_torque_nm")
                          : drive.curve.empty() ? tr("curve_rev_per_min and curve_torque_nm")
                                                : tr("power_kw and efficiency");
        note("spindle-without-curve", drive.span, fmt::format("{}: {}.", compared, missing),
             say("Add to [spindle] {} from the machine's manual.", add));
    }

    // A curve that asks more of the motor than it has: one of the two is for another duty, or wrong.
    void tellCurve(const SpindleDrive& drive) {
        constexpr double kRounded = 1.02;  // figures of manuals are rounded to two or three digits
        const double curve = powerOfCurveKw(drive);
        if (curve <= kRounded * drive.powerKw) return;
        note("spindle-curve-above-power", drive.span,
             say("The torque curve of the spindle makes {:.1f} kW at its best speed, and power_kw is {:g} kW. "
                 "Cuts are held against both, so that the lower counts.",
                 curve, drive.powerKw),
             tr("Take curve and power from the machine's manual for the same duty, best the continuous one."));
        loads_.findings.back().values = {{"curve_kw", curve}, {"power_kw", drive.powerKw}};
    }

    void assume(std::string sentence) { loads_.assumed.push_back(std::move(sentence)); }

    void tellAssumed() {
        if (loads_.forcesKnown) assumeForces();
        bool mean = false, notRound = false, onAxis = false;
        for (const LoadRun& run : loads_.runs) {
            mean = mean || run.mean;
            onAxis = onAxis || worksOnTheAxis(toolOf(timeline_.moves[run.timedMove]).kind);
            for (std::uint32_t i = run.first; i < run.first + run.count && !notRound; ++i) {
                const LoadSample& s = loads_.samples[i];
                notRound = s.cuttingMostN > s.cuttingN * 1.0001F;
            }
        }
        if (mean) {
            assume(tr(
                "Passes of a thread and tapped holes have one mean figure each, of the metal that they take over both "
                "flanks; friction of the flanks is not in it."));
        }
        if (notRound) {
            assume(tr(
                "Where the bar is not round, the greatest force and torque of a tool are those where the bar reaches "
                "furthest out; power, chip and removal are means over a turn, and the spindle is held to the mean."));
        }
        if (!loads_.forcesKnown) return;
        if (onAxis) {
            assume(tr(
                "Of drills the two lips are reckoned and not the chisel edge between them, so a drill that goes into "
                "the full pushes harder along the axis than is told; margins and lands rub as well."));
        }
        tellEdges();
    }

    void assumeForces() {
        const Material& m = setup_.material;
        assume(say("Cutting force by Kienzle's law with kc1.1 = {:g} N/mm² and mc = {:g} for {} ({}).", m.kc11, m.mc,
                   m.name.empty() ? tr("the bar") : m.name, m.source));
        assume(
            tr("Forces are those of sharp edges at the usual speeds of carbide; a worn edge asks for more. Rake is in "
               "them only for tools that say rake_angle_deg: one in a hundred for a degree, from memory."));
        assume(say(
            "Feed and passive force are taken together as {:.2f} of the cutting force, square to the engaged edge: a "
            "rule (0.50 and 0.25) that its own author calls inaccurate. In the trade a passive force of up to half the "
            "cutting force is usual where the edge stands square.",
            sidewaysShare()));
        tellLeastPassive();
    }

    // Where the rule square to the edge would leave next to nothing across the travel.
    void tellLeastPassive() {
        std::set<std::string> told;
        std::string tools;
        for (const ToolLoad& load : loads_.tools) {
            const std::string word = toolWord(toolpath_.calls[load.call]);
            if (!load.leastPassive || !told.insert(word).second) continue;
            tools += (tools.empty() ? "" : ", ") + word;
        }
        if (tools.empty()) return;
        assume(say(
            "Of {} the edge stands so near to square, or leans beyond it, that by this rule it would hardly push the "
            "part away, or pull it in: there the passive force is {:.2f} of the cutting force, away from the tool.",
            tools, kPassiveForceShare));
    }

    // Numbers of edges that the set-up leaves to the kind of tool.
    void tellEdges() {
        std::set<std::pair<int, ToolKind>> taken;
        for (const ToolLoad& load : loads_.tools) {
            const Tool& tool = setup_.tools[static_cast<std::size_t>(load.toolIndex)];
            const bool several = tool.kind == ToolKind::Reamer || tool.kind == ToolKind::Tap;
            if (!several || tool.edges > 0 || !taken.insert({tool.station, tool.kind}).second) continue;
            assume(say("T{:02d} ({}) is taken to have {} edges; the set-up does not say `edges`.", tool.station,
                       tool.name, edgesOf(tool)));
        }
    }

    const Timeline& timeline_;
    const Toolpath& toolpath_;
    const Setup& setup_;
    LoadResult& loads_;
    std::map<std::pair<std::uint16_t, Limit>, Excess> worst_;
};

}  // namespace

void tellLoads(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, LoadResult& loads) {
    Telling(timeline, toolpath, setup, loads).run();
}

}  // namespace firstoff
