// Takes the moves of the control in order and writes them into a toolpath.
//
// Most moves pass straight through. Three things need to know what comes next: a corner (`,C ,R`) waits for the next
// move, a line by its angle alone for the point where the next line crosses it, and nose-radius compensation for the
// whole stretch from its start-up move to its cancel move. While something waits, moves, steps and stops are kept in a
// queue, so that they come out in their order, each with its own block.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "sim/control/compensation_remarks.h"
#include "sim/control/corner.h"
#include "sim/control/nose_compensation.h"
#include "sim/control/remarks.h"
#include "sim/control/toolpath.h"

namespace firstoff {

class PathRecorder {
public:
    // Writes into `out`; positions are turret reference positions, as in Move.
    PathRecorder(Toolpath& out, Remarks& remarks, Point start)
        : out_(out), remarks_(remarks), rest_(start), programmed_(start) {}

    void beginStep(BlockId block);
    // From now on steps are shown at `call`, the block that called a program of another file; kNoBlock: at their own.
    void setShown(BlockId call) { shown_ = call; }
    void stop(ProgramStop::Kind kind, BlockId block);
    // A move as programmed. It begins where the one before ended; moves of no length are left out.
    void add(const Move& move);
    // A dwell during which something else than the turret moves or grips.
    void addWithAction(const Move& dwell, MachineAction action);
    // A move with a corner at its end.
    void addWithCorner(const Move& move, const CornerWish& wish, const Word* word);
    // A straight move whose end is not known yet, perhaps with a corner there. Before any other movement comes
    // closeLine() or dropLine().
    void openLine(const Move& move, const std::optional<CornerWish>& wish, const Word* word);
    void closeLine(Point end);
    void dropLine();

    // From the next movement on the path is compensated.
    void startCompensation(const CompensationOrder& order);
    // From the next movement on the tool stands on the other side.
    void changeSide(const CompensationOrder& order);
    // The next movement leads off the compensated path.
    void cancelCompensation();
    // Leads off the compensated path with this move, and on to it again with the next.
    void addBetweenPaths(const Move& move);
    bool compensating() const { return order_.has_value(); }
    bool cancelling() const { return cancelling_; }

    // Writes out all that waits and says where the turret then stands. A corner without a next move is reported; a
    // compensated path that was not cancelled stays at its offset position.
    Point settle();

private:
    struct Item {
        enum class Kind : std::uint8_t { Move, Step, Stop };
        Move move;  // of a step or stop: its block only, and as its cycle's block the one shown
        Kind kind = Kind::Move;
        ProgramStop::Kind stop = ProgramStop::Kind::Stop;
        bool changesSide = false;                    // of a move
        MachineAction action = MachineAction::None;  // of a dwell
    };
    struct OpenCorner {
        std::size_t item = 0;  // into queue_: the move that ends in the corner
        CornerWish wish;
        const Word* word = nullptr;
    };

    struct OpenLine {
        std::size_t item = 0;  // into queue_: the move without an end
        std::optional<CornerWish> wish;
        const Word* word = nullptr;
    };

    bool waiting() const { return order_.has_value() || corner_.has_value() || line_.has_value(); }
    bool isIdle();
    std::vector<Item> takeFromLine();
    void putBack(const std::vector<Item>& items);
    bool begin(Move& move);
    void put(const Move& move, MachineAction action = MachineAction::None);
    void writeMove(const Move& move, MachineAction action);
    void resolveCorner(Move& next);
    void reportCorner(const CornerFit& fit, const Move& first, const Move* next, const OpenCorner& corner);
    void flush(bool cancelled);
    void writeQueue();
    void writeCompensated(const std::vector<PathElement>& path);
    void write(const Item& item);
    void refuseThread(const Move& thread);
    void reportStandstill(bool cancelled);

    Toolpath& out_;
    Remarks& remarks_;
    BlockId shown_ = kNoBlock;
    std::size_t idleSteps_ = 0;  // steps that made no movement
    Point rest_;                 // where the last written move ended
    Point programmed_;           // where the last added move ends, as programmed
    std::vector<Item> queue_;
    std::optional<OpenCorner> corner_;
    std::optional<OpenLine> line_;
    std::optional<CompensationOrder> order_;   // as compensation was switched on
    std::optional<CompensationOrder> latest_;  // the same, or the last change of side
    bool cancelling_ = false;
    bool sideChanges_ = false;  // with the next movement
};

// Whether a move goes along a path, and not only takes time.
bool isMovement(MoveKind kind);

}  // namespace firstoff
