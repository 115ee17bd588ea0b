// Keys, whatever they are called below us.
#pragma once

#include <imgui.h>

namespace firstoff::gui {

// The drawing library knows the keys of the keyboard by the window system's codes and has names for a few. For letters and
// digits these codes are ASCII capitals; for function keys they count up from 290.
inline bool pressedLetter(char capital) { return ImGui::IsKeyPressed(capital, false); }
inline bool pressedFunction(int number) { return ImGui::IsKeyPressed(289 + number, false); }
inline bool pressed(ImGuiKey key, bool repeat = true) { return ImGui::IsKeyPressed(ImGui::GetKeyIndex(key), repeat); }

}  // namespace firstoff::gui
