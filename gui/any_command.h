// What holds any command, for those who carry them out.
#pragma once

#include <variant>
#include <vector>

#include "gui/command.h"

namespace firstoff::gui {

using Command =
    std::variant<AskForPaper, WritePaper, SavePicture, SaveVideo, ShowLessons, OpenLesson, CloseLesson, LessonStepTo,
                 MarkStep, TellAnswer, ShowFigure, PlaceClicked, PlaceTyped, SingleBlock, HoldFeed, LoopSpan, Bookmark,
                 ToBookmark, Seek, SeekStep, SelectLine, ShowLine, PickSurface, ShowEncounter, ShowNearest, MeasureBody,
                 PickForMeasure, TogglePlay, StepBlocks, ToStart, ToEnd, TextChanged, OpenProgram, OpenSetup,
                 AskForFile, Save, SaveAs, Reload, CancelTrial, TryChanges, TryMistake, ChangeView, UndoChange,
                 RedoChange, ShowView, MoveView, GaugeNext, ChooseLanguage, Tell, Quit, EditProgram, AskToRenumber,
                 Renumber, SpaceWords, MendFinding, CompareWith, ChangeText, SaveCompared, FileAnswer>;

struct Commands::List {
    std::vector<Command> all;
};

}  // namespace firstoff::gui
