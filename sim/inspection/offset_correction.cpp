#include "sim/inspection/offset_correction.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

using Kind = WantedDimension::Kind;

// Half the least increment of the offset page: less cannot be keyed in.
constexpr double kKeyedMm = 0.0005;
// What is flatter is a cylinder that came out a little uneven.
constexpr double kSlope = 1e-3;

// Why the offset of a cut cannot be changed, by what it cut.
struct WhyFixed {
    const char *cutBefore, *noTool, *noOffset;
};
constexpr WhyFixed kSurface{later("the surface was cut in the trial before"), later("no tool cut the surface"),
                            later("the tool that cut the surface ran without an offset")};
constexpr WhyFixed kWall{later("the wall was cut in the trial before"), later("no tool cut the wall"),
                         later("the tool that cut the wall ran without an offset")};
constexpr WhyFixed kFace{later("the face was cut in the trial before"), later("no tool cut the face"),
                         later("the tool that cut the face ran without an offset")};

class Trace {
public:
    Trace(GaugedDimension& gauged, const Timeline& timeline, const Toolpath& toolpath, const Setup& setup)
        : g_(gauged), timeline_(timeline), toolpath_(toolpath), setup_(setup) {}

    void run(const GaugeReading& reading) {
        if (reading.cuts.empty()) return;
        const std::size_t moved = reading.cuts.size() > 1 ? faceToMove(reading) : 0;
        take(reading.cuts[moved]);
        const double short_ = g_.middle() - (g_.smallest.size + g_.largest.size) / 2;
        switch (g_.wanted.kind) {
            case Kind::Diameter:
            case Kind::Thread:
                return correctX(reading, short_);
            case Kind::Length:
            case Kind::GrooveWidth:
                return correctZ(reading, moved, short_);
            case Kind::Taper:
            case Kind::Radius:
            case Kind::Chamfer:
                return none(short_, madeByPath(reading.cuts[moved]));
            case Kind::RunOut:
                return none(
                    short_,
                    tr("how the part is gripped makes it, or a cut that does not clean up all round: no offset is "
                       "told for it"));
        }
    }

private:
    const Move* moveOf(CutId cut) const {
        if (!isCutHere(cut) || cut >= timeline_.moves.size()) return nullptr;
        return &toolpath_.moves[timeline_.moves[cut].move];
    }
    const ToolCall* callOf(CutId cut) const {
        const Move* move = moveOf(cut);
        return move == nullptr ? nullptr : &toolpath_.calls[move->call];
    }
    int offsetOf(CutId cut) const {
        const ToolCall* call = callOf(cut);
        return call == nullptr ? 0 : call->offset;
    }
    const Tool* toolOf(CutId cut) const {
        const ToolCall* call = callOf(cut);
        if (call == nullptr || call->toolIndex < 0) return nullptr;
        return &setup_.tools[static_cast<std::size_t>(call->toolIndex)];
    }

    void take(CutId cut) {
        g_.cut = cut;
        const Move* move = moveOf(cut);
        if (move == nullptr) return;
        g_.block = move->block;
        g_.toolIndex = callOf(cut)->toolIndex;
    }

    // Of two faces the one whose offset can be changed; where both can, the one farther from the zero of the part,
    // since that counts from the other.
    std::size_t faceToMove(const GaugeReading& reading) const {
        if (offsetOf(reading.cuts[1]) == 0) return 0;
        if (offsetOf(reading.cuts[0]) == 0) return 1;
        return std::abs(g_.wanted.to.z) >= std::abs(g_.wanted.at.z) || g_.wanted.kind == Kind::GrooveWidth ? 1 : 0;
    }

    void none(double short_, std::string why) {
        if (std::abs(short_) >= kKeyedMm) g_.noCorrection = std::move(why);
    }

    // Why the offset of a cut cannot be changed; empty: it can.
    std::string fixed(CutId cut, const WhyFixed& why) const {
        if (cut == kCutBefore) return tr(why.cutBefore);
        if (callOf(cut) == nullptr) return tr(why.noTool);
        if (offsetOf(cut) == 0) return tr(why.noOffset);
        return {};
    }

    // Of what path, nose and tool make. A nose on the offset page that is not the tool's comes before everything else.
    std::string madeByPath(CutId cut) const {
        const Tool* tool = toolOf(cut);
        const int number = offsetOf(cut);
        const auto offset = std::find_if(setup_.offsets.begin(), setup_.offsets.end(),
                                         [number](const Offset& o) { return o.number == number; });
        if (tool != nullptr && offset != setup_.offsets.end() && offset->noseRadius &&
            std::abs(*offset->noseRadius - tool->noseRadius) > kKeyedMm) {
            return say("offset {} says nose radius {:g} and the tool has {:g}: put that right first", number,
                       *offset->noseRadius, tool->noseRadius);
        }
        if (number == 0) return tr("the path and the tool make it: no offset puts it right");
        return say(
            "path and tool make it, and where another offset cut beside it, wear of offset {} moves it "
            "too: none is told",
            number);
    }

    void correctX(const GaugeReading& reading, double short_) {
        const CutId cut = reading.cuts[0];
        std::string why = fixed(cut, kSurface);
        const Tool* tool = toolOf(cut);
        if (why.empty() && tool != nullptr && worksOnTheAxis(tool->kind)) {
            why = tr("a tool on the axis made it: its own size decides");
        }
        if (!why.empty()) return none(short_, std::move(why));
        // Beyond the axis the tool comes from the other side.
        const TimedMove& timed = timeline_.moves[cut];
        const Point tip = toolpath_.tipShift(*moveOf(cut));
        const double side = (timed.from + tip).r + (timed.to + tip).r < 0 ? -1 : 1;
        g_.moves.push_back({offsetOf(cut), true, side});
        // Of a cone the diameter at a place moves with Z as well.
        const double slope = reading.stretches.empty() ? 0 : reading.stretches.front().slope;
        if (std::abs(slope) > kSlope) g_.moves.push_back({offsetOf(cut), false, -2 * slope});
        wish(short_);
    }

    void correctZ(const GaugeReading& reading, std::size_t moved, double short_) {
        const CutId here = reading.cuts[moved], there = reading.cuts[1 - moved];
        const bool wall = g_.wanted.kind == Kind::GrooveWidth;
        if (const std::string why = fixed(here, wall ? kWall : kFace); !why.empty()) return none(short_, why);
        if (offsetOf(here) == offsetOf(there)) {
            return none(short_, wall ? say("offset {} moves both walls alike: correct the program, or the width of the "
                                           "tool that it counts on",
                                           offsetOf(here))
                                     : say("offset {} moves both faces alike: correct the program, or the width of the "
                                           "tool that it counts on",
                                           offsetOf(here)));
        }
        const double away = reading.places[moved].z > reading.places[1 - moved].z ? 1 : -1;
        g_.moves.push_back({offsetOf(here), false, away});
        if (offsetOf(there) != 0) g_.moves.push_back({offsetOf(there), false, -away});
        wish(short_);
    }

    void wish(double short_) {
        if (std::abs(short_) < kKeyedMm) return;
        const OffsetMove& move = g_.moves.front();
        g_.wish = OffsetWish{move.offset, move.inX, short_ / move.perMm};
    }

    GaugedDimension& g_;
    const Timeline& timeline_;
    const Toolpath& toolpath_;
    const Setup& setup_;
};

}  // namespace

void traceToOffset(GaugedDimension& gauged, const GaugeReading& reading, const Timeline& timeline,
                   const Toolpath& toolpath, const Setup& setup) {
    Trace(gauged, timeline, toolpath, setup).run(reading);
}

}  // namespace firstoff
