// The training room as a page: the list of lessons, or one step of the lesson that is open.
#pragma once

#include "gui/lessons/lesson_room.h"
#include "gui/page.h"

namespace firstoff::gui {

// What the learner asks for in it goes to the room as commands, like everything else.
class LessonPane {
public:
    void draw(const PaneContext& context, const Rect& rect, LessonRoom& room);

private:
    void drawList(Page& page, const LessonRoom& room);
    void drawStep(Page& page, LessonRoom& room);
    void drawHeader(Page& page, LessonRoom& room);
    void drawQuestion(Page& page, LessonRoom& room);
    void drawReply(Page& page, const StepWork& work);
    void drawButtons(Page& page, LessonRoom& room);
};

}  // namespace firstoff::gui
