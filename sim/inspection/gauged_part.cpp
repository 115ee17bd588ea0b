#include "sim/inspection/gauged_part.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/inspection/bent_size.h"
#include "sim/inspection/dimension_gauge.h"
#include "sim/inspection/drawn_outline.h"
#include "sim/inspection/gauge_findings.h"
#include "sim/inspection/iso_2768.h"
#include "sim/inspection/moved_surface.h"
#include "sim/inspection/offset_correction.h"
#include "sim/inspection/size_limits.h"
#include "sim/inspection/suited_correction.h"
#include "sim/inspection/thread_gauge.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/left_over.h"

namespace firstoff {

namespace {

using Kind = WantedDimension::Kind;
using State = GaugedDimension::State;

// Band of the outline where the drawing has no general grade.
constexpr double kBandMm = 0.01;
// A place of the outline that the part comes so near to is a place of the same part.
constexpr double kSamePartMm = 0.5;
constexpr double kLeastShare = 0.05;  // of the outline; less is another part, or the same one elsewhere
constexpr std::size_t kMostDeviationsTold = 20;
constexpr int kRunOutSectors = 16;
// What an outline gauged in this simulation may be off by itself.
constexpr double kReadMm = 1e-6;

class PartGauging {
public:
    PartGauging(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                const std::shared_ptr<const StockHistory>& stock, const CutBending& bent)
        : timeline_(timeline),
          toolpath_(toolpath),
          setup_(setup),
          w_(setup.wanted),
          cursor_(stock),
          stock_(stock),
          bent_(bent) {}

    GaugedPart run() {
        for (std::size_t i = 0; i < setup_.workOffsetGiven.size() && !datum_; ++i) {
            if (setup_.workOffsetGiven[i]) datum_ = setup_.workOffsets[i];
        }
        if (!datum_) {
            leaveAll(tr("the set-up gives no work offset, so Z and X of the drawing have no zero"));
            if (!w_.outline.empty() || w_.line) {
                tell_.notCompared(tr("the set-up gives no work offset"),
                                  tr("Say where Z0 lies in [work_offsets.G54]."));
            }
            return std::move(part_);
        }
        cursor_.seek(static_cast<std::uint32_t>(timeline_.moves.size()), 0);
        collect(pieces_, 0);
        if (!setup_.stock.isRound()) collect(opposites_, cursor_.billet().sectors() / 2);
        choosePiece();
        part_.bendingKnown = bent_.known();
        for (const WantedDimension& wanted : w_.dimensions) gauge(wanted);
        correct();
        for (const GaugedDimension& g : part_.dimensions) tell(g);
        compareOutline();
        sayAssumed();
        return std::move(part_);
    }

private:
    void collect(std::map<int, PartOutline>& outlines, int sector) {
        for (const SectionContour& contour : cursor_.contours(sector)) {
            outlines[contour.piece].add(contour.outline, contour.cuts);
        }
    }

    double leadOf(CutId cut) const {
        if (!isCutHere(cut) || cut >= timeline_.moves.size()) return 0;
        const Move& move = toolpath_.moves[timeline_.moves[cut].move];
        if (move.kind != MoveKind::Thread || move.extra >= toolpath_.extras.size()) return 0;
        return toolpath_.extras[move.extra].lead;
    }

    DimensionGauge gaugeOf(int piece) const {
        const auto opposite = opposites_.find(piece);
        return DimensionGauge(pieces_.at(piece), opposite == opposites_.end() ? nullptr : &opposite->second, *datum_,
                              [this](CutId cut) { return leadOf(cut); });
    }

    // The drawn outline as it lies on a piece, lathe frame.
    PartOutline outlineOn(const PartOutline& piece, std::vector<Contour>& contours) const {
        PartOutline drawn;
        contours.clear();
        if (!toolpath_.wantedProfile.empty()) {
            if (Contour profile = profileOnPart(piece, toolpath_.wantedProfile); !profile.empty()) {
                drawn.add(profile, {}, false);
                contours.push_back(std::move(profile));
            }
        }
        for (Contour contour : w_.outline) {
            for (ContourCorner& corner : contour) corner.at = corner.at + *datum_;
            drawn.add(contour);
            contours.push_back(std::move(contour));
        }
        return drawn;
    }

    static double shareNear(const std::vector<OutlinePlace>& places) {
        if (places.empty()) return 0;
        const auto near = std::count_if(places.begin(), places.end(),
                                        [](const OutlinePlace& p) { return p.off && std::abs(*p.off) <= kSamePartMm; });
        return static_cast<double>(near) / static_cast<double>(places.size());
    }

