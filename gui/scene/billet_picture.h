// The billet as it is drawn: meshes made anew whenever the metal has changed.
#pragma once

#include <optional>

#include "gui/gl/mesh.h"
#include "gui/scene/lathe_scene.h"
#include "gui/scene/measured_surfaces.h"
#include "gui/scene/revolved_mesh.h"

namespace firstoff::gui {

// Angles of the metal that a cutaway leaves, as in RevolveOptions.
struct KeptSweep {
    double from = 0, to = 0;
};
KeptSweep keptSweep(Cutaway cutaway);

// Colour (and fineness as alpha, which while sizes are told says how it is hatched) of a surface left by a cut.
std::uint32_t surfaceColour(const Trial& trial, const SceneOptions& options, const MeasuredSurfaces& sizes, CutId cut);
// Its feed marks as Vertex::lay: none where colour tells something else.
float surfaceLay(const Trial& trial, const SceneOptions& options, CutId cut);

class BilletPicture {
public:
    // Makes the meshes for the instant unless they stand already. `mmPerPixel` at the billet decides how fine they are.
    // Returns true if anything was made.
    bool update(const SceneInstant& instant, const SceneOptions& options, double mmPerPixel);
    // Before another trial.
    void forget();

    // Whether any of the metal is not round. If so, the skin is whole whatever the cutaway, which is to be left out in
    // drawing, and it stands as the spindle marker does; the faces of the cutaway stand still.
    bool turns() const { return turns_; }
    const MeshBuffer& skin() const { return skin_; }
    const MeshBuffer& faces() const { return faces_; }
    const MeshBuffer& looseSkin() const { return looseSkin_; }
    const MeshBuffer& looseFaces() const { return looseFaces_; }
    // How far from where they were cut off loose pieces are drawn, scene frame, mm.
    static glm::vec3 looseShift(const SceneInstant& instant, LoosePieces how);
    // Whether a piece has been cut off by then.
    static bool hasFallen(int piece, const SceneInstant& instant);
    const std::vector<Loop>& loops() const { return loops_; }

private:
    struct Made {
        const Trial* trial;
        double timeS;
        std::uint32_t timedMove;
        Cutaway cutaway;
        Colouring colouring;
        BlockId highlight;
        double toleranceMm;
        int sectors;
        double spindleAngle;
    };
    static bool sameMetal(const SceneInstant& instant, const Made& made);
    double chooseSection(const SceneInstant& instant, const Made& made);
    std::uint32_t colourOf(const SceneInstant& instant, const SceneOptions& options, bool loose, CutId cut) const;
    void make(const SceneInstant& instant, const SceneOptions& options, const Made& made);
    void makeRound(const SceneInstant& instant, const SceneOptions& options, const Made& made);
    void makeTurning(const SceneInstant& instant, const SceneOptions& options, const Made& made);
    void makeTurningFaces(const SceneInstant& instant, const SceneOptions& options);

    std::optional<Made> made_;
    std::optional<MeasuredSurfaces> sizes_;  // of the trial, as soon as they are told
    std::vector<Loop> loops_;
    bool turns_ = false;
    MeshBuffer skin_, faces_, looseSkin_, looseFaces_;
};

}  // namespace firstoff::gui
