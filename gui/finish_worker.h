// Reckons the finish of surfaces beside the window: on a long program that takes longer than a frame may. The newest
// question wins; one that is being answered is carried to its end.
#pragma once

#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <stop_token>
#include <string>
#include <thread>

#include "sim/cutting/profile_plot.h"
#include "sim/trial/finish.h"

namespace firstoff::gui {

// Of which surface: the one of a block that lies at `place` (lathe frame), or without a place its longest; as it is at
// `timeS`, or without a time at the end of the cycle.
struct FinishQuestion {
    std::shared_ptr<const Trial> trial;
    BlockId block = kNoBlock;
    std::optional<Point> place;
    std::optional<double> timeS;

    friend bool operator==(const FinishQuestion&, const FinishQuestion&) = default;
};

struct FinishAnswer {
    FinishQuestion question;
    std::optional<FinishReport> report;  // nothing: the block left no surface that is still there
    ProfilePlot plot;                    // where the report has figures
    std::string failure;                 // why it could not be reckoned at all
};

FinishAnswer answerOf(const FinishQuestion& question);

class FinishWorker {
public:
    // `wake` is called from the worker whenever there is a new answer.
    explicit FinishWorker(std::function<void()> wake);
    ~FinishWorker();
    FinishWorker(const FinishWorker&) = delete;
    FinishWorker& operator=(const FinishWorker&) = delete;

    void ask(FinishQuestion question);
    // The newest answer, or null before the first. Never waits for one that is being reckoned.
    std::shared_ptr<const FinishAnswer> latest() const;
    // Waits until nothing is asked for or running.
    void finish();

private:
    void work(std::stop_token quit);

    std::function<void()> wake_;
    mutable std::mutex mutex_;
    std::condition_variable_any changed_;
    std::optional<FinishQuestion> pending_;
    bool busy_ = false;
    std::shared_ptr<const FinishAnswer> latest_;
    std::jthread thread_;  // last: stops before anything it uses goes
};

}  // namespace firstoff::gui
