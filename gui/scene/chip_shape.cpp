// Symbols: s mm along the chip from the edge, L its length, m = L - s mm from its free end, which is fixed in the
// metal; f the way it flows, e along the edge, w out of the rake face. A chip is a helix: its direction turns about a
// fixed axis a = f sin(lead) + e cos(lead), from f towards w, as fast as 1 / radius asks for.
#include "gui/scene/chip_shape.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

#include "gui/scene/camera.h"
#include "gui/scene/studio.h"

namespace firstoff::gui {

namespace {

constexpr float kTurn = 6.2831853f;
// All chosen by eye.
constexpr float kStepRad = 0.19f;        // of a curl between two sections
constexpr float kThinMm = 0.13f;         // thinner chips run as ribbons
constexpr float kLongestRibbonMm = 150;  // before it breaks
constexpr float kFarthestRibbonMm = 60;  // from the edge, likewise
constexpr float kFallMmPerS2 = 11;       // as slow as all of the chip
constexpr double kFlightS = 3.5;         // until a piece is out of sight
constexpr float kShortestMm = 0.3f;      // nothing is drawn of what is shorter

// 0 to 1, the same for the same numbers.
float drawn(std::uint32_t a, std::uint32_t b) {
    std::uint32_t x = a * 0x9e3779b9u ^ (b + 0x7f4a7c15u) * 0x85ebca6bu;
    x ^= x >> 15;
    x *= 0x2c1b3c6du;
    x ^= x >> 12;
    x *= 0x297a2d39u;
    x ^= x >> 15;
    return static_cast<float>(x >> 8) / 16777216.0f;
}
float drawnAbout0(std::uint32_t a, std::uint32_t b) {
    return 2 * drawn(a, b) - 1;
}

// How a chip curls and when it breaks.
struct Curl {
    float radius = 2;    // mm, of its free end where it rolls up
    float lead = 0.3f;   // rad
    float straight = 0;  // mm before it curls
    float apart = 0;     // mm from turn to turn of one that rolls up
    float length = 10;   // mm at which it breaks
    float strays = 0;    // rad/mm: how fast a long one turns to where there is room for it
};

bool crumbles(Metal metal) {
    return metal == Metal::CastIron || metal == Metal::Brass;
}

// So far a turn leads on that it clears the one before.
float clearingLead(float width, float radius) {
    return std::asin(std::clamp(1.25f * width / (kTurn * radius), 0.14f, 0.85f));
}

Curl curlOf(const ChipCut& cut) {
    const float h = cut.thicknessMm * kChipUpset;
    Curl curl;
    curl.radius = std::clamp(std::max(1.1f + 3.0f * h, 0.42f * cut.widthMm), 1.2f, 6.0f);
    if (crumbles(cut.metal)) {
        curl.length = std::clamp(0.8f * cut.widthMm, 1.2f, 3.5f);
    } else if (cut.plunges) {
        curl.radius = 1.2f;
        curl.apart = 1.8f * h + 0.05f;
        curl.length = 5 * kTurn * curl.radius;
        curl.lead = 0;
    } else if (cut.thicknessMm < kThinMm) {
        curl.lead = clearingLead(cut.widthMm, curl.radius);
        curl.strays = 0.1f;
        curl.length = std::min(kLongestRibbonMm, kFarthestRibbonMm / std::sin(curl.lead));
    } else {
        curl.lead = 0.5f * clearingLead(cut.widthMm, curl.radius);
        curl.length = 1.05f * kTurn * curl.radius;
    }
    curl.straight = 0.8f * curl.radius;
    return curl;
}

// One section across the chip.
struct Section {
    glm::vec3 place{0};               // on the side that ran over the rake face, middle of the width
    glm::vec3 across{0}, inwards{0};  // along the width; from the side of the rake face to the free one
    std::uint32_t mark = 0;           // of the metal there, whatever its place is now
    float s = 0;
};

// Of the helix: its axis, and the way the chip runs and curls where it begins.
struct Axes {
    glm::vec3 axis, ahead, up;

