// Habits of a careful program, section by section. A section is what one tool does, from its T word to the next tool's.
//
// Restarted at a section's search number, a control knows nothing of the sections before: what a section needs it
// should say itself. And it should leave the machine as the next one expects it. Common practice, no source.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/control/codes.h"
#include "sim/trial/machining_findings.h"

namespace firstoff {

namespace {

// Moves first … last-1 and steps firstStep … lastStep-1 of one tool.
struct Section {
    std::size_t first = 0, last = 0;
    std::size_t firstStep = 0, lastStep = 0;
    BlockId toolBlock = kNoBlock;
    bool afterOther = false;
};

// What the blocks of a section say, up to its first feed move.
struct Said {
    bool feed = false, speed = false, speedMode = false, spindle = false, coolant = false, datum = false;
    bool feedMode = false, compensationOff = false;
};

// What sections of the program differ in; what never changes needs no saying.
struct Varies {
    bool feedMode = false, datum = false, compensation = false;
};

class Sections {
public:
    explicit Sections(const Machining& m) : m_(m) {}

    std::vector<Finding> run() {
        divide();
        lookForWhatVaries();
        for (const Section& section : sections_) {
            offsetOfOtherStation(section);
            spindleStopsInTheCut(section);
            coolantWhileCutting(section);
            feedInTheMetal(section);
            atTheAxis(section);
            bladeSideways(section);
            cutsNothing(section);
            if (section.last == section.first) continue;
            if (section.afterOther) wordsOfEarlierSections(section);
            surfaceSpeedIntoTheIndex(section);
        }
        return std::move(findings_);
    }

private:
    const Move& move(std::size_t i) const { return m_.toolpath.moves[i]; }
    const ModalState& modal(std::size_t i) const { return m_.toolpath.modals[move(i).modal]; }
    const ToolCall& call(std::size_t i) const { return m_.toolpath.calls[move(i).call]; }

    bool cuts(std::size_t i) const {
        if (!isAtFeed(move(i).kind)) return false;
        for (std::uint32_t t = m_.timeline.firstOf[i]; t < m_.timeline.firstOf[i + 1]; ++t) {
            if (m_.stock->cuts()[t].deepestMm > tolerance::kTouchMm) return true;
        }
        return false;
    }

    bool spindleIsAxis(std::size_t i) const {
        return move(i).extra != kNoExtra && m_.toolpath.extras[move(i).extra].spindleIsAxis;
    }

    void divide() {
        const auto& moves = m_.toolpath.moves;
        for (std::size_t i = 0; i < moves.size(); ++i) {
            if (moves[i].kind == MoveKind::Index || sections_.empty()) begin(i);
            sections_.back().last = i + 1;
        }
        if (sections_.empty()) return;
        sections_.back().lastStep = m_.toolpath.steps.size();
    }

    void begin(std::size_t i) {
        const auto& steps = m_.toolpath.steps;
        Section section;
        section.first = i;
        section.afterOther = !sections_.empty() && call(sections_.back().first).station != 0;
        section.toolBlock = call(i).block;
        // The last step that begins at or before the index is the T word's own.
        const auto after = std::upper_bound(steps.begin(), steps.end(), static_cast<std::uint32_t>(i),
                                            [](std::uint32_t at, const Step& step) { return at < step.firstMove; });
        std::size_t step = static_cast<std::size_t>(after - steps.begin());
        while (step > 0 && steps[step - 1].block != section.toolBlock && steps[step - 1].firstMove == i) --step;
        section.firstStep = step > 0 ? step - 1 : 0;
        if (!sections_.empty()) sections_.back().lastStep = section.firstStep;
        sections_.push_back(section);
    }

    void lookForWhatVaries() {
        const auto& modals = m_.toolpath.modals;
        for (const ModalState& state : modals) {
            varies_.feedMode |= state.feedPerRev != modals.front().feedPerRev;
            varies_.datum |= state.workOffset != modals.front().workOffset;
            varies_.compensation |= state.compensation != Compensation::Off;
            coolantUsed_ |= state.coolant;
        }
    }

    // First move at feed; section.last if there is none.
    std::size_t firstFeed(const Section& section) const {
        std::size_t i = section.first;
        while (i < section.last && !isAtFeed(move(i).kind)) ++i;
        return i;
    }

    Said whatIsSaid(const Section& section, std::size_t upToMove) const {
        Said said;
        const auto& steps = m_.toolpath.steps;
        for (std::size_t s = section.firstStep; s < section.lastStep && steps[s].firstMove <= upToMove; ++s) {
            const Block& block = m_.program.blocks[steps[s].block];
            for (const Word *word = m_.program.begin(block), *end = m_.program.end(block); word != end; ++word) {
                take(*word, said);
            }
        }
        return said;
    }

