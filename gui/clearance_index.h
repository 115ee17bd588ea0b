// What the window wants to know quickly about how near things come, in a trial of any length. Made once per trial, on
// the worker; then only read.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "sim/trial/trial.h"

namespace firstoff::gui {

class ClearanceIndex {
public:
    explicit ClearanceIndex(const Trial& trial);

    // False where no clearances were measured.
    bool known() const { return !levels_.empty(); }
    // The timed move of [first, last) with the smallest gap, the earliest of equals. Asserts known() and that there is
    // one.
    std::size_t nearest(std::size_t first, std::size_t last) const;
    // Of the whole program; nothing where nothing can be hit.
    std::optional<std::size_t> nearest() const { return nearest_; }

    // What is to be shown while timed move `timedMove` is at `timeS`: a contact from its first touch to the end of the
    // move; one of an earlier move that lasts on, with the place where they touch in this one; else a near miss about
    // the time of its closest approach.
    std::optional<Encounter> inForce(std::size_t timedMove, double timeS) const;
    // First encounter at or after a time, for drawing.
    std::size_t firstEncounterFrom(double timeS) const;
    const std::vector<Encounter>& encounters() const { return encounters_; }

private:
    std::size_t better(std::size_t a, std::size_t b) const;
    std::optional<Encounter> contactAt(std::size_t timedMove, double timeS) const;
    std::optional<Encounter> nearMissAbout(double timeS) const;

    std::vector<Clearance> perMove_;
    std::vector<std::vector<std::uint32_t>> levels_;  // of each group of moves the one with the smallest gap
    std::optional<std::size_t> nearest_;
    std::vector<Encounter> encounters_;  // as in the trial, in order of time
    std::vector<std::size_t> byMove_;    // indices of them, in order of timed move, then time
};

}  // namespace firstoff::gui
