#include "sim/cutting/load_sampling.h"

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"
#include "sim/motion/move_turns.h"
#include "sim/stock/billet_columns.h"

namespace firstoff {

namespace {

// Of the metal of a move: what halving a stretch may still change, and by how much the whole may differ from what the
// billet lost before places are set more densely; half of what is promised of a whole job.
constexpr double kStretchShare = 1e-4;
constexpr double kWholeShare = 5e-4;
// Places are no further apart than this to begin with, mm; the whole is tried again with half of it so many times.
constexpr double kFirstStepMm = 10;
constexpr int kTries = 6;
// A little before a place: so far that what an edge takes that hardly leans on its travel still spans some columns of
// the billet, and far less than an edge goes back before it comes again.
constexpr double kBeforeMm = 0.1;
// So even that a place in the middle tells nothing.
constexpr double kFlatShare = 1e-5;
// Places for the sake of power are no nearer than this.
constexpr double kPowerStepMm = 0.1;
// And none are nearer than this, nor than this share of the feed per revolution: nothing that a turn of the bar could
// feel lies between.
constexpr double kLeastStepMm = 1e-4;
constexpr double kLeastFeedShare = 0.01;
// Power, too, may differ from what its neighbours give by this share of the greatest, or by so few kW.
constexpr double kPowerShare = 0.02;
constexpr double kPowerKw = 0.002;

class MoveSampling {
public:
    MoveSampling(std::uint32_t timedMove, const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                 const ChipLaw& law, StockCursor& cursor)
        : timedMove_(timedMove),
          timed_(timeline.moves[timedMove]),
          toolpath_(toolpath),
          setup_(setup),
          tool_(setup.tools[static_cast<std::size_t>(toolpath.calls[toolpath.moves[timed_.move].call].toolIndex)]),
          law_(law),
          cursor_(cursor),
          tip_(toolpath.tipShift(toolpath.moves[timed_.move])),
          farSide_((timed_.from + tip_).r < 0),
          front_(tool_, law.mc, farSide_),
          turns_(timed_, toolpath, setup),
          edges_(edgesOf(tool_)) {
        isArc_ = timed_.kind != MoveKind::Feed;
        if (isArc_) {
            arc_ = arcBetween(timed_.from, timed_.to, timed_.centre, timed_.kind == MoveKind::ArcClockwise);
            length_ = arc_.length();
        } else {
            length_ = distance(timed_.from, timed_.to);
            const Point way = timed_.to - timed_.from;
            if (length_ > 0) front_.face(seen((1 / length_) * way));
        }
    }

    MoveLoad run(const MoveMetal& move) {
        MoveLoad load;
        if (turns_.total() <= 0 || length_ <= 0) {
            load.left =
                timed_.rpmStart <= 0 && timed_.rpmEnd <= 0 ? MoveLoad::Left::SpindleStands : MoveLoad::Left::NoFeed;
            return load;
        }
        removed_ = move.removedMm3;
        judged_ = std::max(move.removedMm3, move.leastMm3);
        if (lastsNoTurn()) {
            keepMetal(load);
            return load;
        }
        if (!balances() && isArc_ && metal() > removed_) {
            asCut_ = true;
            balances();
        }
        keepMetal(load);
        return load;
    }

private:
    struct Place {
        LoadSample sample;
        double fraction = 0;
        double metalPerMm = 0;   // G
        double energyPerMm = 0;  // J
        double feed = 0;         // mm per revolution
        double pace = 0;         // mm/s
    };

    // Sets places until they add up to what the billet lost; false if they do not.
    bool balances() {
        int parts = std::max(2, static_cast<int>(std::ceil(length_ / kFirstStepMm)));
        for (int attempt = 0; attempt < kTries; ++attempt, parts *= 2) {
            samplePlaces(parts);
            if (addsUp()) return true;
            if (length_ / parts < kLeastStepMm || turns_.total() < 1) break;
        }
        return false;
    }

    Point seen(Point p) const { return farSide_ ? Point{p.z, -p.r} : p; }

