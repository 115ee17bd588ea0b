#include "gui/app.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gui/clearance_words.h"
#include "gui/menu_bar.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"
#include "sim/base/told_apart.h"
#include "sim/output/shipped_assets.h"

namespace firstoff::gui {

App::App(const Startup& startup, std::function<void()> wake)
    : worker_(wake), finishWorker_(wake), program_(session_.document) {
    keepsSettings_ = !startup.picture && startup.benchFrames == 0;
    settingsFile_ = startup.settingsFile.empty() && keepsSettings_ ? viewSettingsPath() : startup.settingsFile;
    kept_ = session_.view = loadViewSettings(settingsFile_);
    below_ = session_.view.below;
    inPlace_ = session_.view.inPlace;
    if (startup.projector) session_.view.projector = true;
    if (startup.dark) session_.view.setDarkLook(*startup.dark);
    if (startup.quality) session_.view.quality = *startup.quality;
    if (startup.neighbours) session_.view.neighbours = *startup.neighbours;
    if (startup.chips) session_.view.chips = true;
    if (startup.cutaway != 0) session_.view.cutaway = startup.cutaway;
    if (startup.colouring != Colouring::Metal) session_.view.colouring = startup.colouring;
    if (startup.section) session_.view.section.shown = *startup.section;
    const std::filesystem::path state = !startup.stateFolder.empty() ? startup.stateFolder
                                        : keepsSettings_             ? stateFolder()
                                                                     : std::filesystem::path();
    lessons_ =
        std::make_unique<LessonRoom>(shippedAsset("lessons"), state.empty() ? state : state / "progress.toml", wake);
    watchesFile_ = keepsSettings_ || !startup.stateFolder.empty();
    if (watchesFile_) recovery_ = Recovery(startup.stateFolder.empty() ? recoveryFolder() : startup.stateFolder);
    wantedScale_ = static_cast<float>(startup.scale);
    sceneOnly_ = startup.sceneOnly;
    openFirst(startup);
    if (startup.view) scene_.show(*startup.view);
    if (startup.lesson) {
        apply(OpenLesson{*startup.lesson});
        if (startup.lessonStep > 0) lessons_->go(startup.lessonStep);
        askedPage_ = Tab::Lesson;
    }
    if (!startup.page.empty()) {
        askedPage_ = tabNamed(startup.page).value_or(Tab::Clearances);
        showPage(*askedPage_);
        session_.view.findingsHeight = std::max(session_.view.findingsHeight, 360.0f);  // room for the table
    }
    asked_ = session_.view;
}

Rect App::tabPlace(std::string_view words) const {
    for (const TabButton& tab : tabs_) {
        if (tab.name.substr(0, words.size()) == words) return tab.place;
    }
    return {};
}

void App::takeUp(const Session& session) {
    // The trial of the file as it was opened is of no use: what was typed since is in the session.
    worker_.cancel();
    worker_.finish();
    taken_ = worker_.latest();
    session_ = session;
    session_.playing = false;
    program_.reset();
    if (session_.stale()) runTrial();
}

std::size_t App::shownLine() const {
    if (!session_.trial() || instant_.block == kNoBlock) return 0;
    return (instant_.geometry != kNoBlock ? instant_.geometry : instant_.block) + std::size_t{1};
}

const char* App::shownPage() const {
    return nameOf(findingsFolded_ ? inPlace_ : below_);
}

// What the command line asked for once is not how the user left the window.
ViewSettings App::settingsToKeep() const {
    ViewSettings view = withoutAsked(session_.view, asked_, kept_);
    if (below_ != askedPage_) view.below = below_;
    if (inPlace_ != askedPage_) view.inPlace = inPlace_;
    return view;
}

App::~App() {
    if (!settingsFile_.empty()) saveViewSettings(settingsToKeep(), settingsFile_);
}

void App::openFirst(const Startup& startup) {
    const std::filesystem::path program = startup.program ? *startup.program : shippedAsset("jobs/coupling-spigot.nc");
    if (program.empty()) {
        tell(tr(
            "The demo job was not found. Open a program with File > Open program, or set FIRSTOFF_ASSETS to the folder "
            "that holds it."));
        return;
    }
    if (startup.setup) {
        // The set-up that was asked for or none: never quietly another.
        if (readProgramFile(program)) readSetupFile(*startup.setup);
    } else {
        apply(OpenProgram{program});
    }
    runTrial();
}

bool App::prepare(float displayScale) {
    const float scale = (wantedScale_ > 0 ? wantedScale_ : displayScale) * session_.view.scale;
    const bool look = !styled_ || session_.view.projector != styleProjector_ || session_.view.darkLook() != styleDark_;
    const bool fonts = !styled_ || scale != styleScale_ || session_.view.projector != styleProjector_;
    if (fonts) {
        const bool told = fonts_.fallback;
        fonts_ = loadFonts(scale, session_.view.projector);
        styleScale_ = scale;
        if (fonts_.fallback && !told)
            tell(tr("The DejaVu typefaces were not found; a plain built-in one is used. Install fonts-dejavu-core."));
    }
    if (fonts || look) {
        styleDark_ = session_.view.darkLook();
        styleProjector_ = session_.view.projector;
        applyStyle(palette(), fonts_.scale);
    }
    styled_ = true;
    return fonts;
}

std::string App::title() const {
    return fmt::format("{}{} – firstoff", session_.modified() ? "* " : "", session_.programName());
}

double App::cycleTimeS() const {
    return session_.trial() ? session_.trial()->timeline.cycleTimeS : 0;
}

void App::frame(double now) {
    takeOutcome();
    followLesson();
    advance(now);
    now_ = now;
    shownAtS_ = session_.timeS;
    session_.progress = worker_.progress();
    lookAfterFile();
    if (trialDue_ >= 0 && now >= trialDue_) runTrial();
    if (wholeDue_ >= 0 && now >= wholeDue_) {
        wholeDue_ = -1;
        requestChanges(false);
    }
    const bool shown = session_.trial() != nullptr;
    takeInstant();
    askForFinish();
    walkByKeys();
    const PaneContext context{session_, shown ? &instant_ : nullptr, commands_, palette(), fonts_, input_, now};
    drawPanes(context);
    handleKeys(context);
    input_.clear();
    applyAll();
    if (!ImGui::IsAnyItemActive() && !ImGui::IsMouseDown(ImGuiMouseButton_Left)) ++gesture_;
}

// A new trial from the worker: keep the moment shown as well as can be.
void App::takeOutcome() {
    auto outcome = worker_.latest();
    if (!outcome || outcome == taken_) return;
    taken_ = outcome;
    if (!outcome->trial) {
        // Cancelled or failed: what was shown stays.
        if (!outcome->failure.empty()) tell(outcome->failure);
        return;
    }
    if (!outcome->comparison) {
        // Lines of the trial before this one are followed no longer than until here.
        if (session_.asWritten) session_.document.forgetShiftsBefore(session_.asWritten->revision);
        session_.asWritten = outcome;
    }
    // The changes were put away while they were tried.
    if (outcome->comparison && session_.whatIf.empty() && !session_.mistake) return;
    const bool written = !outcome->comparison;
    show(std::move(outcome));
    // The switches of the panel stay as they are when the program changes, all of it when the language does.
    if (written && (!session_.whatIf.empty() || session_.mistake)) requestChanges(false);
}

void App::show(std::shared_ptr<const TrialOutcome> outcome) {
    const bool atEnd = session_.trial() && session_.timeS >= cycleTimeS() && session_.timeS > 0;
    forgetOtherBodies(*outcome->trial);
    session_.outcome = std::move(outcome);
    session_.picked.reset();
    session_.encounter.reset();
    session_.timeS = atEnd ? cycleTimeS() : std::min(session_.timeS, cycleTimeS());
    session_.step = kNoStep;
    // The user stands on a line and edits there: show the moment of that line.
    if (session_.chosen != kNoBlock && !session_.playing) apply(SelectLine{program_.caretLine(), false});
}

bool App::hasBodiesOf(const Trial& next) const {
    const Trial* before = session_.trial();
    if (!before || !before->clearance.bodies || !next.clearance.bodies) return false;
    const std::size_t count = next.clearance.bodies->bodies.size();
    if (before->clearance.bodies->bodies.size() != count) return false;
    for (int body = 0; body < static_cast<int>(count); ++body) {
        if (bodyTitle(next, body) != bodyTitle(*before, body)) return false;
    }
    return true;
}

// What was being measured stays, where the machine is the same.
void App::forgetOtherBodies(const Trial& next) {
    const Trial* before = session_.trial();
    if (!hasBodiesOf(next)) session_.changes.forget({ChangeHistory::Part::Measure});
    for (int& body : session_.measure) {
        if (body == kNoBody || !before) continue;
        const bool there = next.clearance.bodies && before->clearance.bodies &&
                           static_cast<std::size_t>(body) < next.clearance.bodies->bodies.size() &&
                           bodyTitle(next, body) == bodyTitle(*before, body);
        if (!there) body = kNoBody;
    }
}

void App::advance(double now) {
    // A frame after a long sleep must not leap.
    constexpr double kLongestFrameS = 0.1;
    if (!session_.playing || !session_.trial()) return;
    const PlayRules rules{session_.view.playSpeed, session_.view.playByBlock, session_.singleBlock, session_.loop};
    const PlayPlace place{session_.timeS, session_.step, session_.share, true, session_.holding};
    const PlayPlace next =
        played(*session_.trial(), *session_.index(), place, rules, std::clamp(now - now_, 0.0, kLongestFrameS));
    session_.held = session_.holding && !next.playing;
    session_.holding = session_.holding && next.playing;
    session_.timeS = next.timeS;
    session_.step = next.step;
    session_.share = next.share;
    session_.playing = next.playing;
    session_.chosen = kNoBlock;
    session_.picked.reset();
    session_.encounter.reset();
}

// Of the picked surface, or of the line that stands on screen; not of every line that flies past while it plays.
void App::askForFinish() {
    session_.finish = finishWorker_.latest();
    if (!finishInSight_ || !session_.trial()) {
        session_.finishWanted.reset();
        return;
    }
    if (session_.playing && session_.finishWanted) return;
    FinishQuestion question;
    question.trial = session_.outcome->trial;
    if (session_.picked) {
        question.block = session_.picked->block;
        question.place = session_.picked->place;
        question.timeS = session_.picked->timeS;
    } else if (session_.chosen != kNoBlock) {
        question.block = session_.chosen;
    } else if (instant_.hasMoves) {
        question.block = question.trial->shownBlock(question.trial->timeline.moves[instant_.timed].move);
    }
    if (question.block == kNoBlock) {
        session_.finishWanted.reset();
    } else if (session_.finishWanted != question) {
        session_.finishWanted = question;
        finishWorker_.ask(std::move(question));
    }
}

void App::takeInstant() {
    if (session_.trial()) instant_ = instantAt(*session_.trial(), *session_.index(), session_.timeS, session_.step);
}

void App::seekAtOnce() {
    const std::vector<Seek> seeks = commands_.takeSeeks();
    for (const Seek& seek : seeks) apply(seek);
    if (!seeks.empty()) takeInstant();
}

void App::drawPanes(const PaneContext& context) {
    const ImVec2 display = ImGui::GetIO().DisplaySize;
    if (sceneOnly_) {
        scene_.setBare(true);
        scene_.follow(session_);
        scene_.draw(context, {0, 0, display.x, display.y});
        return;
    }
    LayoutSpace space{display.x, display.y, fonts_.scale,
                      drawMenuBar(context, dialogs_, std::exchange(openMenus_, false)), 0};
    space.footHeight = verdict_.height(context, display.x);
    const Layout layout = layOut(space, session_.view);
    timelinePlace_ = layout.timeline;
    if (layout.program.empty()) program_.leave();
    // First of all, so that the same frame shows where the hand takes the time.
    if (!layout.timeline.empty()) timeline_.draw(context, layout.timeline, layout.lanesFolded);
    seekAtOnce();
    scene_.follow(session_);
    if (!layout.picture.empty()) scene_.draw(context, layout.picture);
    if (!layout.section.empty()) section_.draw(context, layout.section, layout.picture.empty());
    session_.measured = scene_.measured();
    if (layout.readoutsFolded) {
        readouts_.drawStrip(context, layout.readouts);
    } else {
        readouts_.draw(context, layout.readouts);
    }
    findingsFolded_ = layout.findingsFolded;
    if (!layout.findingsFolded && !layout.program.empty()) program_.draw(context, layout.program);
    drawTabs(context, layout);
    transport_.draw(context, layout.transport);
    if (!layout.panel.empty()) panel_.draw(context, layout.panel);
    verdict_.draw(context, layout.foot);
    drawSplitters(context, layout, space);
    drawMessage(context, layout);
    notices_.draw(context, layout.picture);
    browser_.draw(context);
    dialogs_.draw(context);
    renumber_.draw(context);
    compare_.draw(context);
}

std::vector<TabButton> App::tabButtons(bool withProgram) const {
    const Trial* trial = session_.trial();
    std::size_t out = 0;
    if (trial) {
        for (const GaugedDimension& d : trial->gauged.dimensions) out += d.state != GaugedDimension::State::Within;
    }
    std::vector<TabButton> buttons;
    const auto add = [&](Tab tab, const char* name, std::size_t count = 0, bool always = false) {
        std::string text = afterBar(tr(name));
        if (count > 0 || always) text += fmt::format(" {}", count);
        buttons.push_back({static_cast<int>(tab), afterBar(name), std::move(text), {}});
    };
    if (withProgram) add(Tab::Program, later("Program"));
    add(Tab::Findings, later("Findings"), trial ? trial->findings.size() : 0, true);
    add(Tab::Words, later("Words"));
    add(Tab::Lesson, later("Lessons"));
    add(Tab::Sizes, later("Sizes"), out);
    add(Tab::Clearances, later("Clearances"), trial ? trial->clearance.encounters.size() : 0);
    add(Tab::Cut, later("tab|Cut"));
    add(Tab::Time, later("Time"));
    add(Tab::Finish, later("Finish"));
    add(Tab::Bodies, later("Bodies"));
    add(Tab::Changes, later("What if"));
    add(Tab::Mistakes, later("Mistakes"));
    return buttons;
}

// Findings and what else is told of the trial share one place; in a low window the program stands there as well.
void App::drawTabs(const PaneContext& context, const Layout& layout) {
    const Rect& place = layout.findingsFolded ? layout.program : layout.findings;
    Tab& shown = layout.findingsFolded ? inPlace_ : below_;
    finishInSight_ = shown == Tab::Finish && !place.empty();
    tabs_.clear();
    pagePlace_ = {};
    if (place.empty()) return;
    tabs_ = tabButtons(layout.findingsFolded);
    const float height = tabStripHeight(context, tabs_, place.w);
    shown =
        static_cast<Tab>(drawTabStrip(context, tabs_, static_cast<int>(shown), {place.x, place.y, place.w, height}));
    pagePlace_ = {place.x, place.y + height, place.w, place.h - height};
    PaneContext own = context;
    own.keysOnPage = keysOnPage_;
    own.keysTaken = std::exchange(takePageKeys_, false);
    drawTab(own, shown, pagePlace_);
}

void App::drawTab(const PaneContext& context, Tab tab, const Rect& rect) {
    if (tab == Tab::Program) {
        program_.draw(context, rect);
        return;
    }
    if (findingsFolded_) program_.leave();
    switch (tab) {
        case Tab::Program:
            break;
        case Tab::Findings:
            findings_.draw(context, rect);
            break;
        case Tab::Lesson:
            lesson_.draw(context, rect, *lessons_);
            break;
        case Tab::Words:
            words_.draw(context, rect);
            break;
        case Tab::Finish:
            finish_.draw(context, rect);
            break;
        case Tab::Clearances:
            clearances_.draw(context, rect);
            break;
        case Tab::Bodies:
            bodies_.draw(context, rect);
            break;
        case Tab::Sizes:
            sizes_.draw(context, rect);
            break;
        case Tab::Cut:
            cut_.draw(context, rect);
            break;
        case Tab::Time:
            time_.draw(context, rect);
            break;
        case Tab::Changes:
            changes_.draw(context, rect);
            break;
        case Tab::Mistakes:
            mistakes_.draw(context, rect);
            break;
    }
}

void App::drawSplitters(const PaneContext& context, const Layout& layout, const LayoutSpace& space) {
    ViewSettings view = boundedSizes(session_.view, space);
    if (view.findingsHeight <= 0) view.findingsHeight = layout.findings.h / space.scale;
    bool dragged = false;
    const auto splitter = [&](const char* id, const Rect& rect, bool upright, float& size, float sign) {
        if (rect.empty()) return;
        const PaneFrame frame(id, rect, context, ImGuiWindowFlags_NoBackground, false);
        ImGui::InvisibleButton("drag", {rect.w, rect.h});
        const bool active = ImGui::IsItemActive();
        if (active || ImGui::IsItemHovered()) {
            ImGui::SetMouseCursor(upright ? ImGuiMouseCursor_ResizeEW : ImGuiMouseCursor_ResizeNS);
            ImGui::GetWindowDrawList()->AddRectFilled({rect.x, rect.y}, {rect.right(), rect.bottom()},
                                                      ink(context.palette.accent, 0.6f));
        }
        if (!active) return;
        const ImVec2 delta = ImGui::GetIO().MouseDelta;
        size += sign * (upright ? delta.x : delta.y) / space.scale;
        dragged = true;
    };
    splitter("beside readouts", layout.besideReadouts, true, view.readoutsWidth, 1);
    splitter("beside program", layout.besideProgram, true, view.programWidth, -1);
    splitter("above findings", layout.aboveFindings, false, view.findingsHeight, -1);
    const float shared = layout.picture.h + layout.section.h;
    float drawing = layout.section.h / space.scale;
    splitter("above section", layout.aboveSection, false, drawing, -1);
    if (shared > 0 && !layout.aboveSection.empty())
        view.section.share = std::clamp(drawing * space.scale / shared, 0.15f, 0.85f);
    splitter("above timeline", layout.aboveTimeline, false, view.timelineHeight, -1);
    if (dragged) commands_.add(ChangeView{view});
}

// Trouble with the outside world, in plain words, until it is put away.
void App::drawMessage(const PaneContext& context, const Layout& layout) {
    if (session_.message.empty()) return;
    const float width = std::min(layout.picture.w - context.px(20), context.px(620));
    ImGui::SetNextWindowPos({layout.picture.x + 0.5f * layout.picture.w, layout.picture.bottom() - context.px(12)}, 0,
                            {0.5f, 1});
    ImGui::SetNextWindowSize({std::max(width, context.px(160)), 0});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowRounding, context.px(4));
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 1.0f);
    ImGui::PushStyleColor(ImGuiCol_Border, tint(context.palette.severity[1]));
    ImGui::Begin("message", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                     ImGuiWindowFlags_NoFocusOnAppearing | ImGuiWindowFlags_NoNav);
    const float close = context.px(64);
    const float room = std::max(context.px(80), ImGui::GetWindowWidth() - close - context.px(34));
    ImGui::TextUnformatted(wrapped(*fonts_.text, room, session_.message).c_str());
    ImGui::SameLine(ImGui::GetWindowWidth() - close - context.px(10));
    if (ImGui::Button(tr("Close"), {close, 0})) session_.message.clear();
    ImGui::End();
    ImGui::PopStyleColor();
    ImGui::PopStyleVar(2);
}

