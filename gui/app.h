// The application: the session, the panes, and the one place where commands are carried out.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "gui/backup.h"
#include "gui/bodies_pane.h"
#include "gui/changes_pane.h"
#include "gui/clearance_pane.h"
#include "gui/compare_pane.h"
#include "gui/cut_pane.h"
#include "gui/dialogs.h"
#include "gui/disk_watch.h"
#include "gui/file_browser.h"
#include "gui/file_notices.h"
#include "gui/findings_pane.h"
#include "gui/finish_pane.h"
#include "gui/finish_worker.h"
#include "gui/lessons/lesson_pane.h"
#include "gui/mistakes_pane.h"
#include "gui/operator_panel.h"
#include "gui/program_pane.h"
#include "gui/readout_pane.h"
#include "gui/recovery.h"
#include "gui/renumber_dialog.h"
#include "gui/scene_pane.h"
#include "gui/section/section_pane.h"
#include "gui/session.h"
#include "gui/shown_picture.h"
#include "gui/sizes_pane.h"
#include "gui/startup.h"
#include "gui/tab.h"
#include "gui/tab_strip.h"
#include "gui/time_pane.h"
#include "gui/timeline_view.h"
#include "gui/transport_bar.h"
#include "gui/trial_worker.h"
#include "gui/verdict_strip.h"
#include "gui/words_pane.h"

namespace firstoff::gui {

class App {
public:
    // A GL context and a context of the drawing library must be current, the same ones for every call. `wake` is called
    // from any thread when there is something new to draw.
    App(const Startup& startup, std::function<void()> wake);
    ~App();
    App(const App&) = delete;
    App& operator=(const App&) = delete;

    // Before each frame of the drawing library: takes up a new scale or look. True when the type was loaded anew, so
    // that the renderer has to make its texture again.
    bool prepare(float displayScale);
    // Everything between the beginning of a frame and its rendering. `now` in s, of a clock that only runs forward.
    void frame(double now);
    // How long nothing needs to be drawn if nothing happens, s; 0: at once.
    double restS() const;

    void input(const InputEvent& event) { input_.push_back(event); }
    void dropFiles(const std::vector<std::filesystem::path>& paths);
    void askToClose() { commands_.add(Quit{}); }
    bool closed() const { return closed_; }
    void rememberWindow(int width, int height) {
        session_.view.windowWidth = width;
        session_.view.windowHeight = height;
    }
    // Where the lanes stood in the last frame, for those who drag there by hand of a program.
    const Rect& timelinePlace() const { return timelinePlace_; }
    // Goes on from where another application of the same computer was, unsaved text and all.
    void takeUp(const Session& session);
    void setQuality(QualityChoice quality) { session_.view.quality = quality; }
    std::string title() const;
    // What the window is cleared to: it shows between the panes.
    Colour ground() const { return palette().ground; }
    ShownPicture shownPicture() const {
        return {reinterpret_cast<ImTextureID>(static_cast<std::uintptr_t>(scene_.texture())), scene_.fresh()};
    }
    const Palette& palette() const { return paletteFor(styleDark_, styleProjector_); }
    const Fonts& fonts() const { return fonts_; }