    Place at(double fraction) {
        if (isArc_) {
            const double angle = arc_.angleFrom + fraction * arc_.turn;
            const Point ahead{-std::sin(angle), std::cos(angle)};
            front_.face(seen(arc_.turn < 0 ? -ahead : ahead));
        }
        const Point tip = pointAt(timed_, fraction) + tip_;
        if (asCut_) cursor_.seek(timedMove_, std::max(0.0, fraction - kBeforeMm / length_));
        const EngagedSection s = front_.engagedIn(cursor_.billet(), seen(tip));
        const double feed = turns_.feedAt(fraction);
        const double perS = revPerMinAt(timed_, toolpath_, setup_, fraction) / 60;
        Place place;
        place.fraction = fraction;
        place.feed = feed;
        place.pace = feed * perS;
        place.metalPerMm = 2 * kPi * s.moment;
        LoadSample& out = place.sample;
        out.fraction = static_cast<float>(fraction);
        out.chipAreaMm2 = static_cast<float>(feed * s.across);
        out.widthMm = static_cast<float>(s.width);
        out.depthMm = static_cast<float>(s.across);
        out.thicknessMm = static_cast<float>(feed * s.greatest / edges_);
        out.removalMm3PerS = static_cast<float>(place.metalPerMm * place.pace);
        const Point middle = s.width > 0 ? seen((1 / s.width) * s.place) : tip;
        out.atZ = static_cast<float>(middle.z);
        out.atR = static_cast<float>(middle.r);
        if (law_.kc11 > 0) force(s, feed, perS, place);
        return place;
    }

    void force(const EngagedSection& s, double feed, double perS, Place& place) const {
        LoadSample& out = place.sample;
        const double perWidth = law_.kc11 * std::pow(feed, 1 - law_.mc) * std::pow(edges_, law_.mc);
        const double cutting = perWidth * s.force;
        const double torque = perWidth * s.torque / 1000;
        out.cuttingN = static_cast<float>(cutting);
        out.cuttingMostN = static_cast<float>(std::max(s.force, s.forceMost) * perWidth);
        out.torqueNm = static_cast<float>(torque);
        out.powerKw = static_cast<float>(torque * 2 * kPi * perS / 1000);
        if (s.force > 0) out.atR = static_cast<float>((farSide_ ? -1 : 1) * s.torque / s.force);
        place.energyPerMm = 2 * kPi * torque / feed;
        const double push = length(s.push);
        if (push <= 0) return;
        const Point aside = seen((sidewaysShare() * cutting / push) * s.push);
        out.forceZN = static_cast<float>(aside.z);
        // Of edges all round the axis, what they push across it balances.
        out.forceRN = worksOnTheAxis(tool_.kind) ? 0.0F : static_cast<float>(aside.r);
    }

    void samplePlaces(int parts) {
        places_.clear();
        greatestPower_ = 0;
        places_.push_back(at(0));
        for (int i = 1; i <= parts; ++i) {
            const Place from = places_.back();
            const Place to = at(static_cast<double>(i) / parts);
            refine(from, to);
            places_.push_back(to);
        }
    }

    // A move shorter than one turn, of which its ends tell the metal: nothing in between is felt by itself.
    bool lastsNoTurn() {
        if (turns_.total() > 1) return false;
        places_ = {at(0), at(1)};
        return addsUp();
    }

    // The billet knows faces to half a column, so what it lost at either end of a move to no more.
    bool addsUp() const {
        double most = 0;
        for (const Place& place : places_) most = std::max(most, place.metalPerMm);
        const double columns = most * cursor_.billet().grid().pitch;
        return std::abs(metal() - removed_) <= kWholeShare * judged_ + columns;
    }

