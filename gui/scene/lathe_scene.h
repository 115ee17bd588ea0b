// The picture of the lathe at one instant of a trial: billet, chuck, turret with its tools, tailstock.
//
// Use: make one LatheScene with a GL context current, give it a trial, ask it for the instant, draw. Everything is
// drawn into the framebuffer that is bound, which should have four samples a pixel (gui/gl/framebuffer.h) and a depth
// buffer.
#pragma once

#include <array>
#include <cstdint>
#include <glm/glm.hpp>
#include <memory>
#include <optional>
#include <string>

#include "gui/scene/camera.h"
#include "gui/scene/colouring.h"
#include "gui/scene/neighbours.h"
#include "gui/scene/quality.h"
#include "sim/base/space.h"
#include "sim/clearance/machine_bodies.h"
#include "sim/trial/trial.h"

namespace firstoff::gui {

// A set of kinds of bodies.
using KindSet = std::uint32_t;
constexpr KindSet kindBit(BodyKind kind) {
    return KindSet{1} << static_cast<unsigned>(kind);
}
inline constexpr KindSet kChuckKinds = kindBit(BodyKind::ChuckBody) | kindBit(BodyKind::Jaws);
inline constexpr KindSet kTailstockKinds =
    kindBit(BodyKind::Centre) | kindBit(BodyKind::Quill) | kindBit(BodyKind::TailstockCasting);
inline constexpr KindSet kSecondSpindleKinds = kindBit(BodyKind::SecondChuckBody) | kindBit(BodyKind::SecondJaws);
inline constexpr KindSet kTurretKinds = kindBit(BodyKind::TurretHead) | kindBit(BodyKind::TurretDisc) |
                                        kindBit(BodyKind::Block) | kindBit(BodyKind::Holder) | kindBit(BodyKind::Edge);

inline constexpr KindSet kGuardKinds = kindBit(BodyKind::Guard) | kindBit(BodyKind::Door);

// No index into MachineBodies::bodies.
inline constexpr int kNoBody = -1;

enum class Cutaway : std::uint8_t {
    None,
    Quarter,  // the quarter between the turret and the operator is left out: one half-section, as in a drawing
    Half,     // the half towards the operator is left out: the whole section
};

// Where a piece that was cut off is drawn.
enum class LoosePieces : std::uint8_t {
    Aside,   // drawn a little away from where it was cut off, so that the finished part can be looked at
    Fallen,  // falls to where a tray would stand, and fades
    Hidden,
};

struct SceneOptions {
    Cutaway cutaway = Cutaway::None;
    Colouring colouring = Colouring::Metal;
    KindSet hidden = 0;  // bodies left out
    bool showBed = true;
    bool showMarks = true;  // axis line and datum
    bool chips = false;  // run off the tool while it cuts; for the picture only, see chip_cut.h; from Quality::Fine on
    bool dark = true;
    LoosePieces loosePieces = LoosePieces::Aside;
    Neighbours neighbours = Neighbours::Faded;
    Quality quality = Quality::Finest;
    float lineScale = 1;           // widths and distances of lines, times this
    BlockId highlight = kNoBlock;  // surfaces cut by this block are tinted
    // Two bodies of MachineBodies::bodies that touch or come too near, drawn round with a line that shows through
    // everything; kNoBody: none.
    std::array<int, 2> outlined{kNoBody, kNoBody};
    bool outlineWarns = false;  // near, not touching

    bool shows(BodyKind kind) const { return (hidden & kindBit(kind)) == 0; }

