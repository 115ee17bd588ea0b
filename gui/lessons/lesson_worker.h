// Tries the jobs of a lesson and marks answers beside the window. One question at a time; a newer one stops the one
// that is being answered.
#pragma once

#include <condition_variable>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <stop_token>
#include <string>
#include <thread>

#include "sim/training/marking.h"

namespace firstoff::gui {

// To mark an answer, or without one to tell the model answer.
struct LessonQuestion {
    std::shared_ptr<const Lesson> lesson;
    int step = 1;  // from 1
    std::optional<Answer> answer;
    std::uint64_t ticket = 0;  // of the asker
};

struct LessonReply {
    LessonQuestion question;
    Marking marking;    // where an answer was given
    std::string model;  // in words, where none was
    std::optional<Answer> modelAnswer;
    std::string failure;  // why nothing could be told at all, in plain words
};

class LessonWorker {
public:
    // `wake` is called from the worker whenever there is a reply.
    explicit LessonWorker(std::function<void()> wake);
    ~LessonWorker();
    LessonWorker(const LessonWorker&) = delete;
    LessonWorker& operator=(const LessonWorker&) = delete;

    void ask(LessonQuestion question);
    bool busy() const;
    // The newest reply, or null before the first. Never waits.
    std::shared_ptr<const LessonReply> latest() const;
    // Waits until nothing is asked for or running.
    void finish();

private:
    void work(std::stop_token quit);
    LessonReply replyTo(const LessonQuestion& question, std::stop_token stop);
    const LessonTrials& trialsOf(const LessonQuestion& question, std::stop_token stop);

    std::function<void()> wake_;
    mutable std::mutex mutex_;
    std::condition_variable_any changed_;
    std::optional<LessonQuestion> pending_;
    std::stop_source running_;
    bool busy_ = false;
    std::shared_ptr<const LessonReply> latest_;
    // Of the lesson asked about last, by step; touched by the worker alone.
    std::shared_ptr<const Lesson> lesson_;
    std::map<int, LessonTrials> trials_;
    std::jthread thread_;  // last: stops before anything it uses goes
};

}  // namespace firstoff::gui