    // The piece on which most of the drawing is found; of equals the one that is nearest to the sizes, then what is
    // held before what fell.
    void choosePiece() {
        double best = -1, bestOff = 0;
        for (const auto& [number, outline] : pieces_) {
            double found = 0, off = 0;
            const DimensionGauge gauge = gaugeOf(number);
            for (const WantedDimension& d : w_.dimensions) {
                if (!d.trouble.empty()) continue;
                const GaugeReading reading = gauge.read(d, d.size);
                if (!reading.value) continue;
                found += 1;
                off += std::min(1.0, std::abs(*reading.value - d.size));
            }
            std::vector<Contour> contours;
            PartOutline drawn = outlineOn(outline, contours);
            std::vector<OutlinePlace> places = besideOutline(outline, drawn);
            found += static_cast<double>(1 + w_.dimensions.size()) * shareNear(places);
            if (found < best || (found == best && off >= bestOff)) continue;
            best = found;
            bestOff = off;
            part_.piece = number;
            places_ = std::move(places);
            part_.outline = std::move(contours);
        }
    }

    GaugedDimension begun(const WantedDimension& wanted) {
        GaugedDimension g;
        g.wanted = wanted;
        g.name = nameOf(wanted);
        g.piece = part_.piece;
        const auto limits = limitsOf(wanted, w_.grade, g.trouble);
        if (limits) {
            g.least = limits->least;
            g.most = limits->most;
            g.limited = true;
            by_.push_back(limits->by);
        }
        if (!wanted.trouble.empty()) g.trouble = wanted.trouble;
        return g;
    }

    void leaveAll(const char* why) {
        for (const WantedDimension& wanted : w_.dimensions) {
            GaugedDimension g = begun(wanted);
            if (wanted.trouble.empty()) g.trouble = why;
            tell(g);
            part_.dimensions.push_back(std::move(g));
        }
    }

    // What the set-up could not say right was told where it was read.
    void tell(const GaugedDimension& g) {
        if (g.state != State::NotFound) return tell_.size(part_, g);
        if (g.wanted.trouble.empty()) tell_.notGauged(g);
    }

    GaugeReading readingOf(const WantedDimension& wanted, double middle) {
        if (!pieces_.contains(part_.piece)) {
            GaugeReading reading;
            reading.trouble = tr("there is no metal left");
            return reading;
        }
        if (wanted.kind == Kind::Thread) return thread(wanted);
        if (wanted.kind == Kind::RunOut) return runOut(wanted);
        return gaugeOf(part_.piece).read(wanted, middle);
    }

    void gauge(const WantedDimension& wanted) {
        GaugedDimension g = begun(wanted);
        if (wanted.trouble.empty()) {
            const GaugeReading reading = readingOf(wanted, g.limited ? g.middle() : wanted.size);
            g.places = reading.places;
            if (!reading.value) {
                g.trouble = reading.trouble;
            } else if (!g.limited) {
                g.measured = *reading.value;
            } else {
                countBending(g, reading, bent_);
                g.state = stateOf(g, g.expected());
                traceToOffset(g, reading, timeline_, toolpath_, setup_);
                leaveAloneIfNotClean(g);
            }
        }
        part_.dimensions.push_back(std::move(g));
    }

    // Where a cut does not clean up all round, one side follows the tool and the other does not: no wear can be told.
    void leaveAloneIfNotClean(GaugedDimension& g) {
        constexpr double kRoundMm = 0.002;
        if (g.wanted.kind != Kind::Diameter || g.moves.empty() || setup_.stock.isRound()) return;
        const GaugeReading round = runOut(g.wanted);
        if (!round.value || *round.value <= kRoundMm) return;
        g.moves.clear();
        g.wish.reset();
        g.noCorrection = say("it runs out by {:.3f} mm, so the cut does not clean up all round", *round.value);
    }

    int offsetOf(CutId cut) const {
        if (!isCutHere(cut) || cut >= timeline_.moves.size() || leadOf(cut) > 0) return 0;
        return toolpath_.calls[toolpath_.moves[timeline_.moves[cut].move].call].offset;
    }

    void correct() {
        part_.corrections = correctionsThatSuit(part_.dimensions);
        std::vector<Point> held;
        for (const GaugedDimension& g : part_.dimensions) held.insert(held.end(), g.places.begin(), g.places.end());
        for (OffsetCorrection& correction : part_.corrections) {
            correction.without = surfacesWithoutDimension(pieces_.at(part_.piece), correction.offset, correction.inX,
                                                          held, [this](CutId cut) { return offsetOf(cut); });
        }
    }

    std::optional<ThreadFigures> threadFigures(double from, double to, double lead, bool inside) const {
        if (part_.piece == 0) return gaugeThread(cursor_.billet(), 0, from, to, lead, inside);
        const auto billet = billetLeft(stock_, part_.piece);
        return billet ? gaugeThread(*billet, 0, from, to, lead, inside) : std::nullopt;
    }

