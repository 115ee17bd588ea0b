#include "sim/clearance/encounters.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <tuple>
#include <utility>

#include "sim/base/say.h"

namespace firstoff {

namespace {

std::string motionOf(MoveKind kind) {
    switch (kind) {
        case MoveKind::Rapid:
        case MoveKind::Home:
            return tr(" at rapid");
        case MoveKind::Index:
            return tr(" while the turret indexes");
        case MoveKind::Dwell:
            return "";
        default:
            return tr(" at feed");
    }
}

// "The insert of station 1", "The block of station 5", …
std::string subjectOf(const MachineBody& body, const Setup& setup) {
    if (body.kind != BodyKind::Edge || body.toolIndex < 0) return body.name;
    const Tool& tool = setup.tools[static_cast<std::size_t>(body.toolIndex)];
    switch (tool.kind) {
        case ToolKind::Turning:
        case ToolKind::Boring:
        case ToolKind::Threading:
            break;
        case ToolKind::Grooving:
        case ToolKind::Parting:
            return say("the blade of station {}", tool.station);
        case ToolKind::Drill:
        case ToolKind::CentreDrill:
        case ToolKind::StepDrill:
            return say("the drill of station {}", tool.station);
        case ToolKind::Reamer:
            return say("the reamer of station {}", tool.station);
        case ToolKind::Tap:
            return say("the tap of station {}", tool.station);
    }
    return say("the insert of station {}", tool.station);
}

std::string withCapital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

const char* remedyOf(const std::string& code) {
    if (code == "tool-into-chuck") {
        return tr(
            "Check the Z of the block, the work offset and the tool's length offset; hold the bar further out if "
            "the part needs it.");
    }
    if (code == "tool-into-jaws") {
        return tr(
            "Check the Z of the block, the work offset and how far the bar stands out of the jaws; hold it further "
            "out, shorten the cut, or approach from a larger X.");
    }
    if (code == "tool-into-tailstock") {
        return tr(
            "Approach and retract further from the centre, use a tool with more reach, or draw the tailstock back "
            "first.");
    }
    if (code == "holder-into-material") {
        return tr(
            "Use a holder with more reach or a longer overhang, take the cut shallower or shorter, or widen the "
            "groove.");
    }
    if (code == "swing-into-body") {
        return tr("Retract further before the T word, so that every tool on the turret swings clear.");
    }
    if (code == "neighbour-into-body") {
        return tr(
            "Move the neighbour to a station further off, shorten what stands out of it, or hold the part further "
            "out.");
    }
    if (code == "turret-into-body") {
        return tr("Let the tool stand further out of its block, hold the part further out, or shorten the way.");
    }
    if (code == "tailstock-into-body")
        return tr("Clear the way of the tailstock first, or correct where it is sent to.");
    if (code == "second-spindle-into-body") {
        return tr("Clear the way of the second spindle first, or correct where it is sent to.");
    }
    if (code == "bodies-overlap") return tr("Correct the measures or the place of one of them in the set-up.");
    if (code == "near-miss") {
        return tr(
            "Give it more room, or make sure of the figure on the machine: dry run, single block, a hand on the "
            "feed hold.");
    }
    return tr("Change the way so that it keeps clear, or the set-up if the body stands elsewhere.");
}

// A pair's sightings that go on from each other.
struct Run {
    bool open = false;
    bool fresh = false;  // begun on the move in hand
    int told = -1;       // index into the list of what is told; -1: hidden behind what the same tool met first
    Sighting first;      // of this run
    double deepest = 0;
    std::uint32_t last = 0;
    std::uint32_t stretch = 0;
};

struct Entry {
    Sighting first;      // of contacts: the first; of near misses: the nearest
    double deepest = 0;  // least gap of all
    bool contact = false;
    std::uint16_t call = 0;
};

class Teller {
public:
    Teller(const TellingContext& context, const std::vector<bool>& cutSaid) : c_(context), cutSaid_(cutSaid) {
        // Neighbouring moves of one run of a cycle share a number; each move outside of cycles has its own.
        stretch_.reserve(c_.timeline.moves.size());
        BlockId before = kNoBlock;
        std::uint32_t number = 0;
        for (std::size_t i = 0; i < c_.timeline.moves.size(); ++i) {
            const BlockId cycle = moveOf(static_cast<std::uint32_t>(i)).cycleBlock;
            if (cycle == kNoBlock || cycle != before) ++number;
            before = cycle;
            stretch_.push_back(number);
        }
    }