    void take(const Word& word, Said& said) const {
        if (word.comma) return;
        if (word.letter == 'F') said.feed = true;
        if (word.letter == 'S') said.speed = true;
        if ((word.letter != 'G' && word.letter != 'M') || word.form != Word::Form::Number) return;
        const int tenths = static_cast<int>(word.value * 10 + 0.5);
        const CodeEntry* entry = codeEntry(word.letter, tenths, m_.setup.control.codeSystem);
        if (entry == nullptr) return;
        said.speedMode |= entry->group == CodeGroup::SpeedMode;
        said.spindle |= entry->group == CodeGroup::Spindle;
        said.coolant |= entry->group == CodeGroup::Coolant;
        said.feedMode |= entry->group == CodeGroup::FeedMode;
        said.datum |= entry->order == Order::WorkOffset || entry->order == Order::FurtherWorkOffset;
        said.compensationOff |= entry->order == Order::CompensationOff;
    }

    void wordsOfEarlierSections(const Section& section) {
        const std::size_t feed = firstFeed(section);
        if (feed == section.last) return;
        const Said said = whatIsSaid(section, feed);
        const ModalState& at = modal(feed);
        std::vector<std::string> lacking;
        if (at.spindle != SpindleDirection::Stopped && !said.spindle)
            lacking.emplace_back(tr("the spindle direction (M03 or M04)"));
        if (at.speed > 0 && !said.speed) lacking.emplace_back(tr("the speed (S)"));
        if (at.speed > 0 && !said.speedMode) lacking.emplace_back(tr("the speed mode (G96 or G97)"));
        if (varies_.feedMode && !said.feedMode) lacking.emplace_back(tr("the feed mode"));
        if (varies_.datum && !said.datum) lacking.emplace_back(tr("the work offset"));
        if (varies_.compensation && !said.compensationOff) lacking.emplace_back("G40");
        if (at.coolant && !said.coolant) lacking.emplace_back(tr("coolant (M08)"));
        const bool feedNotSaid = at.feed > 0 && !said.feed;
        if (feedNotSaid) feedOfOtherTool(feed, at);
        if (!lacking.empty()) sayLacking(section, lacking);
    }

    void sayLacking(const Section& section, const std::vector<std::string>& lacking) {
        std::string list = lacking.front();
        for (std::size_t i = 1; i + 1 < lacking.size(); ++i) list += ", " + lacking[i];
        if (lacking.size() > 1) list = say("{} and {}", list, lacking.back());
        Finding& finding = add(Severity::Note, "section-needs-earlier-words", section.toolBlock);
        finding.message = say(
            "The section of tool {} leaves {} to what earlier sections said; started here, at its search number, it "
            "would run without.",
            call(section.first).station, list);
        finding.remedy = tr("Write them in a safe line at the beginning of every section.");
    }

    void feedOfOtherTool(std::size_t feed, const ModalState& at) {
        Finding& finding = add(Severity::Warning, "feed-of-other-tool", move(feed).block);
        finding.message = at.feedPerRev ? say("No F has been given since tool {} was called: F{:g} mm per revolution "
                                              "of the tool before is still in force.",
                                              call(feed).station, at.feed)
                                        : say("No F has been given since tool {} was called: F{:g} mm per minute of "
                                              "the tool before is still in force.",
                                              call(feed).station, at.feed);
        finding.remedy = tr("Give F with the first feed move of every tool.");
        finding.values = {{"feed", at.feed}};
    }

    // What else there is between the index and the first move of the new tool is the same spindle at another diameter.
    void surfaceSpeedIntoTheIndex(const Section& section) {
        if (!section.afterOther) return;
        const ModalState& at = modal(section.first);
        if (move(section.first).kind != MoveKind::Index || !at.constantSurfaceSpeed) return;
        if (at.spindle == SpindleDirection::Stopped) return;
        Finding& finding = add(Severity::Note, "surface-speed-left-on", section.toolBlock);
        finding.message =
            say("Surface speed (G96) is still on when tool {} is called: the spindle speeds up or down with every "
                "rapid in X on the way, and the next tool comes to the work at a speed nobody gave.",
                call(section.first).station);
        finding.remedy = tr("Give G97 with a fixed speed before the retract and the tool change.");
    }

    // Millimetres per revolution of a timed move, 0 with the spindle stopped.
    static double perRev(const TimedMove& timed) {
        const double rpm = (timed.rpmStart + timed.rpmEnd) / 2;
        const double minutes = (timed.t1 - timed.t0) / 60;
        return rpm > 0 && minutes > 0 ? distance(timed.from, timed.to) / (rpm * minutes) : 0;
    }