    friend bool operator==(const SceneOptions&, const SceneOptions&) = default;
};

// Everything that changes with time. Made by LatheScene::at, or by hand in tests.
struct SceneInstant {
    const Trial* trial = nullptr;
    const StockCursor* stock = nullptr;  // already at the instant; null: no billet
    double timeS = 0;
    std::uint32_t timedMove = 0;  // the one that runs
    Point turretReference;        // lathe frame
    int station = 0;              // in working position, or being left while the turret indexes; 0: none called yet
    int nextStation = 0;          // where the index goes; equal to `station` otherwise
    float indexFraction = 0;      // 0…1 of the way from `station` to `nextStation`
    double discAt = 1;            // station in working position, between two while the disc turns
    std::optional<double> tailstockZ;      // point of its centre, lathe frame
    std::optional<double> secondSpindleZ;  // face of its chuck, lathe frame
    double spindleAngle = 0;  // rad, for the picture only: turns slower than the spindle, so that the eye can follow
    int workOffset = 0;       // as in ModalState
    Point datum;              // where programmed coordinates count from, lathe frame
    int toolIndex = -1;       // into Setup::tools, of the tool in working position
    Point tip;                // its true tip, lathe frame; the turret reference without a tool
};

// A surface of the billet under the mouse.
struct ScenePick {
    Point place;         // lathe frame
    CutId cut = kUncut;  // timed move that left it
    int piece = 0;  // 0: what is held; 1, 2, …: pieces cut off. `place` is where the spot was before the piece came off
    bool sectionFace = false;  // true: the face of the cutaway, where no tool has been; `cut` is then kUncut
};

struct FrameFigures {
    int triangles = 0;  // of the whole picture
    int billetTriangles = 0;
    bool rebuilt = false;  // the billet's mesh was made anew for this frame
};

// Colour-blind-safe colours of stations 1, 2, …, going round after eight, as 0xRRGGBB. The palette is that of M. Okabe
// and K. Ito, "Color Universal Design", 2008, black replaced by a grey that shows on both backgrounds.
std::uint32_t stationColour(int station);

class LatheScene {
public:
    // A GL context must be current, the same one whenever a member is called. Throws GraphicsError.
    LatheScene();
    ~LatheScene();
    LatheScene(const LatheScene&) = delete;
    LatheScene& operator=(const LatheScene&) = delete;

    // Shapes of the machine and tools are built here. Null empties the scene.
    void setTrial(std::shared_ptr<const Trial> trial);

    // What stands where at `timeS`. Seeks `cursor` (null when the trial has no billet). A trial without moves stands at
    // home.
    SceneInstant at(double timeS, StockCursor* cursor) const;

    void draw(const SceneInstant& instant, const Camera& camera, const SceneOptions& options, int widthPx,
              int heightPx);

    // First surface of the billet under a pixel (y downwards from the top left); nothing where chuck or background is
    // seen.
    std::optional<ScenePick> pick(const SceneInstant& instant, const Camera& camera, const SceneOptions& options,
                                  glm::vec2 pixel, int widthPx, int heightPx) const;

    // The body under a pixel, index into MachineBodies::bodies of the trial, 0 the billet; kNoBody where there is none.
    int pickBody(const SceneInstant& instant, const Camera& camera, const SceneOptions& options, glm::vec2 pixel,
                 int widthPx, int heightPx) const;

    // What is seen under a pixel, billet or machine, scene frame; nothing where the background is.
    std::optional<glm::vec3> placeUnder(const SceneInstant& instant, const Camera& camera, const SceneOptions& options,
                                        glm::vec2 pixel, int widthPx, int heightPx) const;

    // A camera that shows the thing whole in a picture of this aspect (width over height).
    Camera view(ViewName name, const SceneInstant& instant, float aspect = 1.6f) const;

    // How far from where it was cut off a piece is drawn, mm of the scene frame; nothing for what is held.
    static glm::vec3 shiftOf(int piece, const SceneInstant& instant, LoosePieces how);

    // Lathe frame to pixels (y downwards), for labels drawn over the picture.
    static glm::vec2 project(SpacePoint place, const Camera& camera, int widthPx, int heightPx);

    const FrameFigures& lastFrame() const;
    // What the graphics driver refused, and so the level that is drawn instead of a higher one; empty while it draws
    // what it is asked for.
    const std::string& trouble() const;

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace firstoff::gui
