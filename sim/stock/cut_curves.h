// The curves that a cut left its surfaces on: straight strips, noses where a move began or ended, and the arcs that a
// nose draws along an arc. They are those by which the columns were cut (sweep_profile.h), so a column that a cut left
// lies on one of them to its last bits.
#pragma once

#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <vector>

#include "sim/stock/cut_plan.h"
#include "sim/stock/grid.h"
#include "sim/stock/sweep_profile.h"

namespace firstoff {

// r over z: a line, or half a circle.
struct SideCurve {
    enum class Kind : std::uint8_t { Line, LowerHalf, UpperHalf };
    Kind kind = Kind::Line;
    Point at;          // a point of the line; the centre
    double slope = 0;  // lines
    double radius = 0;
    double zFrom = -std::numeric_limits<double>::infinity();
    double zTo = std::numeric_limits<double>::infinity();

    bool isArc() const { return kind != Kind::Line; }
    // Past the ends of a half circle, the radius of its centre.
    double r(double z) const;
    bool reaches(double z) const { return z >= zFrom && z <= zTo; }
};

// Where metal ends upright, and what took the rest.
struct Face {
    double z = 0;
    CutId cut = kUncut;
};

class CutCurves {
public:
    // Of the first `moves` moves of a plan, the next one cut as far as `begun` goes.
    CutCurves(const CutPlan& plan, const Grid& grid, std::uint32_t moves, std::optional<Sweep> begun);

    // Curves of either side of a cut; none for threads and for edges off centre height.
    const std::vector<SideCurve>& of(CutId cut);
    int toolOf(CutId cut) const { return cut < plan_.moves() ? plan_.tools()[cut] : -1; }

    // The face between `zLeft`, where the metal stands, or does not, and `zRight`: the outmost place between the two to
    // which any move, or the end of the blank, cut at radius r. Nothing if none ends there.
    std::optional<Face> faceBetween(double zLeft, double zRight, double r, bool metalOnLeft);

private:
    struct Swept {
        std::vector<SweepProfile> profiles;
        std::vector<Branch> branches;
        std::vector<double> leftEnds, rightEnds;  // of each profile
        std::vector<SideCurve> curves;
    };
    struct End {
        double z = 0;
        CutId cut = 0;
    };
    std::optional<Sweep> sweepOf(CutId cut) const;
    const Swept& swept(CutId cut);
    void listEnds();

    const CutPlan& plan_;
    Grid grid_;
    std::uint32_t moves_;
    std::optional<Sweep> begun_;
    std::map<CutId, Swept> known_;
    std::vector<End> lefts_, rights_;  // of all sweeps, by z
    bool listed_ = false;
};

}  // namespace firstoff
