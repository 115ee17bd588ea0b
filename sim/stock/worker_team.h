// A few threads that share out numbered pieces of work and come together again.
#pragma once

#include <atomic>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace firstoff {

class WorkerTeam {
public:
    // `threads` counts the caller, who works too; 0: what the machine has.
    explicit WorkerTeam(int threads);
    ~WorkerTeam();
    WorkerTeam(const WorkerTeam&) = delete;
    WorkerTeam& operator=(const WorkerTeam&) = delete;

    int size() const { return static_cast<int>(threads_.size()) + 1; }
    // Calls work(i) for 0 <= i < count, each once, in no certain order or thread; returns when all are done.
    void share(int count, const std::function<void(int)>& work);

private:
    void serve();
    void takeFrom();

    std::vector<std::thread> threads_;
    std::mutex mutex_;
    std::condition_variable wake_, done_;
    const std::function<void(int)>* work_ = nullptr;
    int count_ = 0;
    std::atomic<int> next_{0};
    int busy_ = 0;
    std::uint64_t round_ = 0;
    bool ending_ = false;
};

}  // namespace firstoff