    // Above this no edge makes a surface or lives; from memory of makers' advice: feeds stay below the nose radius,
    // drills' below some hundredths of their diameter, grooving edges' well below half a millimetre.
    static double mostPerRev(const Tool& tool) {
        constexpr double kLeast = 0.4;
        switch (tool.kind) {
            case ToolKind::Drill:
            case ToolKind::CentreDrill:
            case ToolKind::StepDrill:
            case ToolKind::Reamer:
                return std::max(kLeast, 0.1 * tool.diameter);
            case ToolKind::Grooving:
            case ToolKind::Parting:
                return 0.6;
            default:
                return std::max(kLeast, tool.noseRadius);
        }
    }

    void feedInTheMetal(const Section& section) {
        // Below it an edge rubs; a feed per minute taken per revolution, or the other way round, lies beyond either.
        constexpr double kLeastPerRev = 0.005;
        for (std::size_t i = section.first; i < section.last; ++i) {
            const int index = call(i).toolIndex;
            if (index < 0 || move(i).kind != MoveKind::Feed || !cuts(i)) continue;
            const Tool& tool = m_.setup.tools[static_cast<std::size_t>(index)];
            if (tool.kind == ToolKind::Tap || tool.kind == ToolKind::Threading) continue;
            const TimedMove& timed = m_.timeline.moves[m_.timeline.workOf(static_cast<std::uint32_t>(i))];
            const double feed = perRev(timed);
            const double most = mostPerRev(tool);
            // At the machine's limit, which is reported as that.
            if (feed * timed.rpmStart >= 0.999 * m_.setup.machine.maxFeedMmPerMin) continue;
            if (feed == 0 || (feed >= kLeastPerRev && feed <= most)) continue;
            Finding& finding = add(Severity::Warning, "feed-improbable", move(i).block);
            finding.timeS = timed.t0;
            finding.message =
                feed > most
                    ? say("Tool {} cuts at {:.4g} mm per revolution; an edge like this takes {:.2g} at most.",
                          call(i).station, feed, most)
                    : say("Tool {} cuts at {:.2g} mm per revolution: it would rub rather than cut, and take very "
                          "long.",
                          call(i).station, feed);
            finding.remedy = tr("Check F, S, and whether F counts per revolution or per minute.");
            finding.values = {{"feed_mm_per_rev", feed}};
            return;
        }
    }

    // How deep a blade stands in the metal while it is fed sideways. Along X, for a blade that cuts grooves in a face,
    // a radial column tells nothing of that: the mean over the way does.
    double depthSideways(std::size_t i, const Tool& tool) const {
        double depth = 0;
        for (std::uint32_t t = m_.timeline.firstOf[i]; t < m_.timeline.firstOf[i + 1]; ++t) {
            const Cut& cut = m_.stock->cuts()[t];
            const TimedMove& timed = m_.timeline.moves[t];
            const double tip = m_.toolpath.tipShift(move(i)).r;
            const double from = std::abs(timed.from.r + tip), to = std::abs(timed.to.r + tip);
            const double ring = kPi * std::abs(to * to - from * from);
            const double mean = ring > 0 ? static_cast<double>(cut.removedMm3) / ring : 0;
            depth = std::max(depth, tool.face ? mean : static_cast<double>(cut.deepestMm));
        }
        return depth;
    }

    // A blade fed along Z stands the side force of a cut about as deep as it is wide; deeper it bends or breaks, and
    // its flank cuts (common practice, no source).
    void bladeSideways(const Section& section) {
        for (std::size_t i = section.first; i < section.last; ++i) {
            const int index = call(i).toolIndex;
            const Point way = move(i).to - move(i).from;
            if (index < 0 || !isAtFeed(move(i).kind)) continue;
            const Tool& tool = m_.setup.tools[static_cast<std::size_t>(index)];
            if (!isBlade(tool.kind)) continue;
            const double aside = std::abs(tool.face ? way.r : way.z), along = std::abs(tool.face ? way.z : way.r);
            if (aside <= along) continue;
            const double depth = depthSideways(i, tool);
            if (depth <= tool.width + tolerance::kTouchMm) continue;
            Finding& finding = add(Severity::Warning, "blade-cuts-sideways", move(i).block);
            finding.message =
                say("The blade of tool {} is fed sideways through metal {:.2f} mm deep; it is {:g} mm wide, and cuts "
                    "with its front.",
                    call(i).station, depth, tool.width);
            finding.remedy = tr("Plunge, or turn sideways in cuts no deeper than the blade is wide.");
            finding.values = {{"depth_mm", depth}, {"width_mm", tool.width}};
            return;
        }
    }