    void turnTowards(glm::vec3 goal, float byRad) {
        const glm::vec3 about = glm::cross(axis, goal);
        const float sine = glm::length(about);
        if (byRad <= 0 || sine < 1e-3f) return;
        const float angle = std::min(byRad, std::atan2(sine, glm::dot(axis, goal)));
        const glm::mat3 turn(glm::rotate(glm::mat4(1), angle, about / sine));
        axis = turn * axis;
        ahead = turn * ahead;
        up = turn * up;
    }
};

// Where there is room: away from the chuck, off the rake face, outside also away from the part.
glm::vec3 roomFor(const ChipCut& cut) {
    return glm::normalize(glm::vec3(1, cut.inside ? 0.0f : 0.25f, 0) + 0.2f * cut.rake);
}

float curvature(const Curl& curl, float s, float m, float unrest) {
    const float begun = std::clamp((s - curl.straight) / (0.9f * curl.radius), 0.0f, 1.0f);
    const float radius = std::sqrt(curl.radius * curl.radius + curl.apart * m * 2 / kTurn);
    return begun / radius * (1 + unrest * std::sin(0.31f * m) * std::sin(0.083f * m + 1));
}

// A way along a chip, from the edge on.
class Trace {
public:
    Trace(const ChipCut& cut, const Curl& curl, float length)
        : curl_(curl),
          axes_{std::sin(curl.lead) * cut.flow + std::cos(curl.lead) * cut.edge,
                std::cos(curl.lead) * cut.flow - std::sin(curl.lead) * cut.edge, cut.rake},
          room_(roomFor(cut)),
          length_(length),
          unrest_(curl.apart > 0 ? 0.0f : 0.22f) {}

    Section section(std::uint32_t mark) const {
        const glm::vec3 across = std::cos(curl_.lead) * axes_.axis - std::sin(curl_.lead) * round();
        const glm::vec3 inwards = -std::sin(turned_) * axes_.ahead + std::cos(turned_) * axes_.up;
        return {place_, across, inwards, mark, s_};
    }

    void go(float way) {
        constexpr int kParts = 3;
        const float part = way / kParts;
        for (int i = 0; i < kParts; ++i) {
            turn(0.5f * part);
            place_ += part * (std::sin(curl_.lead) * axes_.axis + std::cos(curl_.lead) * round());
            s_ += part;
            turn(0.5f * part);
            if (s_ > curl_.straight) axes_.turnTowards(room_, part * curl_.strays);
        }
    }

private:
    glm::vec3 round() const { return std::cos(turned_) * axes_.ahead + std::sin(turned_) * axes_.up; }
    void turn(float way) { turned_ += way * std::cos(curl_.lead) * curvature(curl_, s_, length_ - s_, unrest_); }

