#include "gui/menu_bar.h"

#include "sim/base/say.h"

#include <fmt/format.h>

#include <algorithm>

#include "gui/backup.h"
#include "gui/scene/lathe_scene.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

void fileMenu(const PaneContext& context) {
    const Session& session = context.session;
    Commands& commands = context.commands;
    if (ImGui::MenuItem(tr("Open program…"), tr("Ctrl+O"))) commands.add(AskForFile{AskForFile::What::Program});
    if (ImGui::MenuItem(tr("Open set-up…"), tr("Ctrl+Shift+O"))) commands.add(AskForFile{AskForFile::What::Setup});
    if (ImGui::BeginMenu(tr("Recent programs"), !session.view.recent.empty())) {
        for (const std::string& path : session.view.recent) {
            if (ImGui::MenuItem(path.c_str())) commands.add(OpenProgram{path});
        }
        ImGui::EndMenu();
    }
    ImGui::Separator();
    if (ImGui::BeginMenu(tr("Write paper"), session.trial() != nullptr)) {
        if (ImGui::MenuItem(tr("Set-up sheet…"))) commands.add(AskForPaper{SheetKind::Setup});
        if (ImGui::MenuItem(tr("Inspection sheet…"))) commands.add(AskForPaper{SheetKind::Inspection});
        if (ImGui::MenuItem(tr("Times…"))) commands.add(AskForPaper{SheetKind::Time});
        if (ImGui::MenuItem(tr("Findings…"))) commands.add(AskForPaper{SheetKind::Findings});
        if (ImGui::MenuItem(tr("Hand-out…"))) commands.add(AskForPaper{SheetKind::Handout});
        if (ImGui::MenuItem(tr("Hand-out with answers…"))) commands.add(AskForPaper{SheetKind::Handout, true});
        ImGui::EndMenu();
    }
    if (ImGui::MenuItem(tr("Save picture…"))) commands.add(AskForFile{AskForFile::What::Picture});
    if (ImGui::MenuItem(tr("Save video…"), nullptr, false, session.trial() != nullptr))
        commands.add(AskForFile{AskForFile::What::Video});
    ImGui::Separator();
    if (ImGui::MenuItem(tr("Lessons"))) commands.add(ShowLessons{});
    if (ImGui::MenuItem(tr("Open lesson…"))) commands.add(AskForFile{AskForFile::What::Lesson});
    ImGui::Separator();
    if (ImGui::MenuItem(tr("Save"), tr("Ctrl+S"), false, session.modified())) commands.add(Save{});
    if (ImGui::MenuItem(tr("Save as…"), tr("Ctrl+Shift+S"))) commands.add(AskForFile{AskForFile::What::SaveAs});
    if (ImGui::MenuItem(tr("Read both files again"), "F5")) commands.add(Reload{});
    if (ImGui::BeginMenu(tr("Compare with"))) {
        const bool saved = !session.programPath.empty();
        std::error_code error;
        const bool backup = saved && std::filesystem::exists(backupPath(session.programPath), error);
        if (ImGui::MenuItem(tr("the saved file"), nullptr, false, saved)) commands.add(CompareWith{});
        if (ImGui::MenuItem(tr("its backup"), nullptr, false, backup))
            commands.add(CompareWith{backupPath(session.programPath)});
        if (ImGui::MenuItem(tr("another file…"))) commands.add(AskForFile{AskForFile::What::Compare});
        ImGui::EndMenu();
    }
    ImGui::Separator();
    if (ImGui::MenuItem(tr("Quit"), tr("Ctrl+Q"))) commands.add(Quit{});
}

// What was changed besides text: says which, since it need not be in sight.
void changeItems(const PaneContext& context) {
    const ChangeHistory& changes = context.session.changes;
    const auto item = [&](const std::string& text, const char* id, const char* key, bool possible) {
        return ImGui::MenuItem((text + id).c_str(), key, false, possible);
    };
    const std::string undone = changes.undoWords(), redone = changes.redoWords();
    if (item(undone.empty() ? tr("Undo") : say("Undo: {}", undone), "###undo", tr("Ctrl+Z"), changes.canUndo()))
        context.commands.add(UndoChange{});
    if (item(redone.empty() ? tr("Redo") : say("Redo: {}", redone), "###redo", tr("Ctrl+Y"), changes.canRedo()))
        context.commands.add(RedoChange{});
    ImGui::Separator();
}