    // For pictures and measurements: waits for the trial and goes where the command line says; pictures move without
    // easing.
    void settle(const Startup& startup);
    void setTime(double timeS) { apply(Seek{timeS}); }
    // What the last frame showed.
    const Instant& instant() const { return instant_; }
    double cycleTimeS() const;
    const Session& session() const { return session_; }
    const ProgramPane& programPane() const { return program_; }
    const RenumberDialog& renumberDialog() const { return renumber_; }
    const ComparePane& comparePane() const { return compare_; }
    const FileNotices& fileNotices() const { return notices_; }
    template <class One>  // of the commands of gui/command.h
    void carryOut(One command) {
        commands_.add(std::move(command));
    }
    // Where the tab stands whose name in English begins so, and the page beneath the tabs, as drawn last; empty: not in
    // sight.
    Rect tabPlace(std::string_view words) const;
    Rect pagePlace() const { return pagePlace_; }
    const std::vector<TabButton>& tabs() const { return tabs_; }
    // For reports: the line that runs (from 1; 0: none), the page beneath the tabs, the training room.
    std::size_t shownLine() const;
    const char* shownPage() const;
    const LessonRoom& lessons() const { return *lessons_; }
    const SectionPane& section() const { return section_; }
    const WordsPane& words() const { return words_; }
    // A picture or a video that the user asked for; the shell, which has the pixels, writes it.
    std::filesystem::path takePictureWish() { return std::exchange(pictureWish_, {}); }
    std::filesystem::path takeVideoWish() { return std::exchange(videoWish_, {}); }
    // Tells how such a wish ended.
    void tell(std::string message) { session_.message = std::move(message); }

private:
    ViewSettings settingsToKeep() const;
    void openFirst(const Startup& startup);
    void takeOutcome();
    void show(std::shared_ptr<const TrialOutcome> outcome);
    void requestChanges(bool quickLook);
    void forgetOtherBodies(const Trial& next);
    bool hasBodiesOf(const Trial& next) const;
    void advance(double now);
    void takeInstant();
    void seekAtOnce();
    void drawPanes(const PaneContext& context);
    void drawSplitters(const PaneContext& context, const Layout& layout, const LayoutSpace& space);
    void drawTabs(const PaneContext& context, const Layout& layout);
    std::vector<TabButton> tabButtons(bool withProgram) const;
    void drawTab(const PaneContext& context, Tab tab, const Rect& rect);
    void askForFinish();
    void drawMessage(const PaneContext& context, const Layout& layout);
    void handleKeys(const PaneContext& context);
    void handleUndoKey(const InputEvent& event);
    void handleCtrlKey(const InputEvent& event);
    void handleViewKey(const InputEvent& event);
    void handleTimeKey(const InputEvent& event);
    void runTrial();
    void applyAll();
    void carryOutAll(const Commands& commands);
    void go(const ChangeHistory::Step& step);
    void keepLesson();
    void goOnInLesson();
    void followLesson();
    void takeLessonScene(LessonScene scene);
    void showLessonScene();
    void showMoment(LessonView view, const std::optional<LinePlace>& line, std::optional<double> timeS);
    void showPage(Tab tab);
    void turnPage(int by);
    void walkByKeys();
    void handleWalkKey(const InputEvent& event);

    void showLineOf(std::size_t timedMove);

    void apply(const TryMistake& command);
    void apply(const AskForPaper& command);
    void apply(const WritePaper& command);
    void apply(const SavePicture& command);
    void apply(const SaveVideo& command);
    void apply(const ShowLessons& command);
    void apply(const OpenLesson& command);
    void apply(const CloseLesson& command);
    void apply(const LessonStepTo& command);
    void apply(const MarkStep& command);
    void apply(const TellAnswer& command);
    void apply(const ShowFigure& command);
    void apply(const PlaceClicked& command);
    void apply(const PlaceTyped& command);
    void apply(const SingleBlock& command);
    void apply(const HoldFeed& command);
    void apply(const LoopSpan& command);
    void apply(const Bookmark& command);
    void apply(const ToBookmark& command);
    void apply(const Seek& command);
    void apply(const SeekStep& command);
    void apply(const SelectLine& command);
    void apply(const ShowLine& command);
    void apply(const PickSurface& command);
    void apply(const ShowEncounter& command);
    void apply(const ShowNearest& command);
    void apply(const MeasureBody& command);
    void apply(const PickForMeasure& command);
    void apply(const TogglePlay& command);
    void apply(const StepBlocks& command);
    void apply(const ToStart& command);
    void apply(const ToEnd& command);
    void apply(const TextChanged& command);
    void apply(const EditProgram& command);
    void apply(const AskToRenumber& command);
    void apply(const Renumber& command);
    void apply(const SpaceWords& command);
    void apply(const MendFinding& command);
    void apply(const CompareWith& command);
    void apply(const ChangeText& command);
    void apply(const SaveCompared& command);
    void apply(const FileAnswer& command);
    void apply(const OpenProgram& command);
    void apply(const OpenSetup& command);
    void apply(const AskForFile& command);
    void apply(const Save& command);
    void apply(const SaveAs& command);
    void apply(const Reload& command);
    void apply(const CancelTrial& command);
    void apply(const TryChanges& command);
    void apply(const ChangeView& command);
    void apply(const UndoChange& command);
    void apply(const RedoChange& command);
    void apply(const ShowView& command);
    void apply(const MoveView& command);
    void apply(const GaugeNext& command);
    void apply(const ChooseLanguage& command);
    void apply(const Tell& command);
    void apply(const Quit& command);

