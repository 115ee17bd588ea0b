// The text of a lesson, drawn into a page.
#pragma once

#include <optional>

#include "gui/page.h"
#include "sim/training/lesson_text.h"

namespace firstoff::gui {

// Paragraphs, lists, code and rules across the page; a picture as a line to click, which tells what the window is to
// show. The figure that was clicked, or null.
const LessonFigure* drawLessonText(const Page& page, const LessonText& text);

}  // namespace firstoff::gui
