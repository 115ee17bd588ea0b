#include "gui/state_report.h"

#include <nlohmann/json.hpp>

#include "gui/file_io.h"

namespace firstoff::gui {

namespace {

const char* nameOf(Verdict verdict) {
    switch (verdict) {
        case Verdict::Clear:
            return "clear";
        case Verdict::Problems:
            return "problems";
        case Verdict::NotProven:
            return "not-proven";
    }
    return "";
}

const char* nameOf(SectionSettings::Shown shown) {
    switch (shown) {
        case SectionSettings::Shown::PictureOnly:
            return "none";
        case SectionSettings::Shown::Both:
            return "beside";
        case SectionSettings::Shown::SectionOnly:
            return "alone";
    }
    return "";
}

}  // namespace

std::string windowReport(const App& app) {
    const Session& s = app.session();
    const Trial* trial = s.trial();
    nlohmann::ordered_json report;
    report["format"] = "firstoff-window-report";
    report["version"] = 1;
    const bool unnamed = s.programPath.empty() && !s.inLesson;
    report["program"] = unnamed ? "untitled" : s.programName();
    report["setup"] = s.setupPath.filename().string();
    report["modified"] = s.modified();
    report["stale"] = s.stale();
    report["busy"] = s.progress.busy;
    report["verdict"] = trial ? nameOf(trial->verdict) : "";
    report["findings"] = trial ? trial->findings.size() : 0;
    report["time_s"] = s.timeS;
    report["cycle_s"] = trial ? trial->timeline.cycleTimeS : 0;
    report["line"] = app.shownLine();
    report["playing"] = s.playing;
    report["held"] = s.held;
    report["single_block"] = s.singleBlock;
    report["page"] = app.shownPage();
    report["half_section"] = nameOf(s.view.section.shown);
    const bool sectionSeen = s.view.section.shown != SectionSettings::Shown::PictureOnly;
    report["gauged"] = sectionSeen ? app.section().gauged(Measures(s.view.units)) : std::string();
    report["looked_up"] = app.words().lookedUp();
    report["found"] = app.words().lookedUp().empty() ? 0 : app.words().found();
    report["changes"] = s.showsChanges();
    report["mistake"] = s.mistake ? s.mistake->told : "";
    const LessonRoom& room = app.lessons();
    report["lesson"] = room.lesson() ? room.lesson()->name : "";
    report["step"] = room.lesson() ? room.step() : 0;
    const StepWork* work = room.workAt(room.step());
    report["mark"] = work && work->marking ? name(work->marking->mark) : "";
    // Where it stands on screen, px: for whoever moves the mouse.
    const auto placed = [](const Rect& r) { return nlohmann::ordered_json{r.x, r.y, r.w, r.h}; };
    report["page_at"] = placed(app.pagePlace());
    for (const TabButton& tab : app.tabs())
        report["tabs_at"][std::string(tab.name.substr(0, tab.name.find(' ')))] = placed(tab.place);
    report["message"] = s.message;
    return report.dump(1) + '\n';
}

void StateReport::write(const App& app) {
    if (file_.empty()) return;
    std::string now = windowReport(app);
    if (now == last_) return;
    writeWholeFile(file_, now);
    last_ = std::move(now);
}

}  // namespace firstoff::gui
