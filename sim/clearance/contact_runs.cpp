#include "sim/clearance/contact_runs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <string>

namespace firstoff {

namespace {

const char* const kCodes[kBodyGroups] = {"tool-into-chuck", "tool-into-jaws", "tool-into-tailstock"};

const char* const kRemedies[kBodyGroups] = {
    "Check the Z of the block, the work offset and the tool's length offset; hold the bar further out if the part "
    "needs it.",
    "Check the Z of the block, the work offset and how far the bar stands out of the jaws; hold it further out, "
    "shorten the "
    "cut, or approach from a larger X.",
    "Approach and retract further from the centre, use a tool with more reach, or draw the tailstock back first."};

std::string nameOf(const Tool& tool, ToolPart part) {
    if (part == ToolPart::Holder) return "holder";
    switch (tool.kind) {
        case ToolKind::Turning:
        case ToolKind::Boring:
        case ToolKind::Threading:
            return "insert";
        case ToolKind::Grooving:
        case ToolKind::Parting:
            return "blade";
        case ToolKind::Drill:
        case ToolKind::CentreDrill:
        case ToolKind::StepDrill:
            return "drill";
        case ToolKind::Reamer:
            return "reamer";
        case ToolKind::Tap:
            return "tap";
    }
    return "edge";
}

std::string motionOf(MoveKind kind) {
    switch (kind) {
        case MoveKind::Rapid:
        case MoveKind::Home:
            return " at rapid";
        case MoveKind::Index:
            return " where the turret indexes";
        case MoveKind::Dwell:
            return "";
        default:
            return " at feed";
    }
}

}  // namespace

const char* name(Body body) {
    switch (body) {
        case Body::ChuckBody:
            return "chuck body";
        case Body::Jaws:
            return "jaws";
        case Body::TailstockQuill:
            return "tailstock quill";
        case Body::TailstockCentre:
            return "tailstock centre";
    }
    return "";
}

std::size_t groupOf(Body body) {
    switch (body) {
        case Body::ChuckBody:
            return 0;
        case Body::Jaws:
            return 1;
        case Body::TailstockQuill:
        case Body::TailstockCentre:
            return 2;
    }
    return 0;
}

Contacts noContacts() {
    Contacts contacts;
    for (Contact& c : contacts) c.depthMm = -1;
    return contacts;
}

BlockId ContactRuns::cycleOf(std::uint32_t timedMove) const {
    return toolpath_.moves[timeline_.moves[timedMove].move].cycleBlock;
}

void ContactRuns::touch(std::uint32_t timedMove, const Contacts& contacts) {
    // What the tool meets first; of two it is in already, the one it is deeper in.
    const auto meetsBefore = [](const Contact& a, const Contact& b) {
        if ((a.depthMm < 0) != (b.depthMm < 0)) return b.depthMm < 0;
        return a.fraction != b.fraction ? a.fraction < b.fraction : a.depthMm > b.depthMm;
    };
    const auto first = std::min_element(contacts.begin(), contacts.end(), meetsBefore) - contacts.begin();
    const BlockId cycle = cycleOf(timedMove);
    for (std::size_t group = 0; group < kBodyGroups; ++group) {
        const Contact& contact = contacts[group];
        Run& run = runs_[group];
        if (contact.depthMm < 0) {
            if (run.open && (cycle == kNoBlock || cycle != run.cycle)) run.open = false;
            continue;
        }
        const bool continues =
            run.open && (run.lastTouch + 1 == timedMove || (cycle != kNoBlock && cycle == run.cycle));
        if (!continues) run = {true, -1, timedMove, cycle};
        run.lastTouch = timedMove;
        run.cycle = cycle;
        if (run.told < 0 && static_cast<std::size_t>(first) == group) {
            run.told = static_cast<int>(told_.size());
            told_.push_back({contact, timedMove, contact.depthMm});
        }
        if (run.told >= 0) told_[run.told].depthMm = std::max(told_[run.told].depthMm, contact.depthMm);
    }
}

void ContactRuns::pass(std::uint32_t timedMove) {
    for (Run& run : runs_) {
        if (!run.open) continue;
        const BlockId cycle = cycleOf(timedMove);
        if (cycle == kNoBlock || cycle != run.cycle) run.open = false;
    }
}

double ContactRuns::timeOf(const Told& told) const {
    const TimedMove& timed = timeline_.moves[told.timedMove];
    if (told.first.fraction <= 0) return timed.t0;
    double before = timed.t0, after = timed.t1;
    for (int i = 0; i < 60; ++i) {
        const double middle = (before + after) / 2;
        (fractionAt(timed, toolpath_, setup_, middle) < told.first.fraction ? before : after) = middle;
    }
    return before;
}

Finding ContactRuns::findingOf(const Told& told) const {
    const TimedMove& timed = timeline_.moves[told.timedMove];
    const Move& move = toolpath_.moves[timed.move];
    const Tool& tool = setup_.tools[told.first.toolIndex];
    const std::size_t group = groupOf(told.first.body);
    const Point place = told.first.place - toolpath_.datumOf(move);
    const double diameter = 2 * place.r;
    const std::string touches = told.depthMm < 0.0005 ? "touches" : fmt::format("goes {:.3f} mm into", told.depthMm);
    Finding finding;
    finding.severity = Severity::Stop;
    finding.code = kCodes[group];
    finding.span.line = move.block == kNoBlock ? 0 : move.block + 1;
    finding.timeS = timeOf(told);
    finding.place = told.first.place;
    finding.message = fmt::format("The {} of station {} {} the {}{}; first contact at X{:.3f} Z{:.3f}.",
                                  nameOf(tool, told.first.part), tool.station, touches, name(told.first.body),
                                  motionOf(timed.kind), diameter, place.z);
    finding.remedy = kRemedies[group];
    finding.values = {{"depth_mm", told.depthMm}, {"x_diameter_mm", diameter}, {"z_mm", place.z}};
    return finding;
}

std::vector<Finding> ContactRuns::findings() const {
    std::vector<Finding> findings;
    for (const Told& told : told_) findings.push_back(findingOf(told));
    return findings;
}

}  // namespace firstoff
