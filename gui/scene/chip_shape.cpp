// How pieces of a chip fly once they have broken off, and which there are at an instant.
#include "gui/scene/chip_shape.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

#include "gui/scene/camera.h"
#include "gui/scene/chip_curl.h"

namespace firstoff::gui {

namespace {

// All chosen by eye.
constexpr float kFallMmPerS2 = 11;   // as slow as all of the chip
constexpr double kFlightS = 3.5;     // until a piece is out of sight
constexpr float kShortestMm = 0.3f;  // nothing is drawn of what is shorter

struct Ball {
    glm::vec3 middle{0};
    float radius = 0;
};
Ball ballRound(const TriangleMesh& mesh) {
    glm::vec3 low = mesh.vertices.front().place, high = low;
    for (const Vertex& v : mesh.vertices) {
        low = glm::min(low, v.place);
        high = glm::max(high, v.place);
    }
    return {0.5f * (low + high), 0.5f * glm::distance(low, high)};
}

// Out of the metal, or within the bore, as far as the radii of the billet there say.
glm::vec3 keptClear(glm::vec3 place, float radius, const ChipCut& cut, const StockCursor* stock) {
    if (!stock) return place;
    const Interval metal = stock->outermostAt(double{place.x});
    if (metal.outer <= 0) return place;
    const glm::vec2 around(place.y, place.z);
    const float away = glm::length(around);
    float wanted = away;
    if (cut.inside) {
        wanted = std::min(away, std::max(0.0f, static_cast<float>(metal.inner) - radius));
    } else {
        wanted = std::max(away, static_cast<float>(metal.outer) + radius);
    }
    if (wanted == away || away <= 0) return place;
    const glm::vec2 moved = wanted / away * around;
    return {place.x, moved.x, moved.y};
}

// Where a piece is flung and how it tumbles, by its number.
struct Fling {
    glm::vec3 speed{0};  // mm/s
    glm::vec3 spinAxis{1, 0, 0};
    float spin = 0;  // rad/s
};
Fling flingOf(const ChipCut& cut, std::uint32_t seed) {
    Fling fling;
    const float v = static_cast<float>(cut.speedMmPerS) / kChipUpset;
    fling.speed = std::clamp(v, 12.0f, 60.0f) *
                  ((0.14f + 0.14f * drawn(seed, 11)) * cut.flow + (0.18f + 0.16f * drawn(seed, 18)) * roomFor(cut) +
                   0.12f * drawn(seed, 12) * cut.rake + (0.04f + 0.14f * drawnAbout0(seed, 13)) * cut.edge);
    fling.spinAxis = glm::normalize(
        cut.edge + 0.6f * glm::vec3(drawnAbout0(seed, 14), drawnAbout0(seed, 15), drawnAbout0(seed, 16)));
    fling.spin = 2.0f + 5.0f * drawn(seed, 17);
    return fling;
}

// A piece that broke off `flewS` ago. Towards the end of its reach it dwindles.
void addFlying(TriangleMesh piece, float flewS, std::uint32_t seed, const ChipCut& cut, const StockCursor* stock,
               TriangleMesh& mesh) {
    if (piece.vertices.empty()) return;
    const Ball ball = ballRound(piece);
    const Fling fling = flingOf(cut, seed);
    glm::vec3 at = cut.place + ball.middle + flewS * fling.speed - 0.5f * kFallMmPerS2 * flewS * flewS * kPlumbUp;
    at = glm::mix(at, keptClear(at, ball.radius, cut, stock), std::min(1.0f, 4 * flewS));
    const float far = (glm::distance(at, cut.place) + ball.radius) / kChipReachMm;
    const float late = flewS / static_cast<float>(kFlightS);
    const float size = std::min({1.0f, 4 * (1 - far), 4 * (1 - late)});
    if (size <= 0.05f) return;
    const glm::mat4 turn = glm::rotate(glm::mat4(1), fling.spin * flewS, fling.spinAxis);
    for (Vertex& v : piece.vertices) {
        v.place = at + size * glm::vec3(turn * glm::vec4(v.place - ball.middle, 0));
        v.normal = glm::vec3(turn * glm::vec4(v.normal, 0));
    }
    mesh.append(piece);
}

// The piece on the edge, within reach.
void addGrowing(TriangleMesh piece, const ChipCut& cut, TriangleMesh& mesh) {
    for (Vertex& v : piece.vertices) {
        if (glm::length(v.place) > kChipReachMm) return;
        v.place += cut.place;
    }
    mesh.append(piece);
}

// Breaks fall on whole multiples of this, s: steps of a ratio, so that it stays while the speed changes a little.
double periodOf(double lengthMm, double speedMmPerS) {
    return std::exp2(0.5 * std::round(2 * std::log2(lengthMm / speedMmPerS)));
}

}  // namespace

TriangleMesh chipShape(const ChipCut& cut, const StockCursor* stock) {
    TriangleMesh mesh;
    const double speed = cut.speedMmPerS / double{kChipUpset};
    if (speed <= 0) return mesh;
    const Curl curl = curlOf(cut);
    const double period = periodOf(double{curl.length}, speed);
    const double broke = std::floor(cut.timeS / period);
    const auto length = [&](double from, double to) {
        return static_cast<float>(speed * (to - std::max(from, cut.sinceS)));
    };
    const auto seedOf = [&](double number) {
        return static_cast<std::uint32_t>(std::fmod(number, 1e6)) * 2 + cut.which;
    };
    const float growing = length(broke * period, cut.timeS);
    if (growing > kShortestMm) addGrowing(curledChip(cut, curl, growing, seedOf(broke)), cut, mesh);
    for (int i = 0; i < kMostChipPieces; ++i) {
        const double at = (broke - i) * period;
        const float whole = length(at - period, at);
        if (cut.timeS - at >= kFlightS || whole <= kShortestMm) break;
        const std::uint32_t seed = seedOf(broke - i - 1);
        addFlying(curledChip(cut, curl, whole, seed), static_cast<float>(cut.timeS - at), seed, cut, stock, mesh);
    }
    return mesh;
}

}  // namespace firstoff::gui
