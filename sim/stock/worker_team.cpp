#include "sim/stock/worker_team.h"

#include <algorithm>

namespace firstoff {

WorkerTeam::WorkerTeam(int threads) {
    if (threads <= 0) threads = std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
    for (int i = 1; i < threads; ++i) threads_.emplace_back([this] { serve(); });
}

WorkerTeam::~WorkerTeam() {
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
    }
    wake_.notify_all();
    for (std::thread& thread : threads_) thread.join();
}

void WorkerTeam::takeFrom() {
    for (int i = next_++; i < count_; i = next_++) (*work_)(i);
}

void WorkerTeam::share(int count, const std::function<void(int)>& work) {
    if (threads_.empty() || count < 2) {
        for (int i = 0; i < count; ++i) work(i);
        return;
    }
    {
        const std::lock_guard lock(mutex_);
        work_ = &work;
        count_ = count;
        next_ = 0;
        busy_ = static_cast<int>(threads_.size());
        ++round_;
    }
    wake_.notify_all();
    takeFrom();
    std::unique_lock lock(mutex_);
    done_.wait(lock, [this] { return busy_ == 0; });
}

void WorkerTeam::serve() {
    std::uint64_t seen = 0;
    for (;;) {
        {
            std::unique_lock lock(mutex_);
            wake_.wait(lock, [&] { return ending_ || round_ != seen; });
            if (ending_) return;
            seen = round_;
        }
        takeFrom();
        const std::lock_guard lock(mutex_);
        if (--busy_ == 0) done_.notify_one();
    }
}

}  // namespace firstoff
