// The history as it is recorded: what StockHistory promises and what its cursors need besides.
#pragma once

#include <vector>

#include "sim/stock/batch_cutter.h"
#include "sim/stock/cut_plan.h"
#include "sim/stock/history.h"
#include "sim/stock/keyframes.h"

namespace firstoff {

class RecordedHistory final : public StockHistory {
public:
    RecordedHistory(CutPlan plan, std::size_t keyframeBytes) : plan_(std::move(plan)), keyframes_(keyframeBytes) {}

    // Cuts everything; false if stopped.
    bool record(const Setup& setup, const HistoryOptions& options);

    const std::vector<Cut>& cuts() const override { return cuts_; }
    const std::vector<float>& holderTouches() const override { return holderTouches_; }
    const std::vector<Severance>& severances() const override { return severances_; }
    double startVolumeMm3() const override { return startVolume_; }
    double endVolumeMm3() const override { return endVolume_; }
    std::uint64_t hash() const override { return hash_; }
    std::size_t keyframeCount() const override { return keyframes_.count(); }
    std::size_t bytes() const override;

    const CutPlan& plan() const { return plan_; }
    const Keyframes& keyframes() const { return keyframes_; }
    // Billet of a piece that fell, by index into severances().
    const Billet& piece(std::size_t index) const { return pieces_[index]; }
    // Moves after which something had to be taken out of the billet as loose, in order.
    const std::vector<std::uint32_t>& falls() const { return falls_; }

private:
    int sectorsFor(int wanted, const Stock& stock, double pitchMm) const;
    bool threadTurns(std::uint32_t move) const;
    std::uint32_t batchEnd(std::uint32_t first, double pitch) const;
    std::uint32_t cutBatch(Billet& billet, BatchCutter& cutter, std::uint32_t first, std::uint32_t end);
    void keepFigures(const BatchCutter& cutter, std::uint32_t first, double pitch);
    void dropLoose(Billet& billet, std::uint32_t move);
    std::uint64_t figuresHash(std::uint64_t billetHash) const;

    CutPlan plan_;
    Keyframes keyframes_;
    std::vector<Billet> pieces_;
    std::vector<std::uint32_t> falls_;
    std::vector<Cut> cuts_;
    std::vector<float> holderTouches_;
    std::vector<Severance> severances_;
    BatchCutter::Wanted wanted_;
    std::uint32_t longest_ = 0;  // moves in a batch, at most
    double effort_ = 0;
    double startVolume_ = 0, endVolume_ = 0;
    std::uint64_t hash_ = 0;
};

}  // namespace firstoff
