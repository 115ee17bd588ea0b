#include "sim/cutting/load_sampling.h"

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"
#include "sim/motion/feed_run.h"
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
// Over time, too, a stretch may differ from its metal by half of kStretchShare; halving its time so often makes a
// hundred and twenty-eight of it, and even a chip that grows from nothing with the speed is then told to a part in ten
// thousand.
constexpr int kTimeHalvings = 7;

// Between two sections, for what changes evenly from one to the other.
EngagedSection between(const EngagedSection& a, const EngagedSection& b, double share) {
    EngagedSection s = share < 0.5 ? a : b;
    for (double EngagedSection::*figure :
         {&EngagedSection::across, &EngagedSection::moment, &EngagedSection::width, &EngagedSection::greatest,
          &EngagedSection::force, &EngagedSection::torque, &EngagedSection::forceMost, &EngagedSection::torqueMost,
          &EngagedSection::farthest}) {
        s.*figure = a.*figure + share * (b.*figure - a.*figure);
    }
    // Air has no place from the axis.
    if (a.farthest <= 0 || b.farthest <= 0) s.farthest = std::max(a.farthest, b.farthest);
    s.push = a.push + share * (b.push - a.push);
    s.place = a.place + share * (b.place - a.place);
    return s;
}

FeedPath pathOf(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup) {
    const Move& move = toolpath.moves[timed.move];
    const ModalState& modal = toolpath.modals[move.modal];
    PaceLimits why;
    const PaceLaw pace = paceLaw(move, modal, spindleLaw(move, modal, setup), setup, why);
    return {timed, toolpath.programmedShift(move), pace, setup.machine.axes};
}

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
          path_(pathOf(timed_, toolpath, setup)),
          run_(path_, double{timed_.paceFrom}, double{timed_.paceTo}),
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
        double fraction = 0;
        EngagedSection section;
        double metalPerMm = 0;  // G
        double feed = 0;     // mm per revolution, as programmed; what the slides make of it comes in when all is laid
        double powerKw = 0;  // likewise
        double perS = 0;     // revolutions of the spindle
        double time = 0;     // s from the start of the move, where it is in metal
        double pace = 0;     // mm/s, the true one, likewise

        double removal() const { return metalPerMm * pace; }  // mm3/s
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
        place.section = s;
        place.feed = feed;
        place.perS = perS;
        place.metalPerMm = 2 * kPi * s.moment;
        if (law_.kc11 > 0) place.powerKw = perWidth(feed) * s.torque / 1000 * 2 * kPi * perS / 1000;
        return place;
    }

    // N for each mm of edge that stands square to its travel; of all edges.
    double perWidth(double feed) const { return law_.kc11 * std::pow(feed, 1 - law_.mc) * std::pow(edges_, law_.mc); }

    // What is cut there at the true pace.
    LoadSample sampleAt(const Place& place, MoveLoad& load) const {
        const EngagedSection& s = place.section;
        const double feed = place.pace / place.perS;
        LoadSample out;
        out.fraction = static_cast<float>(place.fraction);
        out.chipAreaMm2 = static_cast<float>(feed * s.across);
        out.widthMm = static_cast<float>(s.width);
        out.depthMm = static_cast<float>(s.across);
        out.thicknessMm = static_cast<float>(feed * s.greatest / edges_);
        out.removalMm3PerS = static_cast<float>(place.removal());
        out.farthestR = static_cast<float>(s.farthest);
        out.leavesSurface = s.leavesSurface;
        const Point middle = s.width > 0 ? seen((1 / s.width) * s.place) : pointAt(timed_, place.fraction) + tip_;
        out.atZ = static_cast<float>(middle.z);
        out.atR = static_cast<float>(middle.r);
        if (law_.kc11 > 0) force(s, feed, place.perS, out, load);
        return out;
    }

    void force(const EngagedSection& s, double feed, double perS, LoadSample& out, MoveLoad& load) const {
        const double perMm = perWidth(feed);
        const double cutting = perMm * s.force;
        const double torque = perMm * s.torque / 1000;
        out.cuttingN = static_cast<float>(cutting);
        out.cuttingMostN = static_cast<float>(std::max(s.force, s.forceMost) * perMm);
        out.torqueNm = static_cast<float>(torque);
        out.torqueMostNm = static_cast<float>(std::max(s.torque, s.torqueMost) * perMm / 1000);
        out.powerKw = static_cast<float>(torque * 2 * kPi * perS / 1000);
        if (s.force > 0) out.atR = static_cast<float>((farSide_ ? -1 : 1) * s.torque / s.force);
        if (length(s.push) <= 0 || cutting <= 0) return;
        const SidewaysForce sideways = sidewaysForce(cutting, s.push, s.aside);
        load.leastPassive |= sideways.least;
        const Point aside = seen(sideways.force);
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
            greatestPower_ = std::max(greatestPower_, p->powerKw);
        }
        const double bend = std::abs(middle.metalPerMm - (from.metalPerMm + to.metalPerMm) / 2);
        const double powerBend = std::abs(middle.powerKw - (from.powerKw + to.powerKw) / 2);
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
    void keepMetal(MoveLoad& load) {
        const auto cuts = [](const Place& p) { return p.metalPerMm > 0; };
        const auto first = std::find_if(places_.begin(), places_.end(), cuts);
        if (first == places_.end()) {
            load.left = MoveLoad::Left::NotFollowed;
            return;
        }
        const auto last = std::find_if(places_.rbegin(), places_.rend(), cuts).base();
        const auto begin = first == places_.begin() ? first : first - 1;
        const auto end = last == places_.end() ? last : last + 1;
        layInTime(std::vector<Place>(begin, end));
        for (std::size_t i = 0; i < laid_.size(); ++i) {
            load.samples.push_back(sampleAt(laid_[i], load));
            if (i == 0) continue;
            const Place &a = laid_[i - 1], &b = laid_[i];
            const LoadSample &from = load.samples[i - 1], &to = load.samples[i];
            load.energyJ += (b.time - a.time) * 1000 * (double{from.powerKw} + double{to.powerKw}) / 2;
            load.removedMm3 += (b.time - a.time) * (a.removal() + b.removal()) / 2;
        }
        if (load.samples.size() == 1) load.samples.push_back(load.samples.front());
        if (std::abs(load.removedMm3 - removed_) > kNotFollowedShare * judged_) load.left = MoveLoad::Left::NotFollowed;
    }

    // The places with their times and true paces, and those where the slides have gained their speed and begin to lose
    // it. Sections in between change evenly, as refine() has made sure. Where the removal over time does not run evenly
    // from one place to the next, more are put between them.
    void layInTime(const std::vector<Place>& places) {
        laid_.clear();
        const double bends[] = {run_.gainedAt(), run_.losesAt()};
        for (std::size_t i = 0; i < places.size(); ++i) {
            if (i == 0) {
                laid_.push_back(inTime(places[0]));
                continue;
            }
            for (double bend : bends) {
                if (bend > laid_.back().fraction && bend < places[i].fraction) {
                    layUpTo(inTime(at(bend, places[i - 1], places[i])), kTimeHalvings);
                }
            }
            layUpTo(inTime(places[i]), kTimeHalvings);
        }
    }

    Place inTime(Place place) const {
        place.time = run_.secondsTo(place.fraction);
        place.pace = run_.paceAfter(place.time);
        return place;
    }

    Place at(double fraction, const Place& a, const Place& b) const {
        Place place;
        const double share = (fraction - a.fraction) / (b.fraction - a.fraction);
        place.fraction = fraction;
        place.section = between(a.section, b.section, share);
        place.metalPerMm = a.metalPerMm + share * (b.metalPerMm - a.metalPerMm);
        place.perS = revPerMinAt(timed_, toolpath_, setup_, fraction) / 60;
        return place;
    }

    void layUpTo(const Place& to, int halvings) {
        const Place from = laid_.back();
        const double seconds = to.time - from.time;
        const double metal = (to.fraction - from.fraction) * length_ * (from.metalPerMm + to.metalPerMm) / 2;
        const double overTime = seconds * (from.removal() + to.removal()) / 2;
        if (halvings > 0 && std::abs(overTime - metal) > kStretchShare / 2 * judged_) {
            const double fraction = run_.fractionAfter(from.time + seconds / 2);
            if (fraction > from.fraction && fraction < to.fraction) {
                layUpTo(inTime(at(fraction, from, to)), halvings - 1);
                layUpTo(to, halvings - 1);
                return;
            }
        }
        laid_.push_back(to);
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
    FeedPath path_;
    FeedRun run_;
    int edges_;
    bool isArc_ = false;
    Arc arc_;
    double length_ = 0;
    double removed_ = 0, judged_ = 0;
    double greatestPower_ = 0;
    std::vector<Place> places_;
    std::vector<Place> laid_;  // those in metal, in time
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