    GaugeReading thread(const WantedDimension& d) {
        GaugeReading reading;
        double from = std::min(d.at.z, d.to.z) + datum_->z, to = std::max(d.at.z, d.to.z) + datum_->z;
        CutId last = kUncut;
        for (const OutlineEdge& e : pieces_.at(part_.piece).edges()) {
            const Point middle = pointAlong(e, 0.5);
            if (middle.z < from || middle.z > to || leadOf(e.cut) == 0) continue;
            if (last == kUncut || e.cut > last) last = e.cut;
        }
        if (last == kUncut) {
            reading.trouble = say("there is no thread between Z{:.3f} and Z{:.3f}", d.at.z, d.to.z);
            return reading;
        }
        const double lead = leadOf(last);
        // A turn at either end may run in or out.
        if (to - from > 3.1 * lead) {
            from += lead;
            to -= lead;
        }
        const auto figures = threadFigures(from, to, lead, d.inside);
        if (!figures) {
            reading.trouble =
                say("less than a whole turn of the thread between Z{:.3f} and Z{:.3f} stands full "
                    "in metal",
                    d.at.z, d.to.z);
            return reading;
        }
        reading.value = figures->pitchMm;
        reading.places = {{from, figures->pitchMm / 2}, {to, figures->pitchMm / 2}};
        reading.cuts = {last};
        return reading;
    }

    // The reading of an indicator while the spindle turns.
    GaugeReading runOut(const WantedDimension& d) {
        WantedDimension surface = d;
        surface.kind = Kind::Diameter;
        const int sectors = cursor_.billet().sectors();
        GaugeReading reading;
        double least = 0, most = 0;
        for (int k = 0; k < std::min(sectors, kRunOutSectors); ++k) {
            std::map<int, PartOutline> round;
            if (k > 0) collect(round, k * sectors / std::min(sectors, kRunOutSectors));
            const PartOutline& outline = k == 0 ? pieces_.at(part_.piece) : round[part_.piece];
            const DimensionGauge gauge(outline, nullptr, *datum_, [this](CutId cut) { return leadOf(cut); });
            GaugeReading here = gauge.read(surface, 0);
            if (!here.value) return here;
            const double r = *here.value / 2;
            least = k == 0 ? r : std::min(least, r);
            most = k == 0 ? r : std::max(most, r);
            if (k == 0) reading = std::move(here);
        }
        reading.value = most - least;
        return reading;
    }

    void compareOutline() {
        part_.outlineOpen = !toolpath_.wantedProfile.empty() && !part_.outline.empty();
        part_.deviationBandMm = bandMm();
        if (part_.outline.empty()) return tellNoOutline();
        if (shareNear(places_) < kLeastShare) {
            return tell_.notCompared(tr("the drawn outline lies beside the part"),
                                     tr("Draw it with x 0 at Z0 of the work offset, or say origin_z_mm in [drawing]."));
        }
        const std::uint32_t finished = endOfFinishing();
        const auto later = [&](CutId cut) { return finished > 0 && isCutHere(cut) && cut >= finished; };
        part_.deviations = deviationsOf(places_, part_.deviationBandMm, later);
        std::size_t told = 0;
        for (ContourDeviation& deviation : part_.deviations) {
            if (isCutHere(deviation.cut)) {
                deviation.block = toolpath_.moves[timeline_.moves[deviation.cut].move].block;
            }
            if (told++ < kMostDeviationsTold) tell_.deviation(deviation, *datum_, later(deviation.cut));
        }
    }

    // One past the last timed move of the finishing cycle whose profile is the outline; 0 where that is a drawing. What
    // is cut afterwards, grooves and threads, the profile does not show.
    std::uint32_t endOfFinishing() const {
        if (toolpath_.wantedProfile.empty() || !w_.line) return 0;
        std::uint32_t end = 0;
        for (std::size_t i = 0; i < timeline_.moves.size(); ++i) {
            if (toolpath_.moves[timeline_.moves[i].move].cycleBlock == *w_.line - 1)
                end = static_cast<std::uint32_t>(i) + 1;
        }
        return end;
    }

    double bandMm() const {
        constexpr double kShortestMm = 3;  // that all grades have a value for
        const double shortest = w_.grade == 'v' ? 2 * kShortestMm : kShortestMm;
        const auto allowed = w_.grade == 0 ? std::nullopt : generalLengthMm(w_.grade, shortest);
        return allowed ? *allowed / 2 : kBandMm;
    }

