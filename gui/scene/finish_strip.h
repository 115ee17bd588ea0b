// A strip of a turned surface close up, with its feed marks standing up: the half-section in front, the surface running
// back behind it. Heights are magnified, or nothing would be seen.
#pragma once

#include <glm/glm.hpp>
#include <memory>
#include <vector>

#include "gui/gl/triangle_mesh.h"
#include "gui/scene/camera.h"
#include "sim/trial/finish.h"

namespace firstoff::gui {

// Frame of the strip: x along the surface, y out of the metal, z out of the section towards the eye, in units of which
// the strip has kStripLength; x = 0 in its middle, y = kStripFloor at the bottom of the marks, z = 0 in the section.
struct FinishStrip {
    TriangleMesh skin, section;
    std::vector<glm::vec3> edge;  // where the two meet, from end to end
    double lengthMm = 0;          // that is shown, of the surface
    double magnified = 1;         // heights, on top of the scale of the lengths
    double unitsPerMm = 1;        // along the surface

    double unitsOfHeight(double mm) const { return mm * unitsPerMm * magnified; }
};

inline constexpr double kStripLength = 100, kStripFloor = 60;

// The middle of the report's profile, about eight feed marks of it. The report must have figures.
FinishStrip finishStrip(const FinishReport& report);

// Looks at the strip from in front and above; its ends stand outside the picture.
Camera stripCamera(float aspect);

// Draws into the framebuffer that is bound, as LatheScene does. A GL context must be current.
class FinishPicture {
public:
    FinishPicture();
    ~FinishPicture();
    FinishPicture(const FinishPicture&) = delete;
    FinishPicture& operator=(const FinishPicture&) = delete;

    void draw(const FinishStrip& strip, bool dark, int widthPx, int heightPx);

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace firstoff::gui
