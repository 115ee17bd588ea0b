#include "sim/trial/trial.h"

#include <algorithm>
#include <iterator>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/stock/worker_team.h"
#include "sim/trial/machining_findings.h"
#include "sim/trial/previous_blank.h"

namespace firstoff {

namespace {

void take(std::vector<Finding>& all, const std::vector<Finding>& some) {
    all.insert(all.end(), some.begin(), some.end());
}

// Findings about the set-up first, then by line and column, then by time; a stable sort keeps the order of the stages.
void sortForReading(std::vector<Finding>& findings) {
    std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
        const auto key = [](const Finding& f) {
            return std::tuple(f.span.file == SourceSpan::File::Program, f.span.part, f.span.line, f.span.column,
                              f.timeS.value_or(0.0));
        };
        return key(a) < key(b);
    });
}

// Motion and what follows it know the moves and not the text: their findings name a block, counted from 1 through all
// files of the program, without a column. They get the block's line and the whole of it.
void completeSpans(std::vector<Finding>& findings, const Program& program) {
    for (Finding& finding : findings) {
        SourceSpan& span = finding.span;
        const bool wholeLine = span.file == SourceSpan::File::Program && span.line > 0 && span.column == 0;
        if (wholeLine && span.line <= program.blocks.size()) span = program.span(span.line - 1);
    }
}

// What no trial looks at yet, whatever the program does.
constexpr const char* kNeverChecked[] = {
    later("Coolant pipes, cables, chips, part catcher and the operator are not known; of the machine itself only what "
          "the set-up gives."),
    later("Chatter, heat and wear of the edge are not reckoned. Diameters and tapers are judged with what part and bar "
          "give way where that is known, an estimate that is rather too small; other sizes as the paths of the tools "
          "leave them."),
    later("The force across the axis, and so how far part and bar give way, follows a rule that is told with the "
          "loads; it is never taken as less than a quarter of the cutting force, and in truth may be twice that."),
    later("Cycle times: what is taken of axes, spindle and other things is said with them. Dog-legs of axes that take "
          "time to gain speed are followed within 0.05 mm; that servos round corners a little is left out."),
};

// A quick look knows threads and bars that are not round in these directions only: flats and corners of square and
// hexagon bars among them. Gaps larger than this it does not follow up.
constexpr int kQuickSectors = 12;
constexpr double kQuickFollowMm = 2;
constexpr const char* kQuickLook = later(
    "This is a quick look: how wrong the set-up may be was left out, threads were cut in 12 directions only, and gaps "
    "above 2 mm may be larger than told.");

bool usable(const Stock& stock) {
    return stock.outerRadius > stock.boreRadius && stock.frontZ > stock.backZ;
}

void addUp(Trial& trial) {
    for (const Cut& cut : trial.stock->cuts()) trial.removedVolumeMm3 += cut.removedMm3;
    trial.stockVolumeMm3 = trial.stock->startVolumeMm3();
}

// The figures for want of which something was not reckoned.
std::string listed(const std::vector<std::string>& missing) {
    return fmt::format("{}", fmt::join(missing, "; "));
}

// Whether the part holds and comes out straight, and what edges it wears, from the loads.
void followLoads(Trial& trial, const TrialOptions& options) {
    trial.holding = estimateHolding(trial.timeline, trial.toolpath, trial.setup, trial.stock, trial.loads);
    BendingOptions bending;
    bending.stop = options.stop;
    trial.bending = reckonBending(trial.timeline, trial.toolpath, trial.setup, trial.stock, trial.loads, bending);
    trial.edges = edgeUses(trial.timeline, trial.toolpath, trial.setup, trial.loads);
    take(trial.findings, trial.holding.findings);
    take(trial.findings, trial.bending.findings);
}

void sayWhatHoldingLacks(Trial& trial) {
    if (!trial.holding.missing.empty()) {
        trial.notChecked.push_back(
            say("Whether the grip holds is not reckoned. It takes {}.", listed(trial.holding.missing)));
    }
    if (!trial.bending.missing.empty()) {
        trial.notChecked.push_back(
            say("How far part and tool bend is not reckoned. It takes {}.", listed(trial.bending.missing)));
    }
}

// Progress of the whole from the progress of its stages.
class Progress {
public:
    explicit Progress(const TrialOptions& options) : options_(options) {}
    void stage(const char* name, double from, double to) {
        name_ = name;
        from_ = from;
        to_ = to;
        at(0);
    }
    void at(double share) const {
        if (options_.progress) options_.progress(from_ + share * (to_ - from_), name_);
    }
    bool stopped() const { return options_.stop.stop_requested(); }

private:
    const TrialOptions& options_;
    const char* name_ = "";
    double from_ = 0;
    double to_ = 0;
};

