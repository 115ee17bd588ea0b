// A program and its set-up from disk, and the trial of both.
#pragma once

#include <memory>
#include <string>

#include "sim/trial/trial.h"
#include "sim/trial/what_if.h"

namespace firstoff::cli {

struct Job {
    std::string programPath;
    std::string setupPath;  // may be empty: the file beside the program, of the same name ending in .toml
};

struct TriedJob {
    std::shared_ptr<const Trial> trial;
    std::string setupText;
    // False: the program or the set-up could not be used at all (no text, no TOML); the trial then holds only what was
    // found while reading.
    bool usable = true;
    std::shared_ptr<const StockHistory> previous;  // that the stock is left by, see TrialOptions
};

// Throws std::runtime_error with a plain message if a file cannot be had.
TriedJob tryJob(const Job& job);

// The same trial again, with changes at the machine. `tried` must be usable.
std::shared_ptr<const Trial> tryAgain(const TriedJob& tried, const WhatIf& whatIf);

// A trial that could not be made, to stand in a report beside others.
std::shared_ptr<const Trial> failedTrial(const Job& job, const std::string& reason);

}  // namespace firstoff::cli