    const Curl& curl_;
    Axes axes_;
    glm::vec3 room_, place_{0};
    float length_, unrest_, turned_ = 0, s_ = 0;
};

// From the edge to the free end. Sections are fixed in the metal, so that they move along with it.
std::vector<Section> sectionsOf(const ChipCut& cut, const Curl& curl, float length, std::uint32_t seed) {
    const float step = std::max(0.3f, kStepRad * curl.radius);
    const int whole = static_cast<int>(length / step);
    float first = length - static_cast<float>(whole) * step;  // what is new since the last section came off
    const auto mark = [seed](int fromEnd) { return seed * 977u + static_cast<std::uint32_t>(fromEnd); };
    Trace trace(cut, curl, length);
    std::vector<Section> sections{trace.section(mark(whole + 1))};
    if (first > 0.1f * step) {
        trace.go(first);
        sections.push_back(trace.section(mark(whole)));
        first = 0;
    }
    for (int i = whole; i-- > 0; first = 0) {
        trace.go(step + first);
        sections.push_back(trace.section(mark(i)));
    }
    return sections;
}

// Colours of the side that ran over the rake face, which it has polished, and of the free one, which is torn.
struct ChipColours {
    std::uint32_t rgb;
    std::uint32_t polished() const { return packColour(rgb, 225); }
    std::uint32_t torn(std::uint32_t mark) const {
        const glm::vec3 bright = gui::rgb(rgb) * (0.66f + 0.10f * drawnAbout0(mark, 3));
        const auto part = [](float x) { return static_cast<std::uint32_t>(std::lround(255 * x)); };
        return packColour(part(bright.x) << 16 | part(bright.y) << 8 | part(bright.z), 105);
    }
};

struct Strip {
    float width, thickness;
    ChipColours colours;
};

constexpr int kCorners = 8;  // of a section: two for each of its four corners, since faces meet there at an edge

void addSection(const Section& at, const Strip& strip, float length, TriangleMesh& mesh) {
    // The torn side is ragged, and the end runs out.
    const float ragged = 1 - 0.07f * drawn(at.mark, 1);
    const float end = std::clamp(0.45f + (length - at.s) / std::max(0.8f, 0.2f * strip.width), 0.0f, 1.0f);
    const glm::vec3 half = 0.5f * strip.width * ragged * end * at.across;
    const glm::vec3 rise = strip.thickness * (0.85f + 0.3f * drawn(at.mark, 2)) * at.inwards;
    const glm::vec3 corners[] = {at.place - half, at.place + half, at.place + 0.94f * half + rise,
                                 at.place - 0.94f * half + rise};
    const glm::vec3 normals[] = {-at.inwards, at.across, at.inwards, -at.across};
    const std::uint32_t torn = strip.colours.torn(at.mark);
    const std::uint32_t colours[] = {strip.colours.polished(), torn, torn, torn};
    constexpr float kShut = 0.32f;  // the inside of a curl, from the light
    for (int face = 0; face < 4; ++face) {
        for (int corner : {face, (face + 1) % 4})
            mesh.vertices.push_back({corners[corner], normals[face], colours[face], face == 2 ? kShut : 0.0f, 0});
    }
}

void addQuad(std::uint32_t a, std::uint32_t b, std::uint32_t c, std::uint32_t d, TriangleMesh& mesh) {
    for (const std::uint32_t corner : {a, b, c, a, c, d}) mesh.indices.push_back(corner);
}

void addEnd(std::uint32_t first, glm::vec3 outwards, bool facesBack, TriangleMesh& mesh) {
    const auto at = static_cast<std::uint32_t>(mesh.vertices.size());
    for (int face = 0; face < 4; ++face) {
        Vertex corner = mesh.vertices[first + 2 * static_cast<std::uint32_t>(face)];
        corner.normal = outwards;
        mesh.vertices.push_back(corner);
    }
    if (facesBack) {
        addQuad(at, at + 3, at + 2, at + 1, mesh);
    } else {
        addQuad(at, at + 1, at + 2, at + 3, mesh);
    }
}

TriangleMesh stripMesh(const std::vector<Section>& sections, const Strip& strip, float length) {
    TriangleMesh mesh;
    for (const Section& section : sections) addSection(section, strip, length, mesh);
    // Which way corners go round depends on which side of the flow the edge leads to.
    const glm::vec3 flow = sections[1].place - sections[0].place;
    const bool right = glm::dot(glm::cross(sections[0].across, sections[0].inwards), flow) > 0;
    for (std::uint32_t i = 0; i + 1 < sections.size(); ++i) {
        for (std::uint32_t face = 0; face < 4; ++face) {
            const std::uint32_t a = i * kCorners + 2 * face, b = a + kCorners;
            if (right) {
                addQuad(a, a + 1, b + 1, b, mesh);
            } else {
                addQuad(a, b, b + 1, a + 1, mesh);
            }
        }
    }
    const auto last = static_cast<std::uint32_t>(sections.size() - 1);
    const glm::vec3 end = sections[last].place - sections[last - 1].place;
    addEnd(0, -flow, right, mesh);
    addEnd(last * kCorners, end, !right, mesh);
    return mesh;
}

// A chip of this length about the origin, with its edge end there.
TriangleMesh pieceMesh(const ChipCut& cut, const Curl& curl, float length, std::uint32_t seed) {
    const std::vector<Section> sections = sectionsOf(cut, curl, length, seed);
    if (sections.size() < 2) return {};
    return stripMesh(sections, {cut.widthMm, cut.thicknessMm * kChipUpset, {cutColour(cut.metal)}}, length);
}

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
    if (growing > kShortestMm) addGrowing(pieceMesh(cut, curl, growing, seedOf(broke)), cut, mesh);
    for (int i = 0; i < kMostChipPieces; ++i) {
        const double at = (broke - i) * period;
        const float whole = length(at - period, at);
        if (cut.timeS - at >= kFlightS || whole <= kShortestMm) break;
        const std::uint32_t seed = seedOf(broke - i - 1);
        addFlying(pieceMesh(cut, curl, whole, seed), static_cast<float>(cut.timeS - at), seed, cut, stock, mesh);
    }
    return mesh;
}

}  // namespace firstoff::gui
