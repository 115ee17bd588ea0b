#include "gui/trial_worker.h"

#include <chrono>
#include <exception>
#include <new>
#include <utility>

#include "sim/base/say.h"
#include "sim/output/blank_files.h"
#include "sim/output/program_folder.h"
#include "sim/output/setup_files.h"

namespace firstoff::gui {

TrialWorker::TrialWorker(std::function<void()> wake)
    : wake_(std::move(wake)), thread_([this](std::stop_token quit) { work(std::move(quit)); }) {}

TrialWorker::~TrialWorker() {
    cancel();
    thread_.request_stop();
}

void TrialWorker::request(Request request) {
    const std::lock_guard lock(mutex_);
    const bool letEnd = busy_ && runsQuickLook_ && request.quickLook;
    pending_ = std::move(request);
    if (!letEnd) running_.request_stop();
    if (!busy_) since_ = Clock::now();
    changed_.notify_all();
}

void TrialWorker::cancel() {
    const std::lock_guard lock(mutex_);
    pending_.reset();
    running_.request_stop();
}

TrialWorker::Progress TrialWorker::progress() const {
    const std::lock_guard lock(mutex_);
    if (!busy_ && !pending_) return {};
    return {true, fraction_.load(), std::chrono::duration<double>(Clock::now() - since_).count(), stage_.load()};
}

void TrialWorker::finish() {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [this] { return !busy_ && !pending_; });
}

void TrialWorker::work(std::stop_token quit) {
    while (true) {
        Request next;
        std::stop_token stop;
        {
            std::unique_lock lock(mutex_);
            if (!changed_.wait(lock, quit, [this] { return pending_.has_value(); })) return;
            next = *std::exchange(pending_, std::nullopt);
            running_ = std::stop_source();
            stop = running_.get_token();
            busy_ = true;
            runsQuickLook_ = next.quickLook;
            since_ = Clock::now();
            fraction_ = 0;
            stage_ = "";
        }
        auto outcome = run(std::move(next), stop);
        {
            const std::lock_guard lock(mutex_);
            busy_ = false;
            // A trial overtaken by a newer request is not worth showing, unless a slider asks for one after the other.
            const bool show = !pending_ || (runsQuickLook_ && pending_->quickLook && outcome->trial);
            if (show) latest_.store(std::move(outcome));
            changed_.notify_all();
        }
        if (wake_) wake_();
    }
}

void TrialWorker::tryFiles(Request request, TrialOptions options, TrialOutcome& outcome) {
    Program program = readProgram(std::move(request.program), std::move(request.programName));
    readCalledFiles(program, request.programPath);
    Setup setup = readSetup(request.setup, std::move(request.setupName), setupFilesBeside(request.setupPath));
    ReadyBlank ready = readBlank(std::move(setup), request.setupPath, options);
    options.previous = outcome.previous = std::move(ready.previous);
    outcome.trial = runTrial(std::move(program), std::move(ready.setup), options);
}

void TrialWorker::tryAgain(const Request& request, TrialOptions options, TrialOutcome& outcome) {
    const Trial& before = *request.again->trial;
    outcome.whatIf = request.whatIf;
    options.previous = outcome.previous = request.again->previous;
    options.quickLook = request.quickLook;
    outcome.mistake = request.mistake;
    SpoiltJob job = request.mistake ? withMistake(before, *request.mistake) : SpoiltJob{before.program, before.setup};
    outcome.trial = runTrial(std::move(job.program), withChanges(std::move(job.setup), request.whatIf), options);
    if (outcome.trial) outcome.comparison = std::make_shared<const Comparison>(compareTrials(before, *outcome.trial));
}

std::shared_ptr<const TrialOutcome> TrialWorker::run(Request request, std::stop_token stop) {
    const auto start = Clock::now();
    auto outcome = std::make_shared<TrialOutcome>();
    outcome->revision = request.revision;
    TrialOptions options;
    options.stop = stop;
    options.progress = [this](double fraction, const char* stage) {
        fraction_ = fraction;
        stage_ = stage;
    };
    try {
        if (request.again) {
            tryAgain(request, options, *outcome);
        } else {
            tryFiles(std::move(request), options, *outcome);
        }
        if (outcome->trial) {
            outcome->index = std::make_shared<const TimelineIndex>(*outcome->trial);
            outcome->origins = std::make_shared<const ModalOrigins>(*outcome->trial);
        }
    } catch (const std::bad_alloc&) {
        outcome->trial = nullptr;
        outcome->failure =
            tr("There is not enough memory for this trial. Close other programs or try a shorter program.");
    } catch (const std::exception& error) {
        outcome->trial = nullptr;
        outcome->failure = say("The trial could not be run: {}.", error.what());
    }
    outcome->seconds = std::chrono::duration<double>(Clock::now() - start).count();
    return outcome;
}

}  // namespace firstoff::gui