void editMenu(const PaneContext& context) {
    using What = EditProgram::What;
    Commands& commands = context.commands;
    const TextDocument& document = context.session.document;
    const auto item = [&](const char* text, const char* key, What what, bool possible = true) {
        if (ImGui::MenuItem(text, key, false, possible)) commands.add(EditProgram{what});
    };
    changeItems(context);
    item(tr("Undo in the program"), tr("Ctrl+Z"), What::Undo, document.canUndo());
    item(tr("Redo in the program"), tr("Ctrl+Y"), What::Redo, document.canRedo());
    ImGui::Separator();
    item(tr("Cut"), tr("Ctrl+X"), What::Cut);
    item(tr("Copy"), tr("Ctrl+C"), What::Copy);
    item(tr("Paste"), tr("Ctrl+V"), What::Paste);
    item(tr("Select all"), tr("Ctrl+A"), What::SelectAll);
    ImGui::Separator();
    item(tr("Find…"), tr("Ctrl+F"), What::Find);
    item(tr("Replace…"), tr("Ctrl+H"), What::Replace);
    item(tr("Find the next"), "F3", What::FindNext);
    item(tr("Find the one before"), tr("Shift+F3"), What::FindPrevious);
    item(tr("Go to line or block…"), tr("Ctrl+G"), What::GoTo);
    ImGui::Separator();
    if (ImGui::MenuItem(tr("Numbers and spacing…"))) commands.add(AskToRenumber{});
    item(tr("Unfold the passes of this cycle"), tr("Ctrl+Enter"), What::UnfoldPasses);
    ViewSettings view = context.session.view;
    if (ImGui::MenuItem(tr("Findings beneath their lines"), nullptr, view.findingsInText)) {
        view.findingsInText = !view.findingsInText;
        commands.add(ChangeView{view});
    }
}

void scaleItems(ViewSettings& view) {
    static constexpr float kScales[] = {0.8f, 1.0f, 1.25f, 1.5f, 2.0f};
    for (const float scale : kScales) {
        if (ImGui::MenuItem(fmt::format("{:.0f} %", 100 * scale).c_str(), nullptr, view.scale == scale))
            view.scale = scale;
    }
}

void qualityItems(ViewSettings& view) {
    const auto item = [&](const char* text, QualityChoice which) {
        if (ImGui::MenuItem(text, nullptr, view.quality == which)) view.quality = which;
    };
    item(tr("Automatic"), QualityChoice::Automatic);
    item(tr("Plain"), QualityChoice::Plain);
    item(tr("Fine"), QualityChoice::Fine);
    item(tr("Finest"), QualityChoice::Finest);
}

void neighbourItems(ViewSettings& view) {
    const auto item = [&](const char* text, Neighbours which) {
        if (ImGui::MenuItem(text, nullptr, view.neighbours == which)) view.neighbours = which;
    };
    item(tr("Solid"), Neighbours::Solid);
    item(tr("Faded"), Neighbours::Faded);
    item(tr("Left out"), Neighbours::LeftOut);
}

void chipsItem(ViewSettings& view) {
    if (ImGui::MenuItem(tr("Chips"), nullptr, view.chips)) view.chips = !view.chips;
    if (!ImGui::IsItemHovered()) return;
    ImGui::SetTooltip(
        "%s", tr("For the picture only. Width, thickness and speed follow the cut, slowed down as the spindle is;\n"
                 "how chips break and where they go is not reckoned, and nothing is checked against them.\n"
                 "Left out while the quality of the picture is plain."));
}

// Beside the two, so that it hides neither.
void tellUnits(const PaneContext& context) {
    const std::string text =
        tr("Of what the window measures and reads out. What the program says itself, findings, "
           "papers and the keys of the set-up stay as they are, in mm.");
    ImGui::SetNextWindowPos({ImGui::GetItemRectMax().x + context.px(12), ImGui::GetItemRectMin().y});
    ImGui::SetTooltip("%s", wrapped(*context.fonts.text, context.px(300), text).c_str());
}