    void atTheAxis(const Section& section) {
        for (std::size_t i = section.first; i < section.last; ++i) {
            const int index = call(i).toolIndex;
            if (index < 0 || !cuts(i)) continue;
            const ToolKind kind = m_.setup.tools[static_cast<std::size_t>(index)].kind;
            if (kind == ToolKind::Tap && move(i).kind != MoveKind::Thread) {
                Finding& finding = add(Severity::Warning, "tap-fed-as-a-drill", move(i).block);
                finding.unproven = true;
                finding.message =
                    say("Tap {} is fed as a drill: feed and spindle are not tied to each other, and what it makes "
                        "is not shown.",
                        call(i).station);
                finding.remedy = tr("Tap with G84 or G32, or prove this block on the machine.");
                return;
            }
            if (!worksOnTheAxis(kind) || kind == ToolKind::Tap || !modal(i).constantSurfaceSpeed) continue;
            Finding& finding = add(Severity::Warning, "drill-at-surface-speed", move(i).block);
            finding.message =
                say("Drill {} cuts under surface speed (G96): on the axis the spindle runs as fast as the clamp and "
                    "the machine let it.",
                    call(i).station);
            finding.remedy = tr("Give G97 with the speed of the drill.");
            return;
        }
    }

    void cutsNothing(const Section& section) {
        const std::size_t feed = firstFeed(section);
        if (feed == section.last || call(feed).toolIndex < 0) return;
        for (std::size_t i = feed; i < section.last; ++i) {
            if (move(i).kind == MoveKind::Thread || spindleIsAxis(i) || cuts(i)) return;
        }
        Finding& finding = add(Severity::Note, "section-cuts-nothing", move(feed).block);
        finding.message =
            say("Tool {} is fed, but meets no metal from its call to the next tool's.", call(feed).station);
        finding.remedy = tr("Check signs, datum and offset, if it should cut.");
    }

    // What is fed out of the envelope of the bar has left it.
    bool standsClear(std::size_t i) const {
        const Point tip = move(i).to + m_.toolpath.tipShift(move(i));
        return tip.r > m_.setup.stock.outerRadius || tip.z > m_.setup.stock.frontZ;
    }

    void spindleStopsInTheCut(const Section& section) {
        for (std::size_t i = section.first + 1; i < section.last; ++i) {
            const bool stops =
                modal(i).spindle == SpindleDirection::Stopped && modal(i - 1).spindle != SpindleDirection::Stopped;
            // A tap reverses and stops in its hole, and threads are the spindle's own.
            if (!stops || !cuts(i - 1) || move(i - 1).kind == MoveKind::Thread) continue;
            if (move(i).kind == MoveKind::Index || standsClear(i - 1)) continue;
            Finding& finding = add(Severity::Warning, "spindle-stopped-before-retract", move(i).block);
            finding.message =
                say("The spindle is stopped while tool {} still stands where it cut; it is drawn off a part that "
                    "stands still and marks it.",
                    call(i).station);
            finding.remedy = tr("Retract first, then M05.");
        }
    }

    void coolantWhileCutting(const Section& section) {
        if (!coolantUsed_) return;
        bool wasOn = false;
        for (std::size_t i = section.first; i < section.last; ++i) {
            wasOn |= modal(i).coolant;
            if (modal(i).coolant || !cuts(i)) continue;
            Finding& finding =
                add(wasOn ? Severity::Warning : Severity::Note, "coolant-off-while-cutting", move(i).block);
            finding.message =
                wasOn ? say("Tool {} cuts here with the coolant off, which was on before.", call(i).station)
                      : say("Tool {} cuts here with the coolant off, which other tools have on.", call(i).station);
            finding.remedy = tr("Give M08 before the cut, unless it is meant to be dry.");
            return;
        }
    }

    void offsetOfOtherStation(const Section& section) {
        int last = -1;
        for (std::size_t i = section.first; i < section.last; ++i) {
            const ToolCall& now = call(i);
            if (move(i).call == last) continue;
            last = move(i).call;
            if (now.offset == 0 || now.offset == now.station || now.station == 0) continue;
            // An offset that is not entered was reported where it was called.
            if (m_.setup.toolAt(now.offset) == nullptr || m_.setup.offset(now.offset) == nullptr) continue;
            Finding& finding = add(Severity::Warning, "offset-of-other-station", now.block);
            finding.message = say("Station {} is called with offset {}, the number of another tool in the turret.",
                                  now.station, now.offset);
            finding.remedy =
                say("Write T{0:02}{0:02}, or give a second offset of this tool a number of its own.", now.station);
            finding.values = {{"station", now.station}, {"offset", now.offset}};
        }
    }

    Finding& add(Severity severity, const char* code, BlockId block) {
        Finding finding;
        finding.severity = severity;
        finding.code = code;
        if (block != kNoBlock) finding.span = m_.program.span(block);
        findings_.push_back(std::move(finding));
        return findings_.back();
    }

    const Machining& m_;
    std::vector<Section> sections_;
    Varies varies_;
    bool coolantUsed_ = false;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> sectionFindings(const Machining& machining) {
    return Sections(machining).run();
}

}  // namespace firstoff
