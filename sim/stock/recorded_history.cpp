// Moves are cut in batches. If something may have come loose within a batch, the batch is cut again from its start up
// to the first move in question, and what hangs loose then is taken out: so a piece falls at the very move that severs
// it, and later moves no longer see it.
#include "sim/stock/recorded_history.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <optional>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/stock/blank.h"
#include "sim/stock/left_over.h"
#include "sim/stock/loose_pieces.h"
#include "sim/stock/section.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kShortestBatch = 4;
constexpr std::uint32_t kLongestBatch = 2048;

// Keyframes stand this much work apart, so that a seek has no more than that to cut again. A frame of a 60 Hz picture
// is 16.7 ms; half of it is left for everything else, and again half for slower machines.
constexpr double kKeyframeEffort = 2e6;

// Before and after a thread, and where a piece falls, much is asked about: there a frame is worth this share of that.
constexpr double kShareAtTurns = 0.1;

// A loose piece smaller than this goes with the chips: the tip of a pip, a burr between two grooves. A cube of 0.5 mm.
constexpr double kChipMm3 = 0.125;

// Chunks that a short move is looked at closely in, roughly.
constexpr double kShortMoveChunks = 8;

std::uint64_t mixed(std::uint64_t hash, std::uint64_t value) {
    hash = (hash ^ value) * 0x9e3779b97f4a7c15u;
    return hash ^ (hash >> 29);
}

}  // namespace

// Whether the thread of a move begins or ends there.
bool RecordedHistory::threadTurns(std::uint32_t move) const {
    return move > 0 && move < plan_.moves() && plan_.inThread(move) != plan_.inThread(move - 1);
}

// A batch ends where a keyframe might be due: where a thread begins or ends, else judged by how far its moves travel
// along z.
std::uint32_t RecordedHistory::batchEnd(std::uint32_t first, double pitch) const {
    constexpr double kNsPerChunk = 60;
    double effort = 0;
    std::uint32_t move = first;
    while (move < plan_.moves() && move - first < longest_ && effort < kKeyframeEffort) {
        if (move > first && threadTurns(move)) break;
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

// Takes what is loose after `move` out of the billet. What is as small as a chip counts as removed by the move.
void RecordedHistory::dropLoose(Billet& billet, std::uint32_t move) {
    std::vector<LoosePiece> pieces = takeLoose(billet, plan_.heldZ());
    if (pieces.empty()) return;
    falls_.push_back(move);
    for (LoosePiece& piece : pieces) {
        if (piece.volumeMm3 < kChipMm3) {
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
}

// Cuts moves `first` to `end` - 1, or only up to the first after which something may have come loose. Returns where it
// got to.
std::uint32_t RecordedHistory::cutBatch(Billet& billet, BatchCutter& cutter, std::uint32_t first, std::uint32_t end) {
    const Billet before = billet;
    cutter.cut(billet, first, end, wanted_);
    effort_ += cutter.effort();
    std::optional<std::uint32_t> question;
    if (!cutter.loosened().empty()) {
        question = cutter.loosened().front();
        if (*question + 1 < end) {
            end = *question + 1;
            billet = before;
            cutter.cut(billet, first, end, wanted_);
        }
    }
    keepFigures(cutter, first, billet.grid().pitch);
    if (question) dropLoose(billet, *question);
    // After a question more may follow soon; while there are none, batches grow.
    longest_ = question ? kShortestBatch : std::min(2 * longest_, kLongestBatch);
    return end;
}

// Sectors for the threads of the plan: fewer where very long threads would take more memory than this. Every one of
// them is exact; how many there are decides how round the thread looks and how closely its volume is known.
int RecordedHistory::sectorsFor(int wanted, const Stock& stock, double pitchMm) const {
    constexpr double kMostBytes = 192e6;
    constexpr int kFewest = 32;
    const double pitch = pitchMm > 0 ? pitchMm : pitchFor(stock);
    const double perSector = plan_.threadedLength() / (pitch * kChunkColumns) * sizeof(Chunk);
    int sectors = wanted > 1 ? wanted : kThreadSectors;
    while (sectors > kFewest && sectors % 2 == 0 && sectors * perSector > kMostBytes) sectors /= 2;
    return sectors;
}

bool RecordedHistory::record(const Setup& setup, const HistoryOptions& options) {
    const std::optional<Billet> before = options.previous && setup.stock.shape == Stock::Shape::Previous
                                             ? billetLeft(options.previous, setup.stock.piece)
                                             : std::nullopt;
    std::optional<LeftOver> left;
    if (before) left.emplace(columnsOf(*before), setup.stock.turnedRound, setup.stock.frontZ, setup.stock.eccentricity);
    const int wanted = left ? left->sectors() : wantedSectors(setup.stock);
    const int sectors = options.sectors > 0 ? options.sectors : sectorsFor(wanted, setup.stock, options.pitchMm);
    Billet billet(setup.stock, options.pitchMm, sectors, left ? &*left : nullptr);
    const double pitch = billet.grid().pitch;
    startVolume_ = billet.volumeMm3();
    cuts_.assign(plan_.moves(), {});
    longest_ = kLongestBatch;
    wanted_ = {true, true, options.holderTouch};
    if (options.holderTouch) holderTouches_.assign(plan_.moves(), 0);
    WorkerTeam team(options.threads);
    BatchCutter cutter(plan_, team);
    keyframes_.add(0, false, billet);
    bool threaded = false;
    double spacing = kKeyframeEffort;
    std::uint32_t at = 0;
    while (at < plan_.moves()) {
        if (options.stop.stop_requested()) return false;
        const std::size_t fallen = falls_.size();
        threaded = threaded || plan_.inThread(at);  // threads begin batches
        at = cutBatch(billet, cutter, at, batchEnd(at, pitch));
        const double due = falls_.size() > fallen || threadTurns(at) ? kShareAtTurns * spacing : spacing;
        if (effort_ >= due || at == plan_.moves()) {
            if (keyframes_.add(at, threaded, billet)) spacing *= 2;
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