Finding noBar(const char* message) {
    Finding finding;
    finding.code = "no-usable-bar";
    finding.severity = Severity::Stop;
    finding.unproven = true;
    finding.span.file = SourceSpan::File::Setup;
    finding.message = message;
    finding.remedy = tr("Give [stock] a size and a length, or a drawing or a trial before that can be used.");
    return finding;
}

using FaultSearch = std::vector<Finding> (*)(const Machining&);
constexpr FaultSearch kFaultSearches[] = {
    contactFindings,      drillFindings,     threadFindings,      threadCrestFindings,  threadFormFindings,
    gougeFindings,        edgeFindings,      reamerFindings,      boreFindings,         faceGrooveFindings,
    centreHeightFindings, pipFindings,       partingFindings,     looseRingFindings,    interruptedCutFindings,
    gripFindings,         tailstockFindings, workholdingFindings, carriedPieceFindings, sectionFindings,
};

// Each search alone, some at a time; in the order of the list whatever ends first.
std::vector<Finding> lookForFaults(const Machining& machining, int threads) {
    std::vector<Finding> found[std::size(kFaultSearches)];
    WorkerTeam team(threads);
    team.share(static_cast<int>(std::size(kFaultSearches)), [&](int i) { found[i] = kFaultSearches[i](machining); });
    std::vector<Finding> all;
    for (const std::vector<Finding>& some : found) take(all, some);
    return all;
}

// Cuts the bar and adds what the cuts give away. False if stopped.
bool machine(Trial& trial, const TrialOptions& options, Progress& progress) {
    if (!usable(trial.setup.stock)) {
        trial.findings.push_back(
            noBar(tr("The set-up gives no usable bar, so nothing was cut and nothing about metal was checked.")));
        return true;
    }
    progress.stage(tr("cutting"), 0.25, 0.8);
    HistoryOptions history;
    history.threads = options.threads;
    history.keyframeBytes = options.historyBytes;
    history.stop = options.stop;
    history.holderTouch = true;
    history.previous = options.previous;
    if (options.quickLook) history.sectors = kQuickSectors;
    history.progress = [&progress](double share) { progress.at(share); };
    trial.stock = StockHistory::cut(trial.timeline, trial.toolpath, trial.setup, history);
    if (!trial.stock) return false;
    if (trial.stock->startVolumeMm3() <= 0) {
        trial.findings.push_back(noBar(tr("The blank has no metal anywhere, so nothing about metal was checked.")));
    }
    progress.stage(tr("looking for faults"), 0.8, 0.9);
    const Machining machining{trial.program, trial.setup, trial.toolpath, trial.timeline, trial.stock};
    take(trial.findings, lookForFaults(machining, options.threads));
    addUp(trial);
    return true;
}

// A dry run proves ways, not cuts.
void sayDryRun(Trial& trial) {
    const double pace = trial.setup.overrides.dryRunMmPerMin;
    if (pace <= 0) return;
    Finding finding;
    finding.code = "dry-run";
    finding.severity = Severity::Note;
    finding.unproven = true;
    finding.message =
        say("A dry run: all moves at feed but threads and taps go at {:.0f} mm/min whatever F says. It shows ways and "
            "room, and nothing about the cut.",
            pace);
    finding.remedy = tr("Switch the dry run off to try the cut itself.");
    trial.findings.push_back(std::move(finding));
}

// Holds of the feed whose line moves nothing, or is none; they are taken out, so that they hold nothing else.
void checkFeedHolds(Trial& trial) {
    auto& holds = trial.setup.overrides.holds;
    std::erase_if(holds, [&](const Overrides::FeedHold& hold) {
        const bool isLine = hold.line <= trial.program.endBlockOf(0);
        const BlockId block = hold.line - 1;
        if (isLine && std::any_of(trial.toolpath.moves.begin(), trial.toolpath.moves.end(),
                                  [&](const Move& move) { return move.block == block || move.cycleBlock == block; })) {
            return false;
        }
        Finding finding;
        finding.code = "feed-hold-without-move";
        finding.severity = Severity::Note;
        finding.span = hold.span;
        finding.message =
            isLine ? say("The feed is to be held at line {}, which moves nothing: it was not held.", hold.line)
                   : say("The feed is to be held at line {}; the program has {} lines.", hold.line,
                         trial.program.endBlockOf(0));
        finding.remedy = tr("Give the line of a move in line of [[feed_hold]].");
        trial.findings.push_back(std::move(finding));
        return true;
    });
}

// Where the time goes. Without a billet nothing is known of air.
void account(Trial& trial) {
    trial.time = accountOfTime({trial.program, trial.setup, trial.toolpath, trial.timeline, trial.stock}, trial.loads);
    trial.cuttingTimeS = trial.time.whole.of(TimeKind::Cutting);
    take(trial.findings, trial.time.findings);
}

}  // namespace

