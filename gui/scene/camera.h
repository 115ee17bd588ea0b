// Where the lathe is looked at from.
//
// Scene frame: x = z of the lathe (to the right), y = the turret's direction X, z = the third axis, out of the turning
// half-plane towards the operator; mm. The bed is slanted: plumb up is `kPlumbUp`, so an operator who looks down at 30°
// sees the turning half-plane square on, Z to the right and X upwards as turners draw it.
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <string_view>

namespace firstoff::gui {

enum class ViewName { Machine, Part, Tool, EndOn };
// "machine" "part" "tool" (or "close") "end-on"; nothing for other words.
std::optional<ViewName> viewNamed(std::string_view text);
const char* name(ViewName view);

inline constexpr float kSlant = 1.0471976f;  // rad, of the bed to the horizontal: 60°
inline const glm::vec3 kPlumbUp{0.0f, 0.8660254f, 0.5f};
inline const glm::vec3 kFront{0.0f, -0.5f, 0.8660254f};  // horizontal, towards the operator

// Turns round a target; perspective. A plain value: a pane keeps it, moves it with the functions below and hands it in.
struct Camera {
    glm::vec3 target{0};           // scene frame, mm
    float distance = 600;          // from the target, mm
    float azimuth = 0;             // rad; 0 in front, positive towards the tailstock
    float elevation = 0.5235988f;  // rad above the horizontal; at the default the turning half-plane is seen square on
    float fieldOfView = 0.35f;     // rad, of the whole height of the picture

    glm::vec3 direction() const;  // from the target to the eye, unit length
    glm::vec3 eye() const { return target + distance * direction(); }
    glm::mat4 view() const;
    glm::mat4 projection(float aspect) const;
    // Distances from the eye between which things are drawn, mm.
    float nearest() const { return distance * 0.05f; }
    float farthest() const { return distance * 8.0f + 4000.0f; }
    // mm in the scene that one pixel covers at the target.
    float mmPerPixel(int heightPx) const;

    // Mouse moves, in pixels (y downwards, as windows count).
    void orbit(glm::vec2 pixels);
    void pan(glm::vec2 pixels, int heightPx);
    // Comes nearer by `factor` (>1), keeping what is under `pixel` there.
    void zoom(float factor, glm::vec2 pixel, int widthPx, int heightPx);
    // The same about a place of the scene, which stays under its pixel.
    void zoomTo(float factor, glm::vec3 place);

    friend bool operator==(const Camera&, const Camera&) = default;
};

// Between two cameras, `t` 0…1, eased at both ends: for smooth changes of view.
Camera between(const Camera& from, const Camera& to, float t);

// A camera that shows the box `low`–`high` (scene frame) whole, from `azimuth` and `elevation`, with some margin.
Camera framing(glm::vec3 low, glm::vec3 high, float azimuth, float elevation, float aspect, float fieldOfView = 0.35f);

// Ray through a pixel (y downwards): origin and unit direction, scene frame.
struct Ray {
    glm::vec3 origin, direction;
};
Ray rayThrough(const Camera& camera, glm::vec2 pixel, int widthPx, int heightPx);

}  // namespace firstoff::gui
