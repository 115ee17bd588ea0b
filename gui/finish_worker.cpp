#include "gui/finish_worker.h"

#include <exception>
#include <new>
#include <utility>

#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr int kColumns = 500;  // of the drawing; more than its pane has room for

}  // namespace

FinishAnswer answerOf(const FinishQuestion& question) {
    FinishAnswer answer;
    answer.question = question;
    try {
        FinishOptions options;
        options.timeS = question.timeS;
        answer.report = finishOfSurface(*question.trial, question.block, question.place, options);
        const bool figures = answer.report && answer.report->trouble.empty();
        if (figures) answer.plot = profilePlot(answer.report->marks.profile, answer.report->roughness, kColumns);
    } catch (const std::bad_alloc&) {
        answer.report.reset();
        answer.failure = tr("There is not enough memory to reckon the finish of this surface.");
    } catch (const std::exception& error) {
        answer.report.reset();
        answer.failure = say("The finish could not be reckoned: {}.", error.what());
    }
    return answer;
}

FinishWorker::FinishWorker(std::function<void()> wake)
    : wake_(std::move(wake)), thread_([this](std::stop_token quit) { work(std::move(quit)); }) {}

FinishWorker::~FinishWorker() {
    thread_.request_stop();
}

void FinishWorker::ask(FinishQuestion question) {
    const std::lock_guard lock(mutex_);
    pending_ = std::move(question);
    changed_.notify_all();
}

std::shared_ptr<const FinishAnswer> FinishWorker::latest() const {
    const std::lock_guard lock(mutex_);
    return latest_;
}

void FinishWorker::finish() {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [this] { return !busy_ && !pending_; });
}

void FinishWorker::work(std::stop_token quit) {
    while (true) {
        FinishQuestion question;
        {
            std::unique_lock lock(mutex_);
            if (!changed_.wait(lock, quit, [this] { return pending_.has_value(); })) return;
            question = *std::exchange(pending_, std::nullopt);
            busy_ = true;
        }
        auto answer = std::make_shared<const FinishAnswer>(answerOf(question));
        {
            const std::lock_guard lock(mutex_);
            busy_ = false;
            latest_ = std::move(answer);
            changed_.notify_all();
        }
        if (wake_) wake_();
    }
}

}  // namespace firstoff::gui
