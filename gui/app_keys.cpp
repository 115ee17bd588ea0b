// What keys do that belong to no single pane.
#include <algorithm>

#include "gui/app.h"

namespace firstoff::gui {

// The drawing library moves from one thing to the next by its keys only where it is told to: in menus that a key
// opened, and on the page beneath the tabs. Elsewhere its keys are the program's and the time's.
void App::walkByKeys() {
    const bool popup = ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopupId | ImGuiPopupFlags_AnyPopupLevel);
    if (!popup && !openMenus_) menusByKey_ = false;
    for (int button = 0; button < 3; ++button) keysOnPage_ = keysOnPage_ && !ImGui::IsMouseClicked(button);
    ImGuiIO& io = ImGui::GetIO();
    if (keysOnPage_ || menusByKey_) {
        io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
    } else {
        io.ConfigFlags &= ~ImGuiConfigFlags_NavEnableKeyboard;
    }
}

void App::handleWalkKey(const InputEvent& event) {
    if (event.key == Key::F10) openMenus_ = menusByKey_ = true;
    if (event.key == Key::F6) {
        keysOnPage_ = takePageKeys_ = !keysOnPage_;
        program_.leave();
    }
    if (event.key == Key::Escape && !ImGui::GetIO().WantTextInput) keysOnPage_ = false;
}

void App::handleKeys(const PaneContext& context) {
    if (ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopupId | ImGuiPopupFlags_AnyPopupLevel)) return;
    const bool inText = program_.hasFocus() || program_.findBar().hasKeys() || ImGui::GetIO().WantTextInput;
    const bool typing = inText || keysOnPage_;
    const bool stripHadKeys = program_.findBar().hasKeys();
    for (const InputEvent& event : context.input) {
        if (!stripHadKeys && program_.findBar().hasKeys()) {
            if (event.key == Key::None && event.character >= 0x20) program_.typeIntoStrip(event.character);
            continue;
        }
        if (event.ctrl && !inText) handleUndoKey(event);
        if (event.ctrl) handleCtrlKey(event);
        handleWalkKey(event);
        if (!typing) handleViewKey(event);
        if (event.alt || !typing) handleTimeKey(event);
        if (!typing && event.key == Key::Enter && !event.ctrl) goOnInLesson();
        if (event.key == Key::F1) dialogs_.showKeys();
        if (event.key == Key::F3) {
            using What = EditProgram::What;
            commands_.add(EditProgram{event.shift ? What::FindPrevious : What::FindNext});
        }
        if (event.key == Key::F5) commands_.add(Reload{});
    }
}

// With the caret in the program, or in a field, they are the text's.
void App::handleUndoKey(const InputEvent& event) {
    if (event.is('Y') || (event.is('Z') && event.shift)) {
        commands_.add(RedoChange{});
    } else if (event.is('Z')) {
        commands_.add(UndoChange{});
    }
}

// From page to page beneath the program, round and round.
void App::turnPage(int by) {
    Tab& shown = findingsFolded_ ? inPlace_ : below_;
    const auto now = std::find_if(tabs_.begin(), tabs_.end(),
                                  [&](const TabButton& tab) { return tab.id == static_cast<int>(shown); });
    if (now == tabs_.end()) return;
    const auto count = static_cast<int>(tabs_.size());
    const auto next = (static_cast<int>(now - tabs_.begin()) + by + count) % count;
    shown = static_cast<Tab>(tabs_[static_cast<std::size_t>(next)].id);
}

void App::handleCtrlKey(const InputEvent& event) {
    if (event.key == Key::PageUp) turnPage(-1);
    if (event.key == Key::PageDown) turnPage(1);
    if (event.is('O')) commands_.add(AskForFile{event.shift ? AskForFile::What::Setup : AskForFile::What::Program});
    if (event.is('Q')) commands_.add(Quit{});
    if (event.key == Key::Space) commands_.add(TogglePlay{});
    if (event.is('B')) commands_.add(Bookmark{program_.caretLine()});
    const auto open = [&](FindBar::Mode mode, EditProgram::What what) {
        const FindBar& bar = program_.findBar();
        if (bar.mode() != mode || !bar.hasKeys()) apply(EditProgram{what});
    };
    if (event.is('F')) open(FindBar::Mode::Find, EditProgram::What::Find);
    if (event.is('H')) open(FindBar::Mode::Replace, EditProgram::What::Replace);
    if (event.is('G')) open(FindBar::Mode::GoTo, EditProgram::What::GoTo);
    if (!event.is('S')) return;
    if (event.shift) {
        commands_.add(AskForFile{AskForFile::What::SaveAs});
    } else {
        commands_.add(Save{});
    }
}

// What the mouse does in the picture and in the half-section.
void App::handleViewKey(const InputEvent& event) {
    using How = MoveView::How;
    if (event.shift != event.ctrl) {
        const How how = event.shift ? How::Turn : How::Shift;
        if (event.key == Key::Left) commands_.add(MoveView{how, -1, 0});
        if (event.key == Key::Right) commands_.add(MoveView{how, 1, 0});
        if (event.key == Key::Up) commands_.add(MoveView{how, 0, 1});
        if (event.key == Key::Down) commands_.add(MoveView{how, 0, -1});
    }
    if (event.ctrl || event.alt) return;
    if (event.key == Key::PageUp) commands_.add(MoveView{How::Nearer, 0, 1});
    if (event.key == Key::PageDown) commands_.add(MoveView{How::Nearer, 0, -1});
    if (event.is('G')) commands_.add(GaugeNext{event.shift ? -1 : 1, false});
    if (event.is('M')) commands_.add(GaugeNext{event.shift ? -1 : 1, true});
}

void App::handleTimeKey(const InputEvent& event) {
    if (event.ctrl || (event.shift && !event.alt)) return;
    switch (event.key) {
        case Key::Right:
            commands_.add(StepBlocks{1});
            return;
        case Key::Left:
            commands_.add(StepBlocks{-1});
            return;
        case Key::Home:
            commands_.add(ToStart{});
            return;
        case Key::End:
            commands_.add(ToEnd{});
            return;
        case Key::Space:
            commands_.add(TogglePlay{});
            return;
        case Key::Up:
        case Key::Down:
            if (event.alt) commands_.add(ToBookmark{event.key == Key::Up ? -1 : 1});
            return;
        default:
            break;
    }
    if (event.is('B')) commands_.add(SingleBlock{!session_.singleBlock});
    if (event.is('H')) commands_.add(HoldFeed{!session_.held && !session_.holding});
    if (event.is('L')) commands_.add(LoopSpan{});
    if (event.is('5')) {
        using Shown = SectionSettings::Shown;
        ViewSettings view = session_.view;
        view.section.shown = view.section.shown == Shown::Both          ? Shown::SectionOnly
                             : view.section.shown == Shown::SectionOnly ? Shown::PictureOnly
                                                                        : Shown::Both;
        commands_.add(ChangeView{view});
    }
    static constexpr ViewName kViews[] = {ViewName::Part, ViewName::Tool, ViewName::Machine, ViewName::EndOn};
    for (int i = 0; i < 4; ++i) {
        if (event.is(static_cast<char>('1' + i))) commands_.add(ShowView{kViews[i]});
    }
}

}  // namespace firstoff::gui