    Program programAsItStands() const;
    void readAgainFromDisk();
    void lookAfterFile();
    bool replaceText(std::string text);
    bool readProgramFile(const std::filesystem::path& path);
    void forgetBookmarks();
    void followBookmarks();
    void forgetLoop();
    bool readSetupFile(const std::filesystem::path& path);
    bool saveTo(const std::filesystem::path& path);

    Session session_;
    TrialWorker worker_;
    FinishWorker finishWorker_;
    Commands commands_;
    InputEvents input_;
    std::shared_ptr<const TrialOutcome> taken_;  // the newest one looked at, shown or not
    Fonts fonts_;
    Instant instant_;

    ScenePane scene_;
    SectionPane section_;
    ProgramPane program_;
    TimelineView timeline_;
    TransportBar transport_;
    ReadoutPane readouts_;
    FindingsPane findings_;
    WordsPane words_;
    OperatorPanel panel_;
    LessonPane lesson_;
    AskForPaper paper_;
    std::filesystem::path pictureWish_, videoWish_;
    MistakesPane mistakes_;
    std::unique_ptr<LessonRoom> lessons_;
    std::optional<LessonScene> lessonScene_;  // to be shown once its trial is there
    FinishPane finish_;
    ClearancePane clearances_;
    BodiesPane bodies_;
    SizesPane sizes_;
    CutPane cut_;
    TimePane time_;
    ChangesPane changes_;
    VerdictStrip verdict_;
    FileBrowser browser_;
    Dialogs dialogs_;
    RenumberDialog renumber_;
    ComparePane compare_;
    FileNotices notices_;
    DiskWatch watch_;
    Backups backups_;
    Recovery recovery_;

    bool keepsSettings_ = true;           // pictures and measurements neither read nor write the user's settings
    std::filesystem::path settingsFile_;  // where they are kept; empty: nowhere
    bool watchesFile_ = true;             // likewise the file on disk and text that is not saved
    bool closed_ = false;
    bool discard_ = false;  // the user gave up unsaved changes
    // What stands below the program, and what in a low window in its place.
    Tab below_ = Tab::Findings, inPlace_ = Tab::Program;
    ViewSettings kept_, asked_;     // as they were kept, and with what the command line asked for
    std::optional<Tab> askedPage_;  // by the command line: not how the user left the window
    std::vector<TabButton> tabs_;   // as drawn last
    Rect pagePlace_;
    bool keysOnPage_ = false, takePageKeys_ = false;  // the page is walked through by keys; it shall take them
    bool menusByKey_ = false, openMenus_ = false;
    bool findingsFolded_ = false;
    bool finishInSight_ = false;
    double shownAtS_ = 0;  // the moment on screen when the frame began
    bool sceneOnly_ = false;
    float wantedScale_ = 0;  // from the command line; 0: none
    double now_ = 0;
    // Names what the user does in one go, such as a drag: changes within it are taken back together.
    std::uint64_t gesture_ = 1;
    double trialDue_ = -1;  // when the text rests and a trial starts; negative: none due
    double wholeDue_ = -1;  // when the sliders rest and the whole trial follows the quick look; likewise
    bool styleDark_ = true, styleProjector_ = false;
    float styleScale_ = 0;
    Rect timelinePlace_;
    bool styled_ = false;
};

}  // namespace firstoff::gui
