#include "sim/stock/batch_cutter.h"

#include <algorithm>
#include <optional>

#include "sim/stock/hold.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kMovesPerPart = 256;
constexpr std::uint32_t kTooFewToShare = 16;  // waking the others would take longer
constexpr int kSlabColumns = kSlabChunks * kChunkColumns;

// Measured on one core of the machine this was written on; only their ratio matters much.
constexpr double kProfileEffort = 300;
constexpr double kChunkEffort = 60;

}  // namespace

void BatchCutter::makePart(const Billet& billet, std::uint32_t first, std::uint32_t end, bool holders,
                           Part& part) const {
    part.profiles.clear();
    part.branches.clear();
    part.stamps.clear();
    part.roles.clear();
    part.slabs.clear();
    for (std::uint32_t move = first; move < end; ++move) {
        if (!plan_.mayCut(move)) continue;
        const Sweep sweep = plan_.sweep(move);
        const SpindleTurns* turns = plan_.turns(move);
        for (const ToolShape& shape : plan_.shapes(move)) {
            appendProfiles(sweep, shape, billet.grid(), move, part.profiles, part.branches);
        }
        part.roles.resize(part.profiles.size(), plan_.inThread(move) ? Role::Measures : Role::Cuts);
        for (const ToolShape& shape : plan_.teeth(move)) {
            appendStamps(sweep, *turns, shape, billet.grid(), billet.sectors(), move, part.profiles, part.branches,
                         part.stamps);
        }
        part.roles.resize(part.profiles.size(), Role::Cuts);
        if (!holders) continue;
        appendProfiles(sweep, plan_.holder(move), billet.grid(), move, part.profiles, part.branches);
        part.roles.resize(part.profiles.size(), Role::Holder);
    }
    for (const SweepProfile& profile : part.profiles) {
        part.slabs.push_back({profile.firstColumn / kSlabColumns, profile.lastColumn / kSlabColumns});
    }
}

void BatchCutter::makeProfiles(const Billet& billet, std::uint32_t first, std::uint32_t end, bool holders) {
    partCount_ = (end - first + kMovesPerPart - 1) / kMovesPerPart;
    if (parts_.size() < partCount_) parts_.resize(partCount_);
    team_.share(static_cast<int>(partCount_), [&](int i) {
        const std::uint32_t from = first + static_cast<std::uint32_t>(i) * kMovesPerPart;
        makePart(billet, from, std::min(from + kMovesPerPart, end), holders, parts_[static_cast<std::size_t>(i)]);
    });
    firstSlab_ = billet.grid().slabs();
    lastSlab_ = -1;
    for (std::size_t i = 0; i < partCount_; ++i) {
        for (const SlabSpan& span : parts_[i].slabs) {
            firstSlab_ = std::min(firstSlab_, span.first);
            lastSlab_ = std::max(lastSlab_, span.last);
        }
    }
}

void BatchCutter::cutSlab(Billet& billet, int slab, const Wanted& wanted, SlabReport& report) const {
    report.shares.clear();
    report.touches.clear();
    report.loosened.clear();
    report.first.clear();
    report.last.clear();
    const int firstColumn = slab * kSlabColumns;
    SlabCutter cutter;
    for (std::size_t p = 0; p < partCount_; ++p) {
        const Part& part = parts_[p];
        const SweepParts made{part.branches.data(), part.stamps.data()};
        for (std::size_t i = 0; i < part.profiles.size(); ++i) {
            if (part.slabs[i].first > slab || part.slabs[i].last < slab) continue;
            const SweepProfile& profile = part.profiles[i];
            if (part.roles[i] != Role::Cuts) {
                // A pass of a thread is measured in what would be there without the thread.
                const auto of = part.roles[i] == Role::Holder ? SlabCutter::Of::Metal : SlabCutter::Of::Envelope;
                const CutSum touch = cutter.touch(billet, slab, profile, made, of);
                if (touch.deepestMm <= 0) continue;
                if (part.roles[i] == Role::Holder) report.touches.push_back({profile.cut, touch.deepestMm});
                if (part.roles[i] == Role::Measures && wanted.sums) report.shares.push_back({profile.cut, touch});
                continue;
            }
            CutSum sum;
            if (!cutter.cut(billet, slab, profile, made, sum)) continue;
            if (wanted.sums) report.shares.push_back({profile.cut, sum});
            if (!wanted.loosened) continue;
            if (cutter.mayHaveLoosened() || slab >= unsoundFrom_) report.loosened.push_back(profile.cut);
            if (cutter.firstColumnCut()) report.first.note(profile.cut, billet, firstColumn);
            if (cutter.lastColumnCut()) report.last.note(profile.cut, billet, firstColumn + kSlabColumns - 1);
        }
    }
    report.visited = cutter.chunksVisited();
}

void BatchCutter::cut(Billet& billet, std::uint32_t first, std::uint32_t end, const Wanted& wanted) {
    makeProfiles(billet, first, end, wanted.holderTouch);
    const int slabs = std::max(0, lastSlab_ - firstSlab_ + 1);
    if (reports_.size() < static_cast<std::size_t>(slabs)) reports_.resize(static_cast<std::size_t>(slabs));
    std::optional<Billet> before;
    if (wanted.loosened) before = billet;
    if (wanted.loosened) unsoundFrom_ = firstUnsoundSlab(billet);
    const auto work = [&](int i) { cutSlab(billet, firstSlab_ + i, wanted, reports_[static_cast<std::size_t>(i)]); };
    if (end - first < kTooFewToShare) {
        for (int i = 0; i < slabs; ++i) work(i);
    } else {
        team_.share(slabs, work);
    }
    gather(before ? *before : billet, first, end, wanted);
}

void BatchCutter::gather(const Billet& before, std::uint32_t first, std::uint32_t end, const Wanted& wanted) {
    effort_ = 0;
    visited_ = 0;
    for (std::size_t p = 0; p < partCount_; ++p) {
        effort_ += kProfileEffort * static_cast<double>(parts_[p].profiles.size());
    }
    loosened_.clear();
    sums_.assign(wanted.sums ? end - first : 0, {});
    touches_.assign(wanted.holderTouch ? end - first : 0, 0);
    const std::size_t slabs = static_cast<std::size_t>(std::max(0, lastSlab_ - firstSlab_ + 1));
    for (std::size_t i = 0; i < slabs; ++i) {
        const SlabReport& report = reports_[i];
        effort_ += kChunkEffort * static_cast<double>(report.visited);
        visited_ += report.visited;
        for (const Share& share : report.shares) sums_[share.move - first].add(share.sum);
        for (const Touch& touch : report.touches) {
            touches_[touch.move - first] = std::max(touches_[touch.move - first], touch.depth);
        }
        if (!wanted.loosened) continue;
        loosened_.insert(loosened_.end(), report.loosened.begin(), report.loosened.end());
        const int border = (firstSlab_ + static_cast<int>(i)) * kSlabColumns;
        static const EdgeNotes kNothing;
        if (border > 0)
            appendLoosened(before, border, i > 0 ? reports_[i - 1].last : kNothing, report.first, loosened_);
        if (i + 1 == slabs && border + kSlabColumns < before.grid().columns) {
            appendLoosened(before, border + kSlabColumns, report.last, kNothing, loosened_);
        }
    }
    std::sort(loosened_.begin(), loosened_.end());
    loosened_.erase(std::unique(loosened_.begin(), loosened_.end()), loosened_.end());
}

}  // namespace firstoff
