#include "gui/scene/surface_look.h"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "gui/scene/palette.h"

namespace firstoff::gui {

namespace {

std::string lowered(std::string text) {
    for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return text;
}

bool names(const std::string& text, std::initializer_list<const char*> words) {
    return std::any_of(words.begin(), words.end(), [&](const char* w) { return text.find(w) != std::string::npos; });
}

// Group N holds all that is not iron.
Metal withoutIron(const std::string& text) {
    // Groups 26 to 28 of VDI 3323 are copper and its alloys, 21 to 25 aluminium.
    if (names(text, {"brass", "cuzn", "bronze", "cusn", "cw6", "group 26", "group 27"})) return Metal::Brass;
    if (names(text, {"copper", "cu-", "cw0", "group 28"})) return Metal::Copper;
    return Metal::Aluminium;
}

constexpr double kTornMetal = 0.05;     // facets of a cut beside its marks; chosen by eye
constexpr double kUsualFacets = 0.16;   // of drills, grooving edges, taps
constexpr double kLaySeenFrom = 0.005;  // mm a turn; finer marks no picture shows

}  // namespace

Metal metalOf(const Material& material) {
    // Asked for every edge of a section: words are looked at only where the group leaves it open.
    if (material.group == "P" || material.group == "H") return Metal::Steel;
    if (material.group == "M") return Metal::Stainless;
    if (material.group == "K") return Metal::CastIron;
    const std::string text = lowered(material.name);
    if (names(text, {"alsi", "aluminium", "almg", "alcu", "alzn"})) return Metal::Aluminium;
    if (material.group == "N") return withoutIron(text);
    if (material.group == "S")
        return names(text, {"ti6", "titan", "3.71", "group 36", "group 37"}) ? Metal::Titanium : Metal::Stainless;
    return Metal::Steel;
}

// Reflectances at normal incidence as they are commonly listed for pictures, linear: iron 0.56 0.57 0.58, aluminium
// 0.91 0.92 0.92, copper 0.95 0.64 0.54, brass 0.91 0.78 0.42, titanium 0.54 0.50 0.45 – from memory, after the
// measured n and k of the metals. Stainless lies between iron and chromium (0.55 0.55 0.55); the graphite of cast iron
// mirrors nothing, a tenth of its face. Here as square roots, which is what the shaders take for sRGB, and brass and
// copper drawn half way to steel, so that no colour of ours is mistaken for theirs.
std::uint32_t cutColour(Metal metal) {
    switch (metal) {
        case Metal::Steel:
            return 0xc6c8ca;
        case Metal::Stainless:
            return 0xc9c7c3;
        case Metal::CastIron:
            return 0xb2b3b5;
        case Metal::Aluminium:
            return 0xe2e4e6;
        case Metal::Brass:
            return 0xdfd0a4;
        case Metal::Copper:
            return 0xdfb8a8;
        case Metal::Titanium:
            return 0xbdb6ae;
    }
    return palette::kCutSteel;
}

std::uint32_t barColour(Metal metal) {
    switch (metal) {
        case Metal::Steel:
            return palette::kBlackBar;
        case Metal::CastIron:
            return 0x66625e;  // sand skin
        case Metal::Stainless:
        case Metal::Titanium:
            return 0x9c9995;
        case Metal::Aluminium:
            return 0xb4b6b9;
        case Metal::Brass:
            return 0xb5a67e;
        case Metal::Copper:
            return 0xb08d7e;
    }
    return palette::kBlackBar;
}

std::uint8_t barFineness(Metal metal) {
    return metal == Metal::Steel || metal == Metal::CastIron ? kScale : kDrawnBar;
}

std::uint8_t finenessOf(double facets) {
    const double a = std::clamp(facets, kFinestFacets, kCoarsestFacets);
    const double share = std::log(a / kFinestFacets) / std::log(kCoarsestFacets / kFinestFacets);
    return static_cast<std::uint8_t>(std::lround(255 - 75 * share));
}

CutLook lookOf(double feedMm, double noseRadiusMm) {
    if (feedMm <= 0 || noseRadiusMm <= 0) return {kUsualFacets, 0};
    const double marks = feedMm / (noseRadiusMm * std::sqrt(6.0));
    return {std::hypot(marks, kTornMetal), feedMm < kLaySeenFrom ? 0 : feedMm};
}

CutLook lookOfCut(const Trial& trial, std::uint32_t timedMove) {
    if (timedMove >= trial.timeline.moves.size()) return {kUsualFacets, 0};
    const TimedMove& timed = trial.timeline.moves[timedMove];
    const Move& move = trial.toolpath.moves[timed.move];
    const ToolCall& call = trial.toolpath.calls[move.call];
    const bool fed =
        move.kind == MoveKind::Feed || move.kind == MoveKind::ArcClockwise || move.kind == MoveKind::ArcAnticlockwise;
    if (!fed || call.toolIndex < 0) return {kUsualFacets, 0};
    const Tool& tool = trial.setup.tools[static_cast<std::size_t>(call.toolIndex)];
    if (tool.kind != ToolKind::Turning && tool.kind != ToolKind::Boring) return {kUsualFacets, 0};
    const double rpm = 0.5 * (timed.rpmStart + timed.rpmEnd);
    const bool perRev = trial.toolpath.modals[move.modal].feedPerRev;
    const double feed = perRev ? move.feed : rpm > 0 ? move.feed / rpm : 0;
    return lookOf(feed, tool.noseRadius);
}

}  // namespace firstoff::gui