std::shared_ptr<const Trial> runTrial(Program program, Setup setup, const TrialOptions& options) {
    auto trial = std::make_shared<Trial>();
    trial->program = std::move(program);
    trial->setup = std::move(setup);
    takePrevious(trial->setup, options.previous);
    Progress progress(options);

    progress.stage(tr("carrying out blocks"), 0, 0.2);
    trial->toolpath = interpret(trial->program, trial->setup);
    if (progress.stopped()) return nullptr;
    progress.stage(tr("laying out in time"), 0.2, 0.25);
    checkFeedHolds(*trial);
    trial->timeline = layOut(trial->toolpath, trial->setup);
    if (progress.stopped()) return nullptr;

    take(trial->findings, trial->setup.findings);
    take(trial->findings, trial->program.findings);
    take(trial->findings, trial->toolpath.findings);
    take(trial->findings, trial->timeline.findings);
    sayDryRun(*trial);
    if (!machine(*trial, options, progress)) return nullptr;
    progress.stage(tr("reckoning loads"), 0.9, 0.92);
    LoadOptions loads;
    loads.threads = options.threads;
    loads.stop = options.stop;
    trial->loads = reckonLoads(trial->timeline, trial->toolpath, trial->setup, trial->stock, loads);
    if (progress.stopped()) return nullptr;
    account(*trial);
    take(trial->findings, trial->loads.findings);
    followLoads(*trial, options);
    if (progress.stopped()) return nullptr;
    trial->gauged = gaugePart(trial->timeline, trial->toolpath, trial->setup, trial->stock,
                              {trial->timeline, trial->toolpath, trial->setup, trial->loads, trial->bending});
    take(trial->findings, trial->gauged.findings);
    progress.stage(tr("measuring clearances"), 0.92, 1.0);
    ClearanceOptions clearance;
    clearance.threads = options.threads;
    clearance.margins = !options.quickLook;
    if (options.quickLook) clearance.followMm = kQuickFollowMm;
    clearance.stop = options.stop;
    trial->clearance = checkClearances(trial->timeline, trial->toolpath, trial->setup, trial->stock, clearance);
    if (progress.stopped()) return nullptr;
    take(trial->findings, trial->clearance.findings);
    trial->notChecked = trial->clearance.notModelled;
    trial->quickLook = options.quickLook;
    if (options.quickLook) trial->notChecked.emplace_back(tr(kQuickLook));
    trial->notChecked.insert(trial->notChecked.end(), trial->loads.notReckoned.begin(), trial->loads.notReckoned.end());
    for (const char* never : kNeverChecked) trial->notChecked.emplace_back(tr(never));

    sayWhatHoldingLacks(*trial);

    completeSpans(trial->findings, trial->program);
    sortForReading(trial->findings);
    trial->verdict = verdictOf(trial->findings);
    return trial;
}

namespace {

// The step that a move belongs to.
std::size_t stepOf(const std::vector<Step>& steps, std::size_t move) {
    const auto after = std::upper_bound(steps.begin(), steps.end(), move,
                                        [](std::size_t m, const Step& step) { return m < step.firstMove; });
    return after == steps.begin() ? 0 : static_cast<std::size_t>(std::distance(steps.begin(), after)) - 1;
}

}  // namespace

std::size_t Trial::stepAt(double timeS) const {
    if (toolpath.steps.empty() || timeline.moves.empty()) return 0;
    return stepOf(toolpath.steps, timeline.moves[timeline.at(timeS)].move);
}

BlockId Trial::shownBlock(std::size_t move) const {
    const BlockId block = toolpath.moves[move].block;
    if (program.isOwn(block) || toolpath.steps.empty()) return block;
    return toolpath.steps[stepOf(toolpath.steps, move)].shown;
}

double Trial::startOfStep(std::size_t step) const {
    if (step >= toolpath.steps.size()) return timeline.cycleTimeS;
    const std::uint32_t timed = timeline.firstOf[toolpath.steps[step].firstMove];
    return timed < timeline.moves.size() ? timeline.moves[timed].t0 : timeline.cycleTimeS;
}

double Trial::startOfBlock(BlockId block) const {
    const auto found = std::find_if(toolpath.steps.begin(), toolpath.steps.end(),
                                    [block](const Step& step) { return step.block == block; });
    return startOfStep(static_cast<std::size_t>(std::distance(toolpath.steps.begin(), found)));
}

BlockId Trial::blockAt(double timeS) const {
    if (timeline.moves.empty()) return toolpath.steps.empty() ? kNoBlock : toolpath.steps.front().shown;
    return shownBlock(timeline.moves[timeline.at(timeS)].move);
}

}  // namespace firstoff
