// Cuts a run of moves into a billet: slab by slab, each slab in the order of the moves, slabs shared out among workers.
// Sums per move are put together in the order of slabs, so that nothing depends on who did what when.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/stock/billet_columns.h"
#include "sim/stock/cut_plan.h"
#include "sim/stock/edge_watch.h"
#include "sim/stock/slab_cutter.h"
#include "sim/stock/sweep_profile.h"
#include "sim/stock/worker_team.h"

namespace firstoff {

class BatchCutter {
public:
    struct Wanted {
        bool sums = true;          // what each move removed
        bool loosened = true;      // after which moves something may have come loose
        bool holderTouch = false;  // how deep each move's holder gets into the metal
    };
    BatchCutter(const CutPlan& plan, WorkerTeam& team) : plan_(plan), team_(team) {}

    // Cuts moves `first` to `end` - 1.
    void cut(Billet& billet, std::uint32_t first, std::uint32_t end, const Wanted& wanted);

    // Of the last cut(), if wanted. Indexed from its first move.
    const std::vector<CutSum>& sums() const { return sums_; }
    const std::vector<double>& holderTouches() const { return touches_; }
    // Moves after which something may have come loose, in order; what follows the first of them holds only if nothing
    // did.
    const std::vector<std::uint32_t>& loosened() const { return loosened_; }
    // A measure of the time the last cut() took, in nanoseconds of one ordinary core; the same on every machine.
    double effort() const { return effort_; }

private:
    struct SlabSpan {
        int first, last;
    };
    enum class Role : std::uint8_t {
        Cuts,
        Measures,  // takes nothing: how deep it is in metal counts as the cut's figure
        Holder,
    };
    // Profiles of some of the moves, in order.
    struct Part {
        std::vector<SweepProfile> profiles;
        std::vector<Branch> branches;
        std::vector<StampRun> stamps;
        std::vector<Role> roles;
        std::vector<SlabSpan> slabs;  // that each profile may meet; apart, since every slab looks through all of them
    };
    struct Share {
        std::uint32_t move = 0;
        CutSum sum;
    };
    struct Touch {
        std::uint32_t move = 0;
        double depth = 0;
    };
    struct SlabReport {
        std::vector<Share> shares;
        std::vector<Touch> touches;
        std::vector<std::uint32_t> loosened;
        EdgeNotes first, last;
        std::uint64_t visited = 0;
    };
    void makeProfiles(const Billet& billet, std::uint32_t first, std::uint32_t end, bool holders);
    void makePart(const Billet& billet, std::uint32_t first, std::uint32_t end, bool holders, Part& part) const;
    void cutSlab(Billet& billet, int slab, const Wanted& wanted, SlabReport& report) const;
    void gather(const Billet& before, std::uint32_t first, std::uint32_t end, const Wanted& wanted);

    const CutPlan& plan_;
    WorkerTeam& team_;
    std::vector<Part> parts_;
    std::size_t partCount_ = 0;
    std::vector<SlabReport> reports_;
    int firstSlab_ = 0, lastSlab_ = -1;
    int unsoundFrom_ = 0;  // cuts in this slab and after it may loosen what hangs on from its right
    std::vector<CutSum> sums_;
    std::vector<double> touches_;
    std::vector<std::uint32_t> loosened_;
    double effort_ = 0;
};

}  // namespace firstoff
