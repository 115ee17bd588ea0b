// Symbols: s mm along the chip from the edge, L its length, m = L - s mm from its free end, which is fixed in the
// metal; f the way it flows, e along the edge, w out of the rake face. A chip is a helix: its direction turns about a
// fixed axis a = f sin(lead) + e cos(lead), from f towards w, as fast as 1 / radius asks for.
#include "gui/scene/chip_curl.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>
#include <vector>

#include "gui/scene/chip_shape.h"
#include "gui/scene/studio.h"

namespace firstoff::gui {

namespace {

constexpr float kTurn = 6.2831853f;
// All chosen by eye.
constexpr float kStepRad = 0.19f;        // of a curl between two sections
constexpr float kThinMm = 0.13f;         // thinner chips run as ribbons
constexpr float kLongestRibbonMm = 150;  // before it breaks
constexpr float kFarthestRibbonMm = 60;  // from the edge, likewise

bool crumbles(Metal metal) {
    return metal == Metal::CastIron || metal == Metal::Brass;
}

// So far a turn leads on that it clears the one before.
float clearingLead(float width, float radius) {
    return std::asin(std::clamp(1.25f * width / (kTurn * radius), 0.14f, 0.85f));
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

}  // namespace

float drawn(std::uint32_t a, std::uint32_t b) {
    std::uint32_t x = a * 0x9e3779b9u ^ (b + 0x7f4a7c15u) * 0x85ebca6bu;
    x ^= x >> 15;
    x *= 0x2c1b3c6du;
    x ^= x >> 12;
    x *= 0x297a2d39u;
    x ^= x >> 15;
    return static_cast<float>(x >> 8) / 16777216.0f;
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

glm::vec3 roomFor(const ChipCut& cut) {
    return glm::normalize(glm::vec3(1, cut.inside ? 0.0f : 0.25f, 0) + 0.2f * cut.rake);
}

TriangleMesh curledChip(const ChipCut& cut, const Curl& curl, float length, std::uint32_t seed) {
    const std::vector<Section> sections = sectionsOf(cut, curl, length, seed);
    if (sections.size() < 2) return {};
    return stripMesh(sections, {cut.widthMm, cut.thicknessMm * kChipUpset, {cutColour(cut.metal)}}, length);
}

}  // namespace firstoff::gui