void unitItems(const PaneContext& context, ViewSettings& view) {
    const auto item = [&](const char* text, Units which) {
        if (ImGui::MenuItem(text, nullptr, view.units == which)) view.units = which;
        if (ImGui::IsItemHovered()) tellUnits(context);
    };
    item(tr("Millimetres"), Units::Millimetres);
    item(tr("Inches"), Units::Inches);
}

// Each by its name in itself, so that whoever does not read the one in use finds their own.
void languageItems(Commands& commands) {
    for (const Language& language : languages()) {
        if (ImGui::MenuItem(language.name, nullptr, languageInUse() == language.code))
            commands.add(ChooseLanguage{language.code});
    }
}

// Shown if any of them is; a click shows all or none.
void kindsItem(const char* text, KindSet kinds, ViewSettings& view) {
    const bool shown = (view.hiddenBodies & kinds) != kinds;
    if (ImGui::MenuItem(text, nullptr, shown))
        view.hiddenBodies = shown ? view.hiddenBodies | kinds : view.hiddenBodies & ~kinds;
}

void viewMenu(const PaneContext& context) {
    Commands& commands = context.commands;
    if (ImGui::MenuItem(tr("Part"), "1")) commands.add(ShowView{ViewName::Part});
    if (ImGui::MenuItem(tr("Close: tool and cut"), "2")) commands.add(ShowView{ViewName::Tool});
    if (ImGui::MenuItem(tr("Machine"), "3")) commands.add(ShowView{ViewName::Machine});
    if (ImGui::MenuItem(tr("End on"), "4")) commands.add(ShowView{ViewName::EndOn});
    ImGui::Separator();
    ViewSettings view = context.session.view;
    using Shown = SectionSettings::Shown;
    Shown& shown = view.section.shown;
    if (ImGui::MenuItem(tr("Picture alone"), nullptr, shown == Shown::PictureOnly)) shown = Shown::PictureOnly;
    if (ImGui::MenuItem(tr("Picture and half-section"), "5", shown == Shown::Both)) shown = Shown::Both;
    if (ImGui::MenuItem(tr("Half-section alone"), nullptr, shown == Shown::SectionOnly)) shown = Shown::SectionOnly;
    ImGui::Separator();
    if (ImGui::MenuItem(tr("Whole billet"), nullptr, view.cutaway == 0)) view.cutaway = 0;
    if (ImGui::MenuItem(tr("Leave out a quarter"), nullptr, view.cutaway == 1)) view.cutaway = 1;
    if (ImGui::MenuItem(tr("Leave out a half"), nullptr, view.cutaway == 2)) view.cutaway = 2;
    const auto colouring = [&](const char* text, Colouring which) {
        const bool lit = view.colouring == which;
        if (ImGui::MenuItem(text, nullptr, lit)) view.colouring = lit ? Colouring::Metal : which;
    };
    colouring(tr("Colour cuts by tool"), Colouring::Tool);
    colouring(tr("Colour surfaces by size"), Colouring::Size);
    ImGui::Separator();
    kindsItem(tr("Chuck"), kChuckKinds, view);
    kindsItem(tr("Turret"), kTurretKinds, view);
    kindsItem(tr("Tailstock"), kTailstockKinds, view);
    kindsItem(tr("Second spindle"), kSecondSpindleKinds, view);
    kindsItem(tr("Guards and doors"), kGuardKinds, view);
    ImGui::Separator();
    if (ImGui::BeginMenu(tr("Picture quality"))) {
        qualityItems(view);
        ImGui::EndMenu();
    }
    if (ImGui::BeginMenu(tr("Bodies before the cut"))) {
        neighbourItems(view);
        ImGui::EndMenu();
    }
    chipsItem(view);
    if (ImGui::MenuItem(tr("Follow the tool while playing"), nullptr, view.followTool))
        view.followTool = !view.followTool;
    if (ImGui::MenuItem(tr("Camera without gliding"), nullptr, view.lessMotion)) view.lessMotion = !view.lessMotion;
    ImGui::Separator();
    if (ImGui::MenuItem(tr("Dark"), nullptr, view.darkLook())) view.setDarkLook(true);
    if (ImGui::MenuItem(tr("Light"), nullptr, !view.darkLook())) view.setDarkLook(false);
    if (ImGui::MenuItem(tr("Projector"), nullptr, view.projector)) view.projector = !view.projector;
    if (ImGui::MenuItem(tr("Panel of the machine"), nullptr, view.panel)) view.panel = !view.panel;
    if (ImGui::BeginMenu(tr("Size of type"))) {
        scaleItems(view);
        ImGui::EndMenu();
    }
    if (ImGui::BeginMenu(tr("Units"))) {
        unitItems(context, view);
        ImGui::EndMenu();
    }
    if (ImGui::BeginMenu(tr("Language"))) {
        languageItems(commands);
        ImGui::EndMenu();
    }
    if (!(view == context.session.view)) commands.add(ChangeView{view});
}