double App::restS() const {
    constexpr double kForever = 60;
    constexpr double kBlinkS = 0.53;
    constexpr double kHoverS = 0.05;
    constexpr double kProgressS = 0.1;
    constexpr double kLookAtDiskS = 2;
    double rest = kForever;
    if (session_.playing || scene_.moving() || program_.restless()) return 0;
    if (program_.hasFocus()) rest = std::min(rest, kBlinkS);
    if (program_.hoverDue()) rest = std::min(rest, kHoverS);
    if (compare_.restless()) rest = std::min(rest, kProgressS);
    if (watchesFile_) rest = std::min(rest, kLookAtDiskS);
    if (recovery_.dueInS(now_) >= 0) rest = std::min(rest, recovery_.dueInS(now_));
    if (session_.progress.busy) rest = std::min(rest, kProgressS);
    if (trialDue_ >= 0) rest = std::min(rest, std::max(0.0, trialDue_ - now_));
    if (wholeDue_ >= 0) rest = std::min(rest, std::max(0.0, wholeDue_ - now_));
    return rest;
}

void App::settle(const Startup& startup) {
    worker_.finish();
    takeOutcome();
    if (startup.lesson) {
        followLesson();  // the lesson's own job comes up
        worker_.finish();
        takeOutcome();
        followLesson();
    }
    scene_.setStill(startup.picture.has_value());
    if (startup.atTimeS) {
        apply(Seek{*startup.atTimeS});
    } else if (startup.atLine) {
        const auto line = static_cast<std::size_t>(*startup.atLine);
        if (line > session_.document.lineCount()) {
            throw UsageError(say("--at-line {}: the program has {} lines.", line, session_.document.lineCount()));
        }
        apply(SelectLine{line - 1, true});
    } else if (startup.picture && !startup.lesson) {
        apply(ToEnd{});
    }
}

}  // namespace firstoff::gui
