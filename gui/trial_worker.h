// Runs trials beside the window. The newest request wins: it stops the one that runs.
#pragma once

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <stop_token>
#include <string>
#include <thread>

#include "gui/timeline_index.h"
#include "sim/plain_words/modal_origin.h"
#include "sim/trial/comparison.h"
#include "sim/trial/mistake.h"
#include "sim/trial/trial.h"
#include "sim/trial/what_if.h"

namespace firstoff::gui {

// What came of a request. `trial` and `index` are null when it was cancelled or failed; `failure` then says why it
// failed.
struct TrialOutcome {
    std::shared_ptr<const Trial> trial;
    std::shared_ptr<const TimelineIndex> index;
    std::shared_ptr<const ModalOrigins> origins;   // with the index
    std::uint64_t revision = 0;                    // of the text it was made from
    double seconds = 0;                            // it took
    std::shared_ptr<const StockHistory> previous;  // that the stock is left by, where it is
    // Of a trial with changes at the machine: which, and what they alter. Null for one of program and set-up as they
    // are.
    WhatIf whatIf;
    std::optional<Mistake> mistake;
    std::shared_ptr<const Comparison> comparison;
    std::string failure;  // empty when cancelled
};

class TrialWorker {
public:
    struct Request {
        std::string program, programName;
        std::filesystem::path programPath;  // empty: never saved; files beside it may hold programs it calls
        std::string setup, setupName;
        std::filesystem::path setupPath;  // empty: never saved; the drawing of the blank may stand beside it
        std::uint64_t revision = 0;
        // Instead of all that: this one again, with changes at the machine. Its trial is not null.
        std::shared_ptr<const TrialOutcome> again;
        WhatIf whatIf;
        std::optional<Mistake> mistake;  // put into it first
        // A quick look (see TrialOptions) is not stopped by a newer one, so that something is to be seen while a slider
        // is drawn.
        bool quickLook = false;
    };
    struct Progress {
        bool busy = false;
        double fraction = 0;  // 0…1
        double seconds = 0;   // since it was asked for
        const char* stage = "";
    };

    // `wake` is called from the worker whenever there is a new outcome.
    explicit TrialWorker(std::function<void()> wake);
    ~TrialWorker();
    TrialWorker(const TrialWorker&) = delete;
    TrialWorker& operator=(const TrialWorker&) = delete;

    void request(Request request);
    void cancel();
    Progress progress() const;
    // The newest outcome, or null before the first. Never waits for a trial.
    std::shared_ptr<const TrialOutcome> latest() const { return latest_.load(); }
    // Waits until nothing is asked for or running.
    void finish();

private:
    using Clock = std::chrono::steady_clock;
    void work(std::stop_token quit);
    std::shared_ptr<const TrialOutcome> run(Request request, std::stop_token stop);
    void tryFiles(Request request, TrialOptions options, TrialOutcome& outcome);
    static void tryAgain(const Request& request, TrialOptions options, TrialOutcome& outcome);

    std::function<void()> wake_;
    mutable std::mutex mutex_;
    std::condition_variable_any changed_;
    std::optional<Request> pending_;
    std::stop_source running_;
    bool busy_ = false;
    bool runsQuickLook_ = false;
    Clock::time_point since_;
    std::atomic<double> fraction_ = 0;
    std::atomic<const char*> stage_ = "";
    std::atomic<std::shared_ptr<const TrialOutcome>> latest_;
    std::jthread thread_;  // last: stops before anything it uses goes
};

}  // namespace firstoff::gui