void playMenu(const PaneContext& context) {
    Commands& commands = context.commands;
    if (ImGui::MenuItem(context.session.playing ? tr("Pause") : tr("Play"), tr("Space"))) commands.add(TogglePlay{});
    if (ImGui::MenuItem(tr("One block forward"), tr("Alt+Right"))) commands.add(StepBlocks{1});
    if (ImGui::MenuItem(tr("One block back"), tr("Alt+Left"))) commands.add(StepBlocks{-1});
    if (ImGui::MenuItem(tr("To the start"), tr("Alt+Home"))) commands.add(ToStart{});
    if (ImGui::MenuItem(tr("To the end"), tr("Alt+End"))) commands.add(ToEnd{});
    ImGui::Separator();
    const Session& session = context.session;
    if (ImGui::MenuItem(tr("Single block"), "B", session.singleBlock)) commands.add(SingleBlock{!session.singleBlock});
    if (ImGui::MenuItem(tr("Feed hold"), "H", session.held || session.holding))
        commands.add(HoldFeed{!(session.held || session.holding)});
    if (ImGui::MenuItem(tr("Loop no longer"), "L", false, session.loop.has_value())) commands.add(LoopSpan{});
    ImGui::Separator();
    if (ImGui::MenuItem(tr("To the next bookmark"), tr("Alt+Down"), false, !session.bookmarks.empty()))
        commands.add(ToBookmark{1});
    if (ImGui::MenuItem(tr("To the bookmark before"), tr("Alt+Up"), false, !session.bookmarks.empty()))
        commands.add(ToBookmark{-1});
}

void drawNames(const PaneContext& context) {
    const Session& session = context.session;
    const std::string setup = session.setupPath.empty() ? tr("no set-up") : session.setupPath.filename().string();
    const std::string text = say("{}  on  {}", session.programName(), setup);
    const float width = ImGui::CalcTextSize(text.c_str()).x;
    const float x = ImGui::GetWindowWidth() - width - context.px(12);
    if (x < ImGui::GetCursorPosX() + context.px(10)) return;
    ImGui::SameLine(x);
    ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.quiet));
    ImGui::TextUnformatted(text.c_str());
    ImGui::PopStyleColor();
    if (ImGui::IsItemHovered()) {
        ImGui::SetTooltip("%s\n%s", session.programPath.c_str(),
                          session.setupPath.empty() ? tr("no set-up") : session.setupPath.c_str());
    }
}

}  // namespace

float drawMenuBar(const PaneContext& context, Dialogs& dialogs, bool open) {
    if (!ImGui::BeginMainMenuBar()) return 0;
    if (open) ImGui::OpenPopup(tr("File"));
    if (ImGui::BeginMenu(tr("File"))) {
        fileMenu(context);
        ImGui::EndMenu();
    }
    if (ImGui::BeginMenu(tr("Edit"))) {
        editMenu(context);
        ImGui::EndMenu();
    }
    if (ImGui::BeginMenu(tr("View"))) {
        viewMenu(context);
        ImGui::EndMenu();
    }
    if (ImGui::BeginMenu(tr("Play"))) {
        playMenu(context);
        ImGui::EndMenu();
    }
    if (ImGui::BeginMenu(tr("Help"))) {
        if (ImGui::MenuItem(tr("Keys and mouse"), "F1")) dialogs.showKeys();
        if (ImGui::MenuItem(tr("About and cautions"))) dialogs.showAbout();
        ImGui::EndMenu();
    }
    drawNames(context);
    const float height = ImGui::GetWindowHeight();
    ImGui::EndMainMenuBar();
    return height;
}

}  // namespace firstoff::gui
