#include "gui/change_history.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

using Words = std::vector<std::string>;

constexpr std::size_t kMostSteps = 500;
// Shares go to per cent and back under the sliders, which leaves rounding behind; the finest step that is shown is 1 %.
constexpr double kSameShare = 1e-9;

template <class View, class T>
auto& of(View& view, T ViewSettings::*what) {
    return view.*what;
}
template <class View, class T>
auto& of(View& view, T SectionSettings::*what) {
    return view.section.*what;
}

// All of the view that can be taken back, each with what the menu calls it.
template <class Visit>
void eachOfView(const Visit& visit) {
    visit(later("billet whole or cut away"), &ViewSettings::cutaway);
    visit(later("colouring of surfaces"), &ViewSettings::colouring);
    visit(later("bodies shown or hidden"), &ViewSettings::hiddenBodies);
    visit(later("bodies before the cut"), &ViewSettings::neighbours);
    visit(later("chips in the picture"), &ViewSettings::chips);
    visit(later("picture quality"), &ViewSettings::quality);
    visit(later("following the tool"), &ViewSettings::followTool);
    visit(later("gliding of the camera"), &ViewSettings::lessMotion);
    visit(later("dark or light"), &ViewSettings::dark);
    visit(later("dark or light"), &ViewSettings::projectorDark);
    visit(later("look for a projector"), &ViewSettings::projector);
    visit(later("picture and half-section"), &SectionSettings::shown);
    visit(later("ways in the half-section"), &SectionSettings::paths);
    visit(later("sizes in the half-section"), &SectionSettings::sizes);
    visit(later("drawing in the half-section"), &SectionSettings::drawing);
    visit(later("magnified deviations"), &SectionSettings::magnified);
    visit(later("folded lanes"), &ViewSettings::foldedLanes);
    visit(later("findings beneath their lines"), &ViewSettings::findingsInText);
    visit(later("order of contacts and near misses"), &ViewSettings::clearancesByTime);
    visit(later("panel of the machine"), &ViewSettings::panel);
    visit(later("units"), &ViewSettings::units);
    visit(later("size of type"), &ViewSettings::scale);
    visit(later("pace of playing"), &ViewSettings::playSpeed);
    visit(later("pace of playing"), &ViewSettings::playByBlock);
}

void addViewChanges(const ViewSettings& before, const ViewSettings& after, Words& words) {
    eachOfView([&](const char* what, auto member) {
        if (of(before, member) != of(after, member)) words.emplace_back(tr(what));
    });
}

WhatIf::Wear wearOf(const WhatIf& whatIf, int offset) {
    for (const WhatIf::Wear& wear : whatIf.wears) {
        if (wear.offset == offset) return wear;
    }
    return {offset, 0, 0};
}

WhatIf::Edge edgeOf(const WhatIf& whatIf, int station) {
    for (const WhatIf::Edge& edge : whatIf.edges) {
        if (edge.station == station) return edge;
    }
    return {station, -1, 0};
}

// One that is not listed stands as the set-up has it.
void addOffsetAndToolChanges(const WhatIf& before, const WhatIf& after, Words& words) {
    std::set<int> offsets, stations;
    for (const WhatIf* one : {&before, &after}) {
        for (const WhatIf::Wear& wear : one->wears) offsets.insert(wear.offset);
        for (const WhatIf::Edge& edge : one->edges) stations.insert(edge.station);
    }
    for (const int offset : offsets) {
        if (wearOf(before, offset) != wearOf(after, offset)) words.push_back(say("wear of offset {}", offset));
    }
    for (const int station : stations) {
        const WhatIf::Edge was = edgeOf(before, station), is = edgeOf(after, station);
        if (was.noseRadiusMm != is.noseRadiusMm) words.push_back(say("nose radius at station {}", station));
        if (was.centreHeightMm != is.centreHeightMm) words.push_back(say("centre height at station {}", station));
    }
}

void addPanelChanges(const WhatIf& before, const WhatIf& after, Words& words) {
    const auto add = [&](bool same, const char* what) {
        if (!same) words.emplace_back(tr(what));
    };
    const auto same = [](double a, double b) { return std::abs(a - b) < kSameShare; };
    add(same(before.feed, after.feed), later("feed override"));
    add(same(before.rapid, after.rapid), later("rapid override"));
    add(same(before.spindle, after.spindle), later("spindle override"));
    add(before.optionalStop == after.optionalStop, later("optional stop"));
    add(before.blockSkipLevels == after.blockSkipLevels, later("block skip"));
    add(before.dryRunMmPerMin == after.dryRunMmPerMin && before.dryRunClearMm == after.dryRunClearMm, later("dry run"));
}

void addMachineChanges(const WhatIf& before, const WhatIf& after, Words& words) {
    Words all;
    addOffsetAndToolChanges(before, after, all);
    if (before.datumZMm != after.datumZMm) all.emplace_back(tr("datum Z"));
    addPanelChanges(before, after, all);
    if (all.size() > 1) all = {tr("changes at the machine")};
    words.insert(words.end(), all.begin(), all.end());
}

