#include "gui/lessons/lesson_worker.h"

#include <exception>
#include <new>
#include <utility>

#include "sim/base/say.h"

namespace firstoff::gui {

LessonWorker::LessonWorker(std::function<void()> wake)
    : wake_(std::move(wake)), thread_([this](std::stop_token quit) { work(std::move(quit)); }) {}

LessonWorker::~LessonWorker() {
    {
        const std::lock_guard lock(mutex_);
        pending_.reset();
        running_.request_stop();
    }
    thread_.request_stop();
}

void LessonWorker::ask(LessonQuestion question) {
    const std::lock_guard lock(mutex_);
    pending_ = std::move(question);
    running_.request_stop();
    changed_.notify_all();
}

bool LessonWorker::busy() const {
    const std::lock_guard lock(mutex_);
    return busy_ || pending_;
}

std::shared_ptr<const LessonReply> LessonWorker::latest() const {
    const std::lock_guard lock(mutex_);
    return latest_;
}

void LessonWorker::finish() {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [this] { return !busy_ && !pending_; });
}

// Each step's jobs are tried once, when they are first asked about. What was stopped half way is not kept.
const LessonTrials& LessonWorker::trialsOf(const LessonQuestion& question, std::stop_token stop) {
    if (lesson_ != question.lesson) {
        lesson_ = question.lesson;
        trials_.clear();
    }
    const auto known = trials_.find(question.step);
    if (known != trials_.end()) return known->second;
    TrialOptions options;
    options.stop = stop;
    LessonTrials tried = tryLesson(*question.lesson, options, question.step);
    static const LessonTrials kNone;
    if (stop.stop_requested()) return kNone;
    return trials_.emplace(question.step, std::move(tried)).first->second;
}

LessonReply LessonWorker::replyTo(const LessonQuestion& question, std::stop_token stop) {
    LessonReply reply;
    reply.question = question;
    try {
        const LessonTrials& trials = trialsOf(question, stop);
        if (stop.stop_requested()) return reply;
        TrialOptions options;
        options.stop = stop;
        if (question.answer) {
            reply.marking = markAnswer(*question.lesson, trials, question.step, *question.answer, options);
        } else {
            reply.modelAnswer = modelAnswer(*question.lesson, trials, question.step);
            reply.model = reply.modelAnswer ? inWords(*question.lesson, question.step, *reply.modelAnswer)
                                            : std::string(tr("This step has a fault: it has no answer."));
        }
    } catch (const std::bad_alloc&) {
        reply.failure = tr("There is not enough memory to try this.");
    } catch (const std::exception& error) {
        reply.failure = say("This could not be tried: {}.", error.what());
    }
    return reply;
}

void LessonWorker::work(std::stop_token quit) {
    while (true) {
        LessonQuestion question;
        std::stop_token stop;
        {
            std::unique_lock lock(mutex_);
            if (!changed_.wait(lock, quit, [this] { return pending_.has_value(); })) return;
            question = *std::exchange(pending_, std::nullopt);
            running_ = std::stop_source();
            stop = running_.get_token();
            busy_ = true;
        }
        auto reply = std::make_shared<const LessonReply>(replyTo(question, stop));
        {
            const std::lock_guard lock(mutex_);
            busy_ = false;
            if (!stop.stop_requested()) latest_ = std::move(reply);
            changed_.notify_all();
        }
        if (wake_) wake_();
    }
}

}  // namespace firstoff::gui
