#include "gui/finish_shell.h"

#include <fmt/format.h>

#include <string>
#include <vector>

#include "gui/figures.h"
#include "gui/file_io.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"
#include "sim/output/finish_table.h"
#include "sim/output/table_figures.h"

namespace firstoff::gui {

namespace {

constexpr Colour kOnSection = hex(0x15181D);  // reads on the colour of a section, dark look or light

// Over the picture of a strip.
class Words {
public:
    Words(const App& app, const FinishReport& report, const FinishStrip& strip, ImVec2 size)
        : app_(app),
          fonts_(app.fonts()),
          report_(report),
          strip_(strip),
          size_(size),
          list_(*ImGui::GetBackgroundDrawList()) {}

    void caption() {
        const Trial& trial = *app_.session().trial();
        const Roughness& r = report_.roughness;
        write(fonts_.text, surfaceInWords(trial, report_), app_.palette().text);
        write(fonts_.small, say("Cut by {}", cutByInWords(trial, report_)), app_.palette().text);
        std::string figures = fmt::format("{0}a {1:.3f}  {0}z {2:.3f}  {0}t {3:.3f} µm, ", r.filtered() ? 'R' : 'P',
                                          1e3 * r.ra, 1e3 * r.rz, 1e3 * r.rt);
        figures += r.filtered() ? say("cut-off {:.4g} mm", r.cutOff) : tr("not filtered");
        if (report_.theory) figures += fmt::format("; f²/8r {:.3f} µm", 1e3 * report_.theory->rtParabola);
        write(fonts_.small, figures, app_.palette().text);
        write(fonts_.small, say("Heights magnified {} times", tableFigure(strip_.magnified)), app_.palette().quiet);
    }

    // In the plane of the section, so that they are true there.
    void scaleBars() {
        const double along = niceStep(0.10 * kStripLength / strip_.unitsPerMm);
        const double up = niceStep(4 / strip_.unitsOfHeight(1));
        const glm::vec3 corner(-0.38 * kStripLength, kBarY, 0);
        const glm::vec3 right = corner + glm::vec3(along * strip_.unitsPerMm, 0, 0);
        const glm::vec3 top = corner + glm::vec3(0, strip_.unitsOfHeight(up), 0);
        const ImVec2 c = place(corner), x = place(right), y = place(top);
        const float thick = 2 * fonts_.scale, gap = 5 * fonts_.scale, size = fonts_.small->FontSize;
        list_.AddLine(c, x, ink(kOnSection), thick);
        list_.AddLine(c, y, ink(kOnSection), thick);
        list_.AddText(fonts_.small, size, {c.x, c.y + gap}, ink(kOnSection), (tableFigure(along) + " mm").c_str());
        const std::string height = tableFigure(1e3 * up) + " µm";
        const float width = fonts_.small->CalcTextSizeA(size, 1e9f, 0, height.c_str()).x;
        list_.AddText(fonts_.small, size, {y.x - gap - width, 0.5f * (c.y + y.y - size)}, ink(kOnSection),
                      height.c_str());
    }

private:
    static constexpr float kBarY = kStripFloor - 11;

    void write(ImFont* font, const std::string& text, Colour colour) {
        const float left = 14 * fonts_.scale;
        const std::string lines = wrapped(*font, size_.x - 2 * left, text);
        list_.AddText(font, font->FontSize, {left, down_}, ink(colour), lines.c_str());
        down_ += heightOf(*font, lines) + 4 * fonts_.scale;
    }

    ImVec2 place(glm::vec3 p) const {
        const Camera camera = stripCamera(size_.x / size_.y);
        const glm::vec4 clip = camera.projection(size_.x / size_.y) * camera.view() * glm::vec4(p, 1);
        return {(0.5f + 0.5f * clip.x / clip.w) * size_.x, (0.5f - 0.5f * clip.y / clip.w) * size_.y};
    }

    const App& app_;
    const Fonts& fonts_;
    const FinishReport& report_;
    const FinishStrip& strip_;
    ImVec2 size_;
    ImDrawList& list_;
    float down_ = 12;
};

}  // namespace

FinishReport finishOnScreen(const App& app) {
    const Session& session = app.session();
    if (!session.trial()) throw FileError(session.message.empty() ? tr("There is no trial.") : session.message);
    const Trial& trial = *session.trial();
    const BlockId block = session.chosen != kNoBlock ? session.chosen : trial.blockAt(session.timeS);
    const std::string line = block < trial.program.blocks.size() ? trial.program.lineName(block) : tr("that time");
    const auto report = finishOfSurface(trial, block, std::nullopt);
    if (!report) {
        throw FileError(
            say("At {} nothing is left of a surface along which a tool was fed; there is no finish to show.", line));
    }
    if (!report->trouble.empty()) {
        throw FileError(say("The surface that {} left has no finish to show: {}.", line, report->trouble));
    }
    return *report;
}

void drawFinish(const App& app, const FinishReport& report, FinishPicture& picture, int width, int height, bool bare) {
    const FinishStrip strip = finishStrip(report);
    picture.draw(strip, app.palette().dark, width, height);
    if (bare) return;
    Words words(app, report, strip, {static_cast<float>(width), static_cast<float>(height)});
    words.caption();
    words.scaleBars();
}

}  // namespace firstoff::gui
