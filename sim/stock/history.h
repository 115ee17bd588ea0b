// The billet through the whole program: start, moves and keyframes, so that any instant can be had.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <stop_token>
#include <vector>

#include "sim/base/finding.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/billet.h"

namespace firstoff {

class Billet;  // the columns; see billet_columns.h
class StockHistory;

struct HistoryOptions {
    int threads = 0;                                     // 0: what the machine has; results do not depend on it
    std::size_t keyframeBytes = std::size_t{256} << 20;  // when reached, every other keyframe is dropped
    double pitchMm = 0;                                  // 0: 0.002, coarser only for stock over 300 mm
    int sectors = 0;                                     // 0: 256, fewer where threads are very long
    bool holderTouch = false;                            // also see how deep each move's holder gets into the metal
    std::shared_ptr<const StockHistory> previous;        // what Stock::Shape::Previous is left by
    std::function<void(double)> progress;                // 0…1
    std::stop_token stop;
};

// What one timed move did to the billet.
struct Cut {
    float removedMm3 = 0;
    float deepestMm =
        0;          // of the moves of a thread: how deep the tool stands in what would be there without the thread
    float atZ = 0;  // lathe frame, where the deepest was
};

// A piece that came loose from what is held.
struct Severance {
    std::uint32_t timedMove = 0;  // it fell at the end of this one
    int piece = 1;                // 1, 2, …
    std::vector<Loop> section;    // its half-section as it fell, lathe frame
    double volumeMm3 = 0;
};

// Immutable once made. Holds references to nothing: everything it needs is copied or shared inside.
class StockHistory {
public:
    // Cuts the whole timeline. Null only if `options.stop` asked for it.
    static std::shared_ptr<const StockHistory> cut(const Timeline& timeline, const Toolpath& toolpath,
                                                   const Setup& setup, const HistoryOptions& options = {});
    virtual ~StockHistory() = default;

    virtual const std::vector<Cut>& cuts() const = 0;  // per timed move
    // Per timed move how deep, radially, the tool's holder got into the metal left by that move, mm; 0 when clear.
    // Empty unless `options.holderTouch` asked for it.
    virtual const std::vector<float>& holderTouches() const = 0;
    virtual const std::vector<Severance>& severances() const = 0;
    virtual double startVolumeMm3() const = 0;
    virtual double endVolumeMm3() const = 0;  // of what is still held; pieces that fell are in severances()
    virtual std::uint64_t hash() const = 0;   // of the final billet and of every cut; same for any thread count
    virtual std::size_t keyframeCount() const = 0;
    virtual std::size_t bytes() const = 0;  // of keyframes, path and figures
};

// A place in the history, with the billet as it is there. One per viewer; moves freely forwards and backwards.
// Keeps the history and what it was cut from alive.
class StockCursor {
public:
    // What is wanted of the billet: all of it; or its envelope alone, for those who keep clear of it. Threads hardly
    // change that and take long, so that they are left out: the crests they take down stay.
    enum class Detail : std::uint8_t { Sectors, Envelope };
    StockCursor(std::shared_ptr<const StockHistory> history, Detail detail = Detail::Sectors);
    ~StockCursor();
    StockCursor(StockCursor&&) noexcept;
    StockCursor& operator=(StockCursor&&) noexcept;

    // Billet after `wholeMoves` timed moves have been cut entirely and the next one up to `fraction` of its length.
    void seek(std::uint32_t wholeMoves, double fraction);

    // Half-section of what is held (piece 0) and of what has fallen so far, in one sector (see billet_columns.h) or the
    // envelope.
    std::vector<Loop> section() const;
    // The same, reduced to `toleranceMm`, for drawing.
    std::vector<Loop> section(double toleranceMm, int sector = 0) const;
    // The same with its true arcs and corners, see exact_section.h.
    std::vector<SectionContour> contours(int sector = 0) const;
    double volumeMm3() const;
    std::uint64_t hash() const;
    // Greatest outside radius of the solid at z (lathe frame), and the inner radius of its innermost interval; 0, 0
    // where there is nothing.
    Interval outermostAt(double z) const;
    // The columns themselves as they are here; valid until the next seek.
    const Billet& billet() const;

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace firstoff
