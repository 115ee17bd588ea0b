// Billets kept at some of the moves, as many as a number of bytes allows.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/stock/billet_columns.h"

namespace firstoff {

class Keyframes {
public:
    explicit Keyframes(std::size_t byteBudget) : budget_(byteBudget) {}

    struct Frame {
        std::uint32_t move = 0;  // whole moves cut
        bool threaded = false;   // passes of threads among them
        Billet billet;
    };
    // `move` grows from call to call. The first frame (the bar as chucked) always stays. True if frames had to be
    // dropped: the next ones should stand twice as far apart.
    bool add(std::uint32_t move, bool threaded, const Billet& billet);

    // The last frame at or before `move`.
    const Frame& at(std::uint32_t move) const;
    // For those who leave threads out: from a frame with a thread every cut is one in all sectors, so that the last one
    // without is better, unless it lies far before `move`.
    const Frame& withoutThreadsAt(std::uint32_t move) const;
    std::size_t count() const { return frames_.size(); }
    // Of chunks, counting once what frames share.
    std::size_t bytes() const { return bytes_; }

private:
    std::size_t ownBytes(std::size_t frame) const;
    void dropEveryOther();

    std::size_t budget_;
    std::size_t bytes_ = 0;
    std::vector<Frame> frames_;
};

}  // namespace firstoff
