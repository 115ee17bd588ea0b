#include "sim/cutting/part_beam.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "sim/cutting/jaw_hold.h"

namespace firstoff {

namespace {

constexpr double kShortestMm = 0.1;  // of what stands in front of the jaws; less is no beam

class Sections {
public:
    Sections(const Billet& billet, double youngGPa) : billet_(billet), youngGPa_(youngGPa) {}

    // N mm²; 0 without metal.
    double stiffnessAt(double z) {
        const int column = std::clamp(billet_.grid().columnNear(z), 0, billet_.grid().columns - 1);
        const int chunk = column / kChunkColumns;
        if (!billet_.isRound(chunk)) return stiffnessOfUneven(chunk);
        billet_.intervals(column, solids_);
        double best = 0;
        for (const Interval& solid : solids_) {
            best = std::max(best, roundStiffness(youngGPa_, 2 * solid.outer, 2 * solid.inner));
        }
        return best;
    }

private:
    // By the bounds of the sectors: outside the least of them, inside the greatest.
    double stiffnessOfUneven(int chunk) const {
        double outer = billet_.bounds(chunk).maxOuter, inner = 0;
        for (const ChunkBounds& bounds : billet_.sectorsRef(chunk)->bounds) {
            outer = std::min(outer, bounds.minOuter);
            inner = std::max(inner, bounds.maxInner);
        }
        return outer > inner ? roundStiffness(youngGPa_, 2 * outer, 2 * inner) : 0;
    }

    const Billet& billet_;
    double youngGPa_;
    std::vector<Interval> solids_;
};

}  // namespace

std::optional<PartBeam> partBeam(const Billet& billet, double clampZ, double youngGPa) {
    const double frontZ = frontOf(billet), length = frontZ - clampZ;
    if (length < kShortestMm) return std::nullopt;
    Sections sections(billet, youngGPa);
    std::vector<double> stations{0}, stiffness;
    for (int i = 0; i < kPartStretches; ++i) {
        const double ei = sections.stiffnessAt(clampZ + length * (i + 0.5) / kPartStretches);
        if (ei <= 0) break;  // the very point of a cone, or nothing to hang on
        const double end = length * (i + 1) / kPartStretches;
        if (!stiffness.empty() && stiffness.back() == ei) {
            stations.back() = end;
            continue;
        }
        stiffness.push_back(ei);
        stations.push_back(end);
    }
    if (stiffness.empty()) return std::nullopt;
    return PartBeam{Beam(stations, stiffness), clampZ, frontZ};
}

}  // namespace firstoff
