#include "gui/glfw_input.h"

#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>

#include <algorithm>
#include <utility>

namespace firstoff::gui {

namespace {

struct Pair {
    int theirs;
    Key ours;
};

constexpr Pair kKeys[] = {
    {GLFW_KEY_LEFT, Key::Left},
    {GLFW_KEY_RIGHT, Key::Right},
    {GLFW_KEY_UP, Key::Up},
    {GLFW_KEY_DOWN, Key::Down},
    {GLFW_KEY_HOME, Key::Home},
    {GLFW_KEY_END, Key::End},
    {GLFW_KEY_PAGE_UP, Key::PageUp},
    {GLFW_KEY_PAGE_DOWN, Key::PageDown},
    {GLFW_KEY_ENTER, Key::Enter},
    {GLFW_KEY_KP_ENTER, Key::Enter},
    {GLFW_KEY_BACKSPACE, Key::Backspace},
    {GLFW_KEY_DELETE, Key::Delete},
    {GLFW_KEY_INSERT, Key::Insert},
    {GLFW_KEY_ESCAPE, Key::Escape},
    {GLFW_KEY_SPACE, Key::Space},
    {GLFW_KEY_TAB, Key::Tab},
    {GLFW_KEY_F1, Key::F1},
    {GLFW_KEY_F3, Key::F3},
    {GLFW_KEY_F5, Key::F5},
    {GLFW_KEY_F6, Key::F6},
    {GLFW_KEY_F10, Key::F10},
};

// A letter key by what the user's layout prints on it, so that Ctrl+Z is where Z is.
char symbolOf(int key, int code) {
    const char* printed = glfwGetKeyName(key, code);
    if (printed && printed[0] >= 'a' && printed[0] <= 'z' && printed[1] == '\0')
        return static_cast<char>(printed[0] - 'a' + 'A');
    const bool plain = (key >= GLFW_KEY_A && key <= GLFW_KEY_Z) || (key >= GLFW_KEY_0 && key <= GLFW_KEY_9);
    return plain ? static_cast<char>(key) : '\0';
}

}  // namespace

KeyListener* KeyListener::listening_ = nullptr;

std::optional<InputEvent> keyEvent(int glfwKey, int glfwAction, int glfwMods) {
    if (glfwAction == GLFW_RELEASE) return std::nullopt;
    InputEvent event;
    event.ctrl = (glfwMods & GLFW_MOD_CONTROL) != 0;
    event.shift = (glfwMods & GLFW_MOD_SHIFT) != 0;
    event.alt = (glfwMods & GLFW_MOD_ALT) != 0;
    event.repeat = glfwAction == GLFW_REPEAT;
    for (const Pair& pair : kKeys) {
        if (pair.theirs == glfwKey) event.key = pair.ours;
    }
    if (event.key == Key::None) {
        event.symbol = symbolOf(glfwKey, 0);
        if (event.symbol == '\0') return std::nullopt;
        event.key = Key::Character;
    }
    return event;
}

KeyListener::KeyListener(GLFWwindow* window, std::function<void(const InputEvent&)> deliver)
    : window_(window), deliver_(std::move(deliver)) {
    listening_ = this;
    glfwSetKeyCallback(window, &KeyListener::onKey);
    glfwSetCharCallback(window, &KeyListener::onCharacter);
}

KeyListener::~KeyListener() {
    glfwSetKeyCallback(window_, nullptr);
    glfwSetCharCallback(window_, nullptr);
    listening_ = nullptr;
}

void KeyListener::onKey(GLFWwindow* window, int key, int code, int action, int mods) {
    KeyListener& self = *listening_;
    self.heard_ = true;
    if (const auto event = keyEvent(key, action, mods)) self.deliver_(*event);
    const bool unseen = std::find(self.fresh_.begin(), self.fresh_.end(), key) != self.fresh_.end();
    if (action == GLFW_RELEASE && unseen) {
        self.postponed_.push_back({key, code, mods});
        return;
    }
    if (action == GLFW_PRESS) self.fresh_.push_back(key);
    ImGui_ImplGlfw_KeyCallback(window, key, code, action, mods);
}

void KeyListener::onCharacter(GLFWwindow* window, unsigned int character) {
    InputEvent event;
    listening_->heard_ = true;
    event.character = character;
    listening_->deliver_(event);
    ImGui_ImplGlfw_CharCallback(window, character);
}

bool KeyListener::heard() {
    return std::exchange(heard_, false);
}

void KeyListener::frameDone() {
    fresh_.clear();
    for (const Release& release : std::exchange(postponed_, {})) {
        ImGui_ImplGlfw_KeyCallback(window_, release.key, release.code, GLFW_RELEASE, release.mods);
    }
}

}  // namespace firstoff::gui