    void tellNoOutline() {
        if (pieces_.empty() && (!w_.outline.empty() || w_.line)) {
            tell_.notCompared(tr("there is no metal left"), tr("Check the bar and the program."));
        } else if (!w_.file.empty() && !w_.fileRead) {
            tell_.notCompared(tr("the file of the drawing was not read"), tr("Put it beside the set-up file."));
        } else if (w_.line && toolpath_.wantedProfile.empty()) {
            tell_.notCompared(say("line {} holds no finishing cycle (G70) that was carried out", *w_.line),
                              tr("Name the line of the G70 block as profile_line."));
        } else if (w_.line) {
            tell_.notCompared(tr("the profile of the finishing cycle lies beside the part"), tr("Check profile_line."));
        }
    }

    void sayAssumed() {
        const auto fall = std::find_if(stock_->severances().begin(), stock_->severances().end(),
                                       [&](const Severance& s) { return s.piece == part_.piece; });
        part_.assumed.push_back(fall == stock_->severances().end()
                                    ? std::string(tr("Gauged is what is held at the end of the program."))
                                    : say("Gauged is piece {}, that was cut off.", part_.piece));
        part_.assumed.emplace_back(
            part_.bendingKnown
                ? tr("Diameters and tapers are judged with what part and bar give way, an estimate that is rather too "
                     "small; lengths, widths, radii and chamfers as the paths of the tools leave them. Heat and the "
                     "wear of edges are in none of them.")
                : tr("Sizes are those that the paths of the tools leave: what part and bar give way is not known, and "
                     "heat and the wear of edges are not in them."));
        const auto uses = [&](const char* standard) {
            return std::any_of(by_.begin(), by_.end(),
                               [&](const std::string& by) { return by.find(standard) != std::string::npos; });
        };
        if (uses("ISO 286")) {
            part_.assumed.push_back(tr("Limits of classes are reckoned from the formulas and tables of ISO 286-1."));
        }
        for (const WantedDimension& wanted : w_.dimensions) {
            std::string why;
            const auto limits = limitsOf(wanted, w_.grade, why);
            if (!limits || !limits->fromMemory) continue;
            part_.assumed.push_back(say(
                "The limits of {} are held to no published table here: look them up in ISO 286-2.", nameOf(wanted)));
        }
        if (!part_.outline.empty()) {
            part_.assumed.push_back(
                w_.grade == 0 ? say("The outline is let pass within {:g} mm; the drawing has no general grade.",
                                    part_.deviationBandMm)
                              : say("The outline is let pass within {:g} mm, half of what ISO 2768-{} allows the "
                                    "shortest lengths.",
                                    part_.deviationBandMm, w_.grade));
        }
        const bool turned = std::any_of(w_.dimensions.begin(), w_.dimensions.end(),
                                        [](const WantedDimension& d) { return d.kind == Kind::RunOut; });
        if (turned) {
            part_.assumed.push_back(
                setup_.stock.eccentricity > 0
                    ? say("Run-out is read as the part is gripped in the set-up, rigidly and {:g} mm off its "
                          "axis; how true chuck and jaws run besides is not known.",
                          setup_.stock.eccentricity)
                    : tr("Run-out is read as the part is gripped in the set-up, rigidly and on its axis: "
                         "eccentricity_mm in [stock] would say how far off it; how true chuck and jaws run is not "
                         "known."));
        }
    }

    const Timeline& timeline_;
    const Toolpath& toolpath_;
    const Setup& setup_;
    const WantedPart& w_;
    StockCursor cursor_;
    const std::shared_ptr<const StockHistory>& stock_;
    const CutBending& bent_;
    std::optional<Point> datum_;
    std::map<int, PartOutline> pieces_, opposites_;  // by number
    std::vector<OutlinePlace> places_;               // of the outline on the piece chosen
    std::vector<std::string> by_;
    GaugedPart part_;
    GaugeFindings tell_{timeline_, w_, part_.findings};
};

}  // namespace

State stateOf(const GaugedDimension& g, double size) {
    if (!g.limited) return State::Within;
    return size < g.least - kReadMm ? State::TooSmall : size > g.most + kReadMm ? State::TooLarge : State::Within;
}

GaugedPart gaugePart(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                     const std::shared_ptr<const StockHistory>& stock, const CutBending& bent) {
    if (!setup.wanted.given()) return {};
    if (stock) return PartGauging(timeline, toolpath, setup, stock, bent).run();
    GaugedPart part;
    for (const WantedDimension& wanted : setup.wanted.dimensions) {
        GaugedDimension gauged;
        gauged.wanted = wanted;
        gauged.name = nameOf(wanted);
        std::string why;
        if (const auto limits = limitsOf(wanted, setup.wanted.grade, why)) {
            gauged.least = limits->least;
            gauged.most = limits->most;
            gauged.limited = true;
        }
        gauged.trouble = wanted.trouble.empty() ? tr("nothing was cut") : wanted.trouble;
        part.dimensions.push_back(std::move(gauged));
    }
    return part;
}

}  // namespace firstoff
