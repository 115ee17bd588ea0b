#include "gui/scene/billet_picture.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "gui/scene/palette.h"
#include "gui/scene/solid_mesh.h"
#include "gui/scene/surface_look.h"
#include "sim/base/units.h"

namespace firstoff::gui {

namespace {

// While sizes are told, see metal.frag.
constexpr std::uint8_t kPlain = 130, kHatched = 150, kCrossHatched = 170;
constexpr std::uint32_t kHighlight = 0xffc247;
constexpr std::size_t kMostTriangles = 80'000;  // of the billet, for software OpenGL

bool cutBy(const Move& move, BlockId block) {
    return move.block == block || move.cycleBlock == block;
}

double toleranceFor(double mmPerPixel) {
    // A third of a pixel, in steps of two so that a slow zoom does not make a new mesh for every frame.
    constexpr double kFinest = 0.001, kCoarsest = 0.2;  // mm
    const double wanted = std::clamp(mmPerPixel / 3, kFinest, kCoarsest);
    return std::exp2(std::floor(std::log2(wanted)));
}

std::vector<Loop> only(const std::vector<Loop>& loops, bool loose) {
    std::vector<Loop> result;
    for (const Loop& loop : loops) {
        if ((loop.piece > 0) == loose) result.push_back(loop);
    }
    return result;
}

TriangleMesh cutFaces(const std::vector<Loop>& loops, Cutaway cutaway, std::uint32_t colour) {
    TriangleMesh mesh;
    if (cutaway == Cutaway::None) return mesh;
    const KeptSweep sweep = keptSweep(cutaway);
    mesh.append(sectionFace(loops, sweep.from, -1, colour));
    mesh.append(sectionFace(loops, sweep.to, 1, colour));
    return mesh;
}

}  // namespace

std::uint32_t stationColour(int station) {
    const auto count = static_cast<int>(palette::kStations.size());
    return palette::kStations[static_cast<std::size_t>((std::max(station, 1) - 1) % count)];
}

KeptSweep keptSweep(Cutaway cutaway) {
    switch (cutaway) {
        case Cutaway::Quarter:
            return {kPi / 2, 2 * kPi};
        case Cutaway::Half:
            return {kPi, 2 * kPi};
        case Cutaway::None:
            break;
    }
    return {0, 2 * kPi};
}

namespace {

std::uint32_t sizeColour(const MeasuredSurfaces& sizes, CutId cut) {
    const auto state = sizes.of(cut);
    if (state == GaugedDimension::State::Within) return packColour(palette::kWithinLimits, kPlain);
    if (state == GaugedDimension::State::TooSmall) return packColour(palette::kTooSmall, kHatched);
    if (state == GaugedDimension::State::TooLarge) return packColour(palette::kTooLarge, kCrossHatched);
    return packColour(cut == kUncut ? palette::kBlackBar : palette::kNotMeasured, kPlain);
}

}  // namespace

std::uint32_t surfaceColour(const Trial& trial, const SceneOptions& options, const MeasuredSurfaces& sizes, CutId cut) {
    if (options.colouring == Colouring::Size) return sizeColour(sizes, cut);
    const Metal metal = metalOf(trial.setup.material);
    constexpr double kBeforeFacets = 0.22;  // of a cut of which nothing is known
    if (cut == kCutBefore) return packColour(cutColour(metal), finenessOf(kBeforeFacets));
    if (cut == kUncut || cut >= trial.timeline.moves.size()) return packColour(barColour(metal), barFineness(metal));
    const Move& move = trial.toolpath.moves[trial.timeline.moves[cut].move];
    if (options.highlight != kNoBlock && cutBy(move, options.highlight)) return packColour(kHighlight, kColouredCut);
    if (options.colouring == Colouring::Tool)
        return packColour(stationColour(trial.toolpath.calls[move.call].station), kColouredCut);
    return packColour(cutColour(metal), finenessOf(lookOfCut(trial, cut).facets));
}

float surfaceLay(const Trial& trial, const SceneOptions& options, CutId cut) {
    if (options.colouring != Colouring::Metal || cut >= trial.timeline.moves.size()) return 0;
    return static_cast<float>(lookOfCut(trial, cut).layMm);
}

void BilletPicture::forget() {
    made_.reset();
    sizes_.reset();
}

// `loose`: of pieces cut off. The parting cut leaves a face on the bar as well, which nobody has gauged.
std::uint32_t BilletPicture::colourOf(const SceneInstant& instant, const SceneOptions& options, bool loose,
                                      CutId cut) const {
    static const MeasuredSurfaces kNone;
    const bool gauged = sizes_ && loose == hasFallen(instant.trial->gauged.piece, instant);
    return surfaceColour(*instant.trial, options, gauged ? *sizes_ : kNone, cut);
}

bool BilletPicture::hasFallen(int piece, const SceneInstant& instant) {
    if (!instant.trial || !instant.trial->stock) return false;
    const std::vector<Severance>& all = instant.trial->stock->severances();
    return std::any_of(all.begin(), all.end(), [&](const Severance& cut) {
        return cut.piece == piece && instant.trial->timeline.moves[cut.timedMove].t1 <= instant.timeS;
    });
}

bool BilletPicture::sameMetal(const SceneInstant& instant, const Made& made) {
    if (instant.timeS == made.timeS) return true;
    const std::vector<Cut>& cuts = instant.trial->stock->cuts();
    const auto [low, high] = std::minmax(instant.timedMove, made.timedMove);
    constexpr std::uint32_t kFewMoves = 64;
    if (high >= cuts.size() || high - low > kFewMoves) return false;
    return std::all_of(cuts.begin() + low, cuts.begin() + high + 1, [](const Cut& c) { return c.removedMm3 == 0; });
}

bool BilletPicture::update(const SceneInstant& instant, const SceneOptions& options, double mmPerPixel) {
    if (!instant.stock || !instant.trial || !instant.trial->stock) {
        skin_.upload({});
        faces_.upload({});
        looseSkin_.upload({});
        looseFaces_.upload({});
        loops_.clear();
        turns_ = false;
        made_.reset();
        return false;
    }
    const double radiusPx = instant.trial->setup.stock.outerRadius / std::max(mmPerPixel, 1e-6);
    const Made wanted{instant.trial,       instant.timeS,     instant.timedMove,        options.cutaway,
                      options.colouring,   options.highlight, toleranceFor(mmPerPixel), sectorsFor(radiusPx),
                      instant.spindleAngle};
    if (made_ && made_->trial == wanted.trial && made_->cutaway == wanted.cutaway &&
        made_->colouring == wanted.colouring && made_->highlight == wanted.highlight &&
        made_->toleranceMm == wanted.toleranceMm && made_->sectors == wanted.sectors && sameMetal(instant, *made_)) {
        if (turns_ && options.cutaway != Cutaway::None && made_->spindleAngle != wanted.spindleAngle) {
            makeTurningFaces(instant, options);
            made_->spindleAngle = wanted.spindleAngle;
        }
        return false;
    }
    if (options.colouring == Colouring::Size && !sizes_) sizes_.emplace(*instant.trial);
    make(instant, options, wanted);
    made_ = wanted;
    return true;
}

// The section at the tolerance wanted, or a coarser one where a profile of very many corners would make more triangles
// than software OpenGL can draw in a frame. Returns the tolerance taken.
double BilletPicture::chooseSection(const SceneInstant& instant, const Made& made) {
    double toleranceMm = made.toleranceMm;
    for (int attempt = 0;; ++attempt, toleranceMm *= 4) {
        loops_ = instant.stock->section(toleranceMm);
        std::size_t corners = 0;
        for (const Loop& loop : loops_) corners += loop.points.size();
        constexpr int kAttempts = 4;
        if (2 * corners * static_cast<std::size_t>(made.sectors) <= kMostTriangles || attempt == kAttempts) break;
    }
    return toleranceMm;
}

void BilletPicture::make(const SceneInstant& instant, const SceneOptions& options, const Made& made) {
    turns_ = anyNotRound(*instant.trial->stock, instant.stock->billet(), instant.timedMove);
    turns_ ? makeTurning(instant, options, made) : makeRound(instant, options, made);
}

void BilletPicture::makeTurning(const SceneInstant& instant, const SceneOptions& options, const Made& made) {
    loops_ = instant.stock->section(made.toleranceMm, kEnvelope);
    TriangleMesh held, loose;
    for (const PartMesh& mesh : solidsFor(*instant.trial->stock, instant.stock->billet(), instant.timedMove,
                                          made.toleranceMm, kMostTriangles)) {
        const bool apart = mesh.piece > 0;
        const auto colour = [&](CutId cut) { return colourOf(instant, options, apart, cut); };
        const auto lay = [&](CutId cut) { return surfaceLay(*instant.trial, options, cut); };
        (apart ? loose : held).append(solidMesh(mesh, colour, lay));
    }
    skin_.upload(held);
    looseSkin_.upload(loose);
    makeTurningFaces(instant, options);
}

// The meridians that stand in the faces of the cutaway just now: of what is held after the turn of the spindle, of what
// has fallen as it lies.
void BilletPicture::makeTurningFaces(const SceneInstant& instant, const SceneOptions& options) {
    TriangleMesh held, loose;
    if (options.cutaway != Cutaway::None) {
        constexpr double kFaceMm = 0.005;
        const int sectors = instant.stock->billet().sectors();
        const std::uint32_t colour = packColour(palette::kSection, 255);
        const auto sectorAt = [&](double angle) {
            const auto sector = std::lround(angle / (2 * kPi) * sectors) % sectors;
            return static_cast<int>(sector < 0 ? sector + sectors : sector);
        };
        const KeptSweep sweep = keptSweep(options.cutaway);
        for (const auto& [angle, sign] : {std::pair(sweep.from, -1), std::pair(sweep.to, 1)}) {
            const auto turning = instant.stock->section(kFaceMm, sectorAt(instant.spindleAngle - angle));
            const auto lying = instant.stock->section(kFaceMm, sectorAt(-angle));
            held.append(sectionFace(only(turning, false), angle, sign, colour));
            loose.append(sectionFace(only(lying, true), angle, sign, colour));
        }
    }
    faces_.upload(held);
    looseFaces_.upload(loose);
}

void BilletPicture::makeRound(const SceneInstant& instant, const SceneOptions& options, const Made& made) {
    const double toleranceMm = chooseSection(instant, made);
    RevolveOptions revolving;
    revolving.sectors = made.sectors;
    revolving.chordMm = 3 * toleranceMm + 0.002;
    const auto colourWhere = [&](bool apart) {
        return [&, apart](CutId cut) { return colourOf(instant, options, apart, cut); };
    };
    revolving.lay = [&](CutId cut) { return surfaceLay(*instant.trial, options, cut); };
    const KeptSweep sweep = keptSweep(options.cutaway);
    revolving.fromAngle = sweep.from;
    revolving.toAngle = sweep.to;
    const std::vector<Loop> held = only(loops_, false), loose = only(loops_, true);
    revolving.colour = colourWhere(false);
    skin_.upload(revolve(held, revolving));
    faces_.upload(cutFaces(held, options.cutaway, packColour(palette::kSection, 255)));
    revolving.colour = colourWhere(true);
    looseSkin_.upload(revolve(loose, revolving));
    looseFaces_.upload(cutFaces(loose, options.cutaway, packColour(palette::kSection, 255)));
}

glm::vec3 BilletPicture::looseShift(const SceneInstant& instant, LoosePieces how) {
    if (!instant.trial || !instant.trial->stock) return glm::vec3(0);
    double since = 1e9;  // s, of the latest severance
    for (const Severance& cut : instant.trial->stock->severances()) {
        const double t = instant.trial->timeline.moves[cut.timedMove].t1;
        if (t <= instant.timeS) since = std::min(since, instant.timeS - t);
    }
    const firstoff::Setup& setup = instant.trial->setup;
    if (how == LoosePieces::Fallen) {
        constexpr double kGravity = 9806.65;  // mm/s²
        const double tray = 1.25 * std::max(setup.chuck.bodyRadius, 60.0);
        return static_cast<float>(-std::min(0.5 * kGravity * since * since, tray)) * kPlumbUp;
    }
    constexpr double kSettled = 0.4;  // s
    const double t = std::min(since / kSettled, 1.0);
    const double gap = std::clamp(0.3 * setup.stock.outerRadius, 3.0, 15.0);
    return {static_cast<float>(gap * t * t * (3 - 2 * t)), 0, 0};
}

}  // namespace firstoff::gui
