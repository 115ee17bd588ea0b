// From the window system's key events to ours.
#pragma once

struct GLFWwindow;

#include <functional>
#include <optional>

#include "gui/input_event.h"

namespace firstoff::gui {

// Nothing for keys we have no use for.
std::optional<InputEvent> keyEvent(int glfwKey, int glfwAction, int glfwMods);

// Hears a window's keys, hands them on as events, and keeps the drawing library informed. A key that goes down and up
// between two frames is kept down for it until the next frame has begun. One at a time; make it after the drawing
// library's own backend.
class KeyListener {
public:
    KeyListener(GLFWwindow* window, std::function<void(const InputEvent&)> deliver);
    ~KeyListener();
    KeyListener(const KeyListener&) = delete;
    KeyListener& operator=(const KeyListener&) = delete;

    // Whether a key went down or up since the last time this was asked.
    bool heard();

    // After each frame of the drawing library.
    void frameDone();

private:
    struct Release {
        int key = 0, code = 0, mods = 0;
    };
    static void onKey(GLFWwindow* window, int key, int code, int action, int mods);
    static void onCharacter(GLFWwindow* window, unsigned int character);

    static KeyListener* listening_;  // the window system's callbacks carry no other pointer of ours
    GLFWwindow* window_;
    std::function<void(const InputEvent&)> deliver_;
    bool heard_ = false;
    std::vector<int> fresh_;  // went down since the last frame
    std::vector<Release> postponed_;
};

}  // namespace firstoff::gui