void addBookmarkChanges(const std::vector<std::size_t>& before, const std::vector<std::size_t>& after, Words& words) {
    std::vector<std::size_t> lines;
    std::set_symmetric_difference(before.begin(), before.end(), after.begin(), after.end(), std::back_inserter(lines));
    if (lines.size() == 1) words.push_back(say("bookmark at line {}", lines.front() + 1));
    if (lines.size() > 1) words.emplace_back(tr("bookmarks"));
}

void addMistakeChange(const std::optional<Mistake>& before, const std::optional<Mistake>& after, Words& words) {
    if (before == after) return;
    words.push_back(say("mistake: {}", after ? after->told : before->told));
}

void forgetIn(ChangeHistory::Step& step, ChangeHistory::Part part) {
    using Part = ChangeHistory::Part;
    switch (part) {
        case Part::OffsetsAndTools:
            step.from.whatIf = step.from.whatIf.panel();
            step.to.whatIf = step.to.whatIf.panel();
            return;
        case Part::Mistake:
            step.from.mistake = step.to.mistake = std::nullopt;
            return;
        case Part::Measure:
            step.from.measure = step.to.measure = {kNoBody, kNoBody};
            return;
        case Part::Bookmarks:
            step.from.bookmarks = step.to.bookmarks = {};
            return;
        case Part::Loop:
            step.from.loop = step.to.loop = std::nullopt;
            return;
    }
}

}  // namespace

std::string changeInWords(const Choices& before, const Choices& after) {
    Words words;
    addMachineChanges(before.whatIf, after.whatIf, words);
    if (before.singleBlock != after.singleBlock) words.emplace_back(tr("single block"));
    addMistakeChange(before.mistake, after.mistake, words);
    if (before.measure != after.measure) words.emplace_back(tr("bodies chosen for measuring"));
    addBookmarkChanges(before.bookmarks, after.bookmarks, words);
    if (before.loop != after.loop) words.emplace_back(tr("stretch that is looped"));
    addViewChanges(before.view, after.view, words);
    std::string text;
    for (const std::string& one : words) {
        if (!text.empty()) text += ", ";
        text += one;
    }
    return text;
}

ViewSettings withChange(ViewSettings now, const ViewSettings& from, const ViewSettings& to) {
    eachOfView([&](const char*, auto member) {
        if (of(from, member) != of(to, member)) of(now, member) = of(to, member);
    });
    return now;
}

ViewSettings withoutAsked(ViewSettings now, const ViewSettings& asked, const ViewSettings& kept) {
    eachOfView([&](const char*, auto member) {
        if (of(now, member) == of(asked, member)) of(now, member) = of(kept, member);
    });
    if (now.findingsHeight == asked.findingsHeight) now.findingsHeight = kept.findingsHeight;
    return now;
}

void ChangeHistory::note(const Choices& before, const Choices& after, std::uint64_t gesture) {
    const std::string words = changeInWords(before, after);
    if (words.empty()) return;
    const bool goesOn = !done_.empty() && done_.back().gesture == gesture && undoWords() == words;
    if (!goesOn) {
        givenUp_ = std::exchange(undone_, {});
        done_.push_back({{before, after}, gesture});
        if (done_.size() > kMostSteps) done_.erase(done_.begin());
        return;
    }
    done_.back().step.to = after;
    if (!undoWords().empty()) return;
    done_.pop_back();
    undone_ = std::exchange(givenUp_, {});
}

std::string ChangeHistory::undoWords() const {
    return done_.empty() ? std::string() : changeInWords(done_.back().step.from, done_.back().step.to);
}

std::string ChangeHistory::redoWords() const {
    return undone_.empty() ? std::string() : changeInWords(undone_.back().step.from, undone_.back().step.to);
}

std::optional<ChangeHistory::Step> ChangeHistory::undo() {
    if (done_.empty()) return std::nullopt;
    undone_.push_back(std::move(done_.back()));
    done_.pop_back();
    if (!done_.empty()) done_.back().gesture = 0;
    return Step{undone_.back().step.to, undone_.back().step.from};
}

std::optional<ChangeHistory::Step> ChangeHistory::redo() {
    if (undone_.empty()) return std::nullopt;
    done_.push_back(std::move(undone_.back()));
    undone_.pop_back();
    done_.back().gesture = 0;
    return done_.back().step;
}

template <class Change>
void ChangeHistory::changeSteps(const Change& change) {
    for (std::vector<Kept>* steps : {&done_, &undone_, &givenUp_}) {
        for (Kept& kept : *steps) change(kept.step);
        std::erase_if(*steps, [](const Kept& kept) { return changeInWords(kept.step.from, kept.step.to).empty(); });
    }
}

void ChangeHistory::forget(std::initializer_list<Part> parts) {
    changeSteps([&](Step& step) {
        for (const Part part : parts) forgetIn(step, part);
    });
}

void ChangeHistory::followLines(const LineShift& shift) {
    if (shift.empty()) return;
    changeSteps([&](Step& step) {
        for (Choices* choices : {&step.from, &step.to}) choices->bookmarks = shift.now(choices->bookmarks);
    });
}

}  // namespace firstoff::gui
