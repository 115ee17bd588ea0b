// The training room: which lessons there are, which one is open, at which step, what was answered and how it was
// marked. Draws nothing; the pane reads it and tells it what the learner did.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "gui/lessons/lesson_worker.h"
#include "sim/training/lesson.h"
#include "sim/training/progress.h"

namespace firstoff::gui {

struct LessonRow {
    std::filesystem::path folder;
    std::string title, about;
    int minutes = 0;
    int steps = 0;  // that can be answered or read
    int right = 0;  // of them, by the record
    bool faulty = false;
};

// What the window is to show for a step: a job, and where to look.
struct LessonScene {
    std::string text;                      // of the program
    std::string name;                      // of its file
    std::filesystem::path program, setup;  // as files of the lesson
    LessonView view = LessonView::Part;
    std::optional<LinePlace> line, toLine;
    std::optional<double> timeS;
};

// What the learner has done at a step so far.
struct StepWork {
    std::vector<bool> chosen;
    std::string number;  // as typed
    std::optional<PlaceAnswer> place;
    std::optional<std::string> text;  // of the program, as edited
    std::optional<Marking> marking;
    std::string model;  // the answer, once it was asked for
    std::optional<Answer> modelAnswer;
    bool hint = false;
    std::string trouble;  // the answer could not be read
};

class LessonRoom {
public:
    // `shelf`: the folder of lessons; `record`: file of the progress, empty: none is kept. `wake` as LessonWorker.
    LessonRoom(std::filesystem::path shelf, std::filesystem::path record, std::function<void()> wake);

    const std::vector<LessonRow>& rows() const { return rows_; }
    void refresh();  // reads the shelf again
    // Texts are told in another language from now on. What was answered stays; how it was marked is told anew when
    // asked.
    void tellAgain();

    // Opens a lesson, shipped or of anybody's own, at its first step that is not yet right.
    void open(const std::filesystem::path& folder);
    void close();
    const Lesson* lesson() const { return lesson_.get(); }
    int step() const { return step_; }  // from 1
    const LessonStep* current() const;
    void go(int step);
    StepWork& work();
    const StepWork* workAt(int step) const;
    bool rightAt(int step) const;
    bool marking() const { return worker_.busy(); }

    // The job of the step was asked for and not yet taken up.
    std::optional<LessonScene> takeScene();
    // The program as it stands in the editor, to be kept when the step is left and to be marked.
    void keepText(std::string text);
    // Where the learner clicked, as the position display tells it.
    void place(PlaceAnswer place);
    bool wantsPlace() const;
    bool wantsText() const;  // a program is to be mended or written

    void mark(const std::string& date);
    void askForModel();
    // Takes up what the worker has found; true if there was something.
    bool takeReply();
    // About the record of progress, told once; empty: nothing.
    std::string takeMessage();
    void finish() { worker_.finish(); }

private:
    void wantScene();
    std::optional<Answer> answerNow();

    std::filesystem::path shelf_, record_;
    std::vector<LessonRow> rows_;
    Progress progress_;
    bool mayWrite_ = true;  // the record
    std::string message_;
    std::shared_ptr<const Lesson> lesson_;
    int step_ = 1;
    std::map<int, StepWork> work_;
    std::optional<LessonScene> scene_;
    std::uint64_t ticket_ = 0;
    std::string date_;
    std::shared_ptr<const LessonReply> taken_;
    LessonWorker worker_;  // last: stops before the rest goes
};

}  // namespace firstoff::gui