    Told run(const std::vector<Sighting>& sightings) {
        for (std::size_t i = 0; i < sightings.size();) {
            std::size_t end = i;
            while (end < sightings.size() && sightings[end].timedMove == sightings[i].timedMove) ++end;
            takeMove(sightings, i, end);
            i = end;
        }
        dropMissesBesideContacts();
        std::stable_sort(entries_.begin(), entries_.end(),
                         [this](const Entry& a, const Entry& b) { return timeOf(a) < timeOf(b); });
        Told told;
        for (const Entry& entry : entries_) {
            Finding finding = findingOf(entry);
            told.encounters.push_back(encounterOf(entry, finding));
            told.findings.push_back(std::move(finding));
        }
        return told;
    }

private:
    const Move& moveOf(std::uint32_t timed) const { return c_.toolpath.moves[c_.timeline.moves[timed].move]; }

    void takeMove(const std::vector<Sighting>& all, std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            if (all[i].gap.gap <= 0) begins(all[i]);
        }
        // Of what one tool, or one other body, newly meets, the first; of two that are met at once, the one that is
        // deeper in. The rest is hidden behind it: the machine would have stopped. It is told, as it began, once what
        // hid it is out of the way.
        std::map<int, const Sighting*> firsts;  // by station
        bool touches = false;
        for (std::size_t i = begin; i < end; ++i) {
            const Sighting& s = all[i];
            if (s.gap.gap > 0) continue;
            touches = true;
            const Run& run = runs_[keyOf(s)];
            if (run.told >= 0 || isSaid(s) || (!run.fresh && toldTouches(all, begin, end, stationOf(s)))) continue;
            const Sighting*& first = firsts[stationOf(s)];
            if (first == nullptr || s.gap.contactAt < first->gap.contactAt ||
                (s.gap.contactAt == first->gap.contactAt && s.gap.gap < first->gap.gap)) {
                first = &s;
            }
        }
        for (std::size_t i = begin; i < end; ++i) {
            if (all[i].gap.gap <= 0) {
                touch(all[i], firsts[stationOf(all[i])] == &all[i]);
            } else if (!touches) {
                miss(all[i]);
            }
        }
        for (std::size_t i = begin; i < end; ++i) {
            if (all[i].gap.gap <= 0) runs_[keyOf(all[i])].fresh = false;
        }
    }

    int stationOf(const Sighting& s) const { return c_.bodies.bodies[c_.pairs[s.pair].body].station; }

    // Something that the same tool touches on this move is told already.
    bool toldTouches(const std::vector<Sighting>& all, std::size_t begin, std::size_t end, int station) {
        for (std::size_t i = begin; i < end; ++i) {
            if (all[i].gap.gap <= 0 && stationOf(all[i]) == station && runs_[keyOf(all[i])].told >= 0) return true;
        }
        return false;
    }

    // The cutting has told it, with the depth.
    bool isSaid(const Sighting& s) const {
        const bool metal = c_.pairs[s.pair].other == 0;
        const bool cutting = s.code == std::string("holder-into-material") || s.code == std::string("swing-into-body");
        return metal && cutting && cutSaid_[s.timedMove];
    }

    // Edge, holder and block of a station, and all that belongs to one side of the machine, count as one.
    std::tuple<std::string, int, int> keyOf(const Sighting& s) const {
        const BodyPair& pair = c_.pairs[s.pair];
        const MachineBody& other = c_.bodies.bodies[pair.other];
        const bool apart = other.carrier == Carrier::Bed || other.carrier == Carrier::Spindle;
        return {s.code, c_.bodies.bodies[pair.body].station, apart ? pair.other : -static_cast<int>(other.carrier)};
    }

    void begins(const Sighting& s) {
        Run& run = runs_[keyOf(s)];
        const std::uint32_t stretch = stretch_[s.timedMove];
        const bool continues = run.open && (run.last + 1 >= s.timedMove || stretch == run.stretch);
        if (!continues) run = {true, true, -1, s, s.gap.gap, s.timedMove, stretch};
        if (run.fresh && s.gap.contactAt < run.first.gap.contactAt) run.first = s;
        run.deepest = std::min(run.deepest, s.gap.gap);
        run.last = s.timedMove;
        run.stretch = stretch;
    }

    void touch(const Sighting& s, bool isFirst) {
        Run& run = runs_[keyOf(s)];
        if (run.told < 0 && isFirst) {
            run.told = static_cast<int>(entries_.size());
            entries_.push_back({run.first, run.deepest, true, moveOf(run.first.timedMove).call});
        }
        if (run.told >= 0) {
            Entry& entry = entries_[static_cast<std::size_t>(run.told)];
            entry.deepest = std::min(entry.deepest, run.deepest);
        }
    }