    // Places between two, in order.
    void refine(const Place& from, const Place& to) {
        const double step = (to.fraction - from.fraction) * length_;
        if (step < std::max(kLeastStepMm, kLeastFeedShare * from.feed)) return;
        const Place middle = at((from.fraction + to.fraction) / 2);
        for (const Place* p : {&from, &middle, &to}) {
            greatestPower_ = std::max(greatestPower_, double{p->sample.powerKw});
        }
        const double bend = std::abs(middle.metalPerMm - (from.metalPerMm + to.metalPerMm) / 2);
        const double powerBend =
            std::abs(double{middle.sample.powerKw} - (double{from.sample.powerKw} + double{to.sample.powerKw}) / 2);
        const bool metalEven = bend * step <= kStretchShare * judged_;
        // Within a feed per revolution or so nothing is felt by itself.
        const bool powerEven = powerBend <= std::max(kPowerShare * greatestPower_, kPowerKw) || step < kPowerStepMm;
        if (metalEven && powerEven) {
            // Where nothing bends, the ends tell all.
            if (bend > kFlatShare * middle.metalPerMm || powerBend > kFlatShare * greatestPower_) {
                places_.push_back(middle);
            }
            return;
        }
        refine(from, middle);
        places_.push_back(middle);
        refine(middle, to);
    }

    double metal() const {
        double sum = 0;
        for (std::size_t i = 1; i < places_.size(); ++i) {
            const Place &a = places_[i - 1], &b = places_[i];
            sum += (b.fraction - a.fraction) * length_ * (a.metalPerMm + b.metalPerMm) / 2;
        }
        return sum;
    }

    // Leaves out what lies wholly in air, but for the last place before metal and the first behind it.
    void keepMetal(MoveLoad& load) const {
        const auto cuts = [](const Place& p) { return p.metalPerMm > 0; };
        const auto first = std::find_if(places_.begin(), places_.end(), cuts);
        if (first == places_.end()) {
            load.left = MoveLoad::Left::NotFollowed;
            return;
        }
        const auto last = std::find_if(places_.rbegin(), places_.rend(), cuts).base();
        const auto begin = first == places_.begin() ? first : first - 1;
        const auto end = last == places_.end() ? last : last + 1;
        for (auto p = begin; p != end; ++p) {
            load.samples.push_back(p->sample);
            if (p == begin) continue;
            const Place &a = *(p - 1), &b = *p;
            const double step = (b.fraction - a.fraction) * length_;
            load.energyJ += step * (a.energyPerMm + b.energyPerMm) / 2;
            // Over the time that the stretch takes.
            const double seconds = step * (1 / a.pace + 1 / b.pace) / 2;
            load.removedMm3 += seconds * (double{a.sample.removalMm3PerS} + double{b.sample.removalMm3PerS}) / 2;
        }
        if (load.samples.size() == 1) load.samples.push_back(load.samples.front());
        if (std::abs(load.removedMm3 - removed_) > kNotFollowedShare * judged_) load.left = MoveLoad::Left::NotFollowed;
    }

    // Of the metal of a move: so much amiss is said.
    static constexpr double kNotFollowedShare = 0.05;

    std::uint32_t timedMove_;
    const TimedMove& timed_;
    const Toolpath& toolpath_;
    const Setup& setup_;
    const Tool& tool_;
    ChipLaw law_;
    StockCursor& cursor_;
    bool asCut_ = false;  // against the billet as it is just before each place, not as it is before the move
    Point tip_;
    bool farSide_;
    ToolFront front_;
    MoveTurns turns_;
    int edges_;
    bool isArc_ = false;
    Arc arc_;
    double length_ = 0;
    double removed_ = 0, judged_ = 0;
    double greatestPower_ = 0;
    std::vector<Place> places_;
};

}  // namespace

int edgesOf(const Tool& tool) {
    // From memory: usual numbers of flutes of machine reamers and taps of middle sizes.
    constexpr int kReamer = 6, kTap = 3;
    if (tool.edges > 0) return tool.edges;
    switch (tool.kind) {
        case ToolKind::Drill:
        case ToolKind::CentreDrill:
        case ToolKind::StepDrill:
            return 2;
        case ToolKind::Reamer:
            return kReamer;
        case ToolKind::Tap:
            return kTap;
        default:
            return 1;
    }
}

MoveLoad sampleMove(std::uint32_t timedMove, const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                    const ChipLaw& law, StockCursor& cursor, const MoveMetal& metal) {
    return MoveSampling(timedMove, timeline, toolpath, setup, law, cursor).run(metal);
}

}  // namespace firstoff
