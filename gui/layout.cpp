#include "gui/layout.h"

#include <algorithm>
#include <cmath>

namespace firstoff::gui {

namespace {

// Measures at scale 1. Found by looking at windows from 320 x 240 to 3840 x 2160.
constexpr float kGap = 4;  // between panes; the splitters
constexpr float kTransport = 34;
constexpr float kPanel = 28;
constexpr float kPanelFrom = 560;     // window height from which the panel has room
constexpr float kStrip = 26;          // read-outs folded to one line
constexpr float kColumnsFrom = 1000;  // window width from which the read-outs get a column
constexpr float kProgramFrom = 460;   // window width from which the program is shown at all
constexpr float kFindingsFrom = 680;  // window height from which program and pages each get a pane
constexpr float kLanesFrom = 500;     // window height from which all lanes are shown
constexpr float kFoldedTimeline = 70;
constexpr float kTimelineFrom = 260;  // window height from which there is a timeline
constexpr float kLeastPicture = 220;
constexpr float kBothFrom = 260;  // height from which picture and half-section stand above each other

// Clamp that stays sane when a tiny window makes the bounds cross.
float within(float value, float low, float high) {
    return std::max(low, std::min(value, std::max(low, high)));
}

// The half-section beneath the picture, or in its place; also where there is no room for both.
void shareWithSection(const Rect& place, const SectionSettings& section, float gap, float scale, Layout& out) {
    using Shown = SectionSettings::Shown;
    const bool both = section.shown == Shown::Both && place.h >= kBothFrom * scale;
    if (section.shown == Shown::PictureOnly) {
        out.picture = place;
    } else if (!both) {
        out.section = place;
    } else {
        const float drawing = std::round(section.share * (place.h - gap));
        out.picture = {place.x, place.y, place.w, place.h - gap - drawing};
        out.aboveSection = {place.x, out.picture.bottom(), place.w, gap};
        out.section = {place.x, out.aboveSection.bottom(), place.w, drawing};
    }
}

}  // namespace

ViewSettings boundedSizes(ViewSettings view, const LayoutSpace& space) {
    const float width = space.width / space.scale;
    const float height = space.height / space.scale;
    view.readoutsWidth = within(view.readoutsWidth, 180, width * 0.3f);
    view.programWidth = within(view.programWidth, 190, std::min(width * 0.42f, width - kLeastPicture));
    view.timelineHeight = within(view.timelineHeight, 96, height * 0.5f);
    view.section.share = within(view.section.share, 0.15f, 0.85f);
    if (view.findingsHeight > 0) view.findingsHeight = within(view.findingsHeight, 90, height * 0.5f);
    return view;
}

Layout layOut(const LayoutSpace& space, const ViewSettings& wanted) {
    const ViewSettings view = boundedSizes(wanted, space);
    const float s = space.scale;
    const float gap = kGap * s;
    const float width = space.width / s;
    const float height = space.height / s;
    Layout out;
    // Before a projector few things, and those large.
    out.lanesFolded = height < kLanesFrom || view.projector;
    out.findingsFolded = height < kFindingsFrom || view.projector;
    out.readoutsFolded = width < kColumnsFrom || view.projector;
    const bool hasProgram = width >= kProgramFrom;
    const bool hasTimeline = height >= kTimelineFrom;

    float bottom = space.height - space.footHeight;
    out.foot = {0, bottom, space.width, space.footHeight};
    if (hasTimeline) {
        const float timeline = (out.lanesFolded ? kFoldedTimeline : view.timelineHeight) * s;
        bottom -= timeline + gap;
        out.timeline = {0, bottom, space.width, timeline};
    }
    if (view.panel && height >= kPanelFrom && width >= kProgramFrom) {
        bottom -= kPanel * s;
        out.panel = {0, bottom, space.width, kPanel * s};
    }
    bottom -= kTransport * s;
    out.transport = {0, bottom, space.width, kTransport * s};
    bottom -= gap;
    if (hasTimeline && !out.lanesFolded) out.aboveTimeline = {0, bottom, space.width, gap};

    const float top = space.menuHeight;
    const float middle = std::max(0.0f, bottom - top);
    float left = 0;
    float right = space.width;
    if (!out.readoutsFolded) {
        out.readouts = {0, top, view.readoutsWidth * s, middle};
        out.besideReadouts = {out.readouts.right(), top, gap, middle};
        left = out.besideReadouts.right();
    }
    if (hasProgram) {
        const float programWidth = view.programWidth * s;
        right -= programWidth;
        out.program = {right, top, programWidth, middle};
        right -= gap;
        out.besideProgram = {right, top, gap, middle};
        if (!out.findingsFolded) {
            const float half = 0.5f * (middle - gap);
            const float findings = view.findingsHeight > 0 ? std::min(view.findingsHeight * s, 0.6f * middle) : half;
            out.program.h = middle - findings - gap;
            out.aboveFindings = {out.program.x, out.program.bottom(), programWidth, gap};
            out.findings = {out.program.x, out.aboveFindings.bottom(), programWidth, findings};
        }
    }
    const float strip = out.readoutsFolded ? kStrip * s : 0;
    if (out.readoutsFolded) out.readouts = {left, top, right - left, strip};
    shareWithSection({left, top + strip, right - left, std::max(0.0f, middle - strip)}, view.section, gap, s, out);
    return out;
}

}  // namespace firstoff::gui
