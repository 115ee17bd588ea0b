// The picture of the lathe, with its camera and what the mouse does in it.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>

#include "gui/gl/picture.h"
#include "gui/gl/picture_timer.h"
#include "gui/less_motion.h"
#include "gui/measure.h"
#include "gui/pane.h"
#include "gui/quality_pace.h"
#include "gui/scene/lathe_scene.h"

namespace firstoff::gui {

SceneOptions sceneOptions(const ViewSettings& view, BlockId highlight);

class ScenePane {
public:
    // A GL context must be current, the same one for every call.
    ScenePane() = default;

    void draw(const PaneContext& context, const Rect& rect);
    // In every frame, drawn or not: others ask what was measured and where things come nearest.
    void follow(const Session& session);
    // Turns smoothly to a named view; at once when there is nothing on screen yet.
    void show(ViewName name) { wanted_ = name; }
    // Turns to a place, near enough to see what touches there.
    void lookAt(SpacePoint place) { wantedPlace_ = place; }
    // Between the two bodies that the session measures, at the moment drawn last; nothing where they are not chosen.
    const std::optional<Nearness>& measured() const { return measured_; }
    void move(const MoveView& by);
    // Where, in a timed move, two bodies come nearest: time in s. Looks at so many instants of it.
    double timeOfNearest(std::size_t timedMove, int body, int other);
    // No easing: for pictures to files.
    void setStill(bool still) { still_ = still; }
    // No buttons over the picture.
    void setBare(bool bare) { bare_ = bare; }
    // Of the picture as the last frame shows it.
    GLuint texture() const { return texture_; }
    // The last frame drew it anew.
    bool fresh() const { return fresh_; }
    // The camera is on its way, a hover is due or the picture can be drawn finer: another frame is wanted.
    bool moving() const { return turning_ || hoverDue_ || refineDue_; }

private:
    void takeTrial(const Session& session);
    void takeTime(double timeS);
    void turnCamera(const PaneContext& context, float aspect);
    void takeCamera();
    void handleMouse(const PaneContext& context, const SceneOptions& options, const Rect& rect, bool hovered,
                     bool active);
    Quality qualityFor(QualityChoice choice, bool changed, double now);
    void takePace(double now);
    void tellTrouble(const PaneContext& context);
    void followTool(const PaneContext& context);
    bool lessMotion(const PaneContext& context) const;
    void centreOn(const PaneContext& context, const SceneOptions& options, glm::vec2 pixel);
    std::optional<glm::vec3> placeUnder(const SceneOptions& options, glm::vec2 pixel) const;
    void render(const PaneContext& context, SceneOptions options, int width, int height);
    void pickLine(const PaneContext& context, const SceneOptions& options, glm::vec2 pixel);
    void hover(const PaneContext& context, const SceneOptions& options, glm::vec2 pixel, bool hovered);
    void takeMeasure(const Session& session);
    void nameBody(const SceneOptions& options, glm::vec2 pixel);
    void pickBody(const PaneContext& context, const SceneOptions& options, glm::vec2 pixel);
    void drawMarks(const PaneContext& context, const Rect& rect, bool hovered);
    void markFindings(const PaneContext& context, const Rect& rect, bool hovered);
    void markFinding(const PaneContext& context, const Rect& rect, const Finding& finding, bool hovered);
    void drawButtons(const PaneContext& context, const Rect& rect);

    LatheScene scene_;
    Picture picture_;
    GLuint texture_ = 0;  // of it
    bool fresh_ = false;
    std::shared_ptr<const Trial> trial_;
    std::optional<StockCursor> cursor_;
    SceneInstant instant_;
    double timeS_ = -1;

    Camera camera_;
    Camera turnFrom_;
    std::optional<BodyMeasure> bodies_;
    std::array<int, 2> measuredBodies_{kNoBody, kNoBody};
    std::optional<Nearness> measured_;
    std::optional<SpacePoint> wantedPlace_, place_;    // to be looked at; being turned to
    std::optional<ViewName> wanted_ = ViewName::Part;  // to be turned to
    std::optional<ViewName> shown_;                    // followed until the user takes the camera
    double turnStart_ = 0;
    float aspect_ = 1;
    bool turning_ = false;
    bool framed_ = false;  // a view was taken since the start
    bool still_ = false;
    bool bare_ = false;

    // What the texture shows, to draw anew only on a change.
    Camera drawnCamera_;
    SceneOptions drawnOptions_;
    int drawnWidth_ = 0, drawnHeight_ = 0;
    bool drawn_ = false;

    QualityPace pace_;
    PictureTimer timer_;
    bool software_ = true, softwareKnown_ = false;
    double lastChange_ = -1, interval_ = 0;
    bool refineDue_ = false;
    std::string troubleTold_;

    std::optional<glm::vec3> centre_;  // being turned to
    double followedS_ = -1;            // when the camera last went along with the tool
    bool systemLessMotion_ = systemWantsLessMotion();

    glm::vec2 restingAt_{0};
    double restingSince_ = 0;
    bool hoverDue_ = false;
    std::optional<ScenePick> resting_;
};

}  // namespace firstoff::gui
