// Moves are cut in batches. After a batch that left metal without hold on its left, the batch is cut again from its
// start, up to each of the moves in question in turn, and what hangs loose then is taken out: so a piece falls at the
// very move that severs it, and later moves no longer see it.
#include "sim/stock/recorded_history.h"

#include <algorithm>
#include <bit>
#include <cmath>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/stock/loose_pieces.h"
#include "sim/stock/section.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kLongestBatch = 2048;

// Keyframes stand this much work apart, so that a seek has no more than that to cut again. A frame of a 60 Hz picture
// is 16.7 ms; half of it is left for everything else, and again half for slower machines.
constexpr double kKeyframeEffort = 4e6;

// Chunks that a short move is looked at closely in, roughly.
constexpr double kShortMoveChunks = 8;

std::uint64_t mixed(std::uint64_t hash, std::uint64_t value) {
    hash = (hash ^ value) * 0x9e3779b97f4a7c15u;
    return hash ^ (hash >> 29);
}

}  // namespace

// A batch ends where a keyframe might be due, judged by how far its moves travel along z.
std::uint32_t RecordedHistory::batchEnd(std::uint32_t first, double pitch) const {
    constexpr double kNsPerChunk = 60;
    double effort = 0;
    std::uint32_t move = first;
    while (move < plan_.moves() && move - first < kLongestBatch && effort < kKeyframeEffort) {
        if (plan_.mayCut(move)) {
            const Sweep sweep = plan_.sweep(move);
            effort += kNsPerChunk * (kShortMoveChunks + std::abs(sweep.to.z - sweep.from.z) / (pitch * kChunkColumns));
        }
        ++move;
    }
    return move;
}

void RecordedHistory::keepFigures(const BatchCutter& cutter, std::uint32_t first, double pitch) {
    const double volumePerArea = kPi * pitch;
    for (std::size_t i = 0; i < cutter.sums().size(); ++i) {
        const CutSum& sum = cutter.sums()[i];
        cuts_[first + i] = {static_cast<float>(sum.area * volumePerArea), static_cast<float>(sum.deepestMm),
                            static_cast<float>(sum.atZ)};
    }
    for (std::size_t i = 0; i < cutter.holderTouches().size(); ++i) {
        holderTouches_[first + i] = static_cast<float>(cutter.holderTouches()[i]);
    }
}

// Takes what is loose after `move` out of the billet. Chips thinner than a touch are swarf and count as removed by the
// move.
bool RecordedHistory::dropLoose(Billet& billet, std::uint32_t move) {
    std::vector<LoosePiece> pieces = takeLoose(billet, plan_.heldZ());
    if (pieces.empty()) return false;
    falls_.push_back(move);
    for (LoosePiece& piece : pieces) {
        if (piece.thickestMm < tolerance::kTouchMm) {
            cuts_[move].removedMm3 += static_cast<float>(piece.volumeMm3);
            continue;
        }
        Severance severance;
        severance.timedMove = move;
        severance.piece = static_cast<int>(severances_.size()) + 1;
        severance.section = sectionLoops(piece.billet, tolerance::kSectionMm, severance.piece, plan_.tools());
        severance.volumeMm3 = piece.volumeMm3;
        severances_.push_back(std::move(severance));
        pieces_.push_back(std::move(piece.billet));
    }
    return true;
}

// Cuts moves `first` to `end` - 1, or only up to the first move that severs something. Returns where it got to.
std::uint32_t RecordedHistory::cutBatch(Billet& billet, BatchCutter& cutter, std::uint32_t first, std::uint32_t end) {
    const double pitch = billet.grid().pitch;
    const Billet before = billet;
    cutter.cut(billet, first, end, wanted_);
    effort_ += cutter.effort();
    if (cutter.loosened().empty()) {
        keepFigures(cutter, first, pitch);
        return end;
    }
    const std::vector<std::uint32_t> questions = cutter.loosened();
    const bool wholeBatch = questions.size() == 1 && questions.front() + 1 == end;
    if (!wholeBatch) billet = before;
    std::uint32_t done = first;
    for (std::uint32_t move : questions) {
        if (!wholeBatch) cutter.cut(billet, done, move + 1, wanted_);
        keepFigures(cutter, done, pitch);
        done = move + 1;
        if (dropLoose(billet, move)) return done;
    }
    if (done < end) {
        cutter.cut(billet, done, end, wanted_);
        keepFigures(cutter, done, pitch);
    }
    return end;
}

bool RecordedHistory::record(const Setup& setup, const HistoryOptions& options) {
    Billet billet(setup.stock, options.pitchMm);
    const double pitch = billet.grid().pitch;
    startVolume_ = billet.volumeMm3();
    cuts_.assign(plan_.moves(), {});
    wanted_ = {true, true, options.holderTouch};
    if (options.holderTouch) holderTouches_.assign(plan_.moves(), 0);
    WorkerTeam team(options.threads);
    BatchCutter cutter(plan_, team);
    keyframes_.add(0, billet);
    double spacing = kKeyframeEffort;
    std::uint32_t at = 0;
    while (at < plan_.moves()) {
        if (options.stop.stop_requested()) return false;
        at = cutBatch(billet, cutter, at, batchEnd(at, pitch));
        if (effort_ >= spacing || at == plan_.moves()) {
            if (keyframes_.add(at, billet)) spacing *= 2;
            effort_ = 0;
        }
        if (options.progress) options.progress(static_cast<double>(at) / plan_.moves());
    }
    endVolume_ = billet.volumeMm3();
    hash_ = figuresHash(billet.hash());
    return true;
}

std::uint64_t RecordedHistory::figuresHash(std::uint64_t billetHash) const {
    std::uint64_t h = billetHash;
    const auto take = [&h](float value) { h = mixed(h, std::bit_cast<std::uint32_t>(value + 0.0F)); };
    for (const Cut& cut : cuts_) {
        take(cut.removedMm3);
        take(cut.deepestMm);
        take(cut.atZ);
    }
    for (float touch : holderTouches_) take(touch);
    for (std::size_t i = 0; i < severances_.size(); ++i) {
        h = mixed(h, severances_[i].timedMove);
        h = mixed(h, pieces_[i].hash());
    }
    return h;
}

std::size_t RecordedHistory::bytes() const {
    return plan_.bytes() + keyframes_.bytes() + cuts_.capacity() * sizeof(Cut) +
           holderTouches_.capacity() * sizeof(float);
}

std::shared_ptr<const StockHistory> StockHistory::cut(const Timeline& timeline, const Toolpath& toolpath,
                                                      const Setup& setup, const HistoryOptions& options) {
    auto history = std::make_shared<RecordedHistory>(CutPlan(timeline, toolpath, setup), options.keyframeBytes);
    if (!history->record(setup, options)) return nullptr;
    return history;
}

}  // namespace firstoff