    // One for a pair as long as the same tool is in use: where it is nearest.
    void miss(const Sighting& s) {
        const std::uint16_t call = moveOf(s.timedMove).call;
        const auto [at, fresh] = misses_.try_emplace({s.pair, call}, entries_.size());
        if (fresh) {
            entries_.push_back({s, s.gap.gap, false, call});
            return;
        }
        Entry& entry = entries_[at->second];
        if (s.gap.gap < entry.deepest) entry = {s, s.gap.gap, false, call};
    }

    void dropMissesBesideContacts() {
        const auto superfluous = [this](const Entry& miss) {
            return !miss.contact && std::any_of(entries_.begin(), entries_.end(), [&](const Entry& e) {
                return e.contact && e.first.pair == miss.first.pair && e.call == miss.call;
            });
        };
        std::vector<Entry> kept;
        for (const Entry& entry : entries_) {
            if (!superfluous(entry)) kept.push_back(entry);
        }
        entries_ = std::move(kept);
    }

    double fractionOf(const Entry& e) const {
        return e.contact ? std::max(0.0, e.first.gap.contactAt) : e.first.nearestAt;
    }
    double timeOf(const Entry& e) const { return c_.ways.timeAt(e.first.timedMove, fractionOf(e)); }

    Finding findingOf(const Entry& entry) const {
        const Sighting& s = entry.first;
        const BodyPair& pair = c_.pairs[s.pair];
        const MachineBody& body = c_.bodies.bodies[pair.body];
        const MachineBody& other = c_.bodies.bodies[pair.other];
        const Move& move = moveOf(s.timedMove);
        const Point place = turnedIntoPlane(s.gap.place);
        const Point work = place - c_.toolpath.datumOf(move);
        const std::string motion = pair.still ? "" : motionOf(c_.timeline.moves[s.timedMove].kind);
        const std::string way = s.gap.onStraightWay ? tr(", if this control's rapids run straight") : "";
        Finding finding;
        finding.span.line = pair.still || move.block == kNoBlock ? 0 : move.block + 1;
        if (pair.still) finding.span.file = SourceSpan::File::Setup;
        finding.timeS = timeOf(entry);
        finding.place = place;
        const std::string subject = withCapital(subjectOf(body, c_.setup));
        if (entry.contact) {
            finding.severity = Severity::Stop;
            finding.code = s.code;
            const double depth = -entry.deepest;
            finding.message = depth >= 0.0005 ? say("{} goes {:.3f} mm into {}{}{}; first contact at X{:.3f} Z{:.3f}.",
                                                    subject, depth, other.name, motion, way, 2 * work.r, work.z)
                                              : say("{} meets {}{}{}; first contact at X{:.3f} Z{:.3f}.", subject,
                                                    other.name, motion, way, 2 * work.r, work.z);
            finding.values = {{"depth_mm", std::max(depth, 0.0)}, {"x_diameter_mm", 2 * work.r}, {"z_mm", work.z}};
        } else {
            finding.severity = Severity::Warning;
            finding.code = "near-miss";
            finding.message = say("{} comes within {:.2f} mm of {}{}{}, at X{:.3f} Z{:.3f}; {:g} mm are wanted.",
                                  subject, entry.deepest, other.name, motion, way, 2 * work.r, work.z, s.limitMm);
            finding.values = {{"gap_mm", entry.deepest}, {"x_diameter_mm", 2 * work.r}, {"z_mm", work.z}};
        }
        finding.remedy = remedyOf(finding.code);
        return finding;
    }

    Encounter encounterOf(const Entry& entry, const Finding& finding) const {
        const BodyPair& pair = c_.pairs[entry.first.pair];
        Encounter e;
        e.timedMove = entry.first.timedMove;
        e.timeS = *finding.timeS;
        e.fraction = fractionOf(entry);
        e.body = pair.body;
        e.other = pair.other;
        e.gapMm = entry.deepest;
        e.place = entry.first.gap.place;
        e.code = finding.code;
        return e;
    }

    const TellingContext& c_;
    const std::vector<bool>& cutSaid_;
    std::vector<std::uint32_t> stretch_;  // per timed move
    std::map<std::tuple<std::string, int, int>, Run> runs_;
    std::map<std::pair<std::uint32_t, std::uint16_t>, std::size_t> misses_;
    std::vector<Entry> entries_;
};

}  // namespace

Told tell(const TellingContext& context, const std::vector<Sighting>& sightings, const std::vector<bool>& cutSaid) {
    return Teller(context, cutSaid).run(sightings);
}

}  // namespace firstoff
