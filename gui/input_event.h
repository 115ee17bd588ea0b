// Keys and characters, in the order in which they came.
//
// The drawing library knows only which keys are down when a frame begins: a key tapped between two frames would be
// lost, and letters and keys of one frame would lose their order. So the editor and the shortcuts read this list
// instead.
#pragma once

#include <cstdint>
#include <vector>

namespace firstoff::gui {

enum class Key : std::uint8_t {
    None,
    Left,
    Right,
    Up,
    Down,
    Home,
    End,
    PageUp,
    PageDown,
    Enter,
    Backspace,
    Delete,
    Insert,
    Escape,
    Space,
    Tab,
    F1,
    F3,
    F5,
    F6,
    F10,
    Character,  // a letter or digit key; `symbol` holds its capital
};

struct InputEvent {
    Key key = Key::None;     // None: a character was typed
    char symbol = 0;         // of Key::Character
    char32_t character = 0;  // typed, with the keyboard's layout and modifiers applied
    bool ctrl = false, shift = false, alt = false;
    bool repeat = false;  // the key is being held

    bool is(char capital) const { return key == Key::Character && symbol == capital; }
};

using InputEvents = std::vector<InputEvent>;

// A key went down, whatever the modifiers; not by being held.
inline bool hit(const InputEvents& events, Key key) {
    for (const InputEvent& event : events) {
        if (event.key == key && !event.repeat) return true;
    }
    return false;
}

}  // namespace firstoff::gui
