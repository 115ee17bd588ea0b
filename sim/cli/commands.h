// What `firstoff` does once its words are understood.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/cli/exit_code.h"
#include "sim/cli/job_files.h"

namespace firstoff::cli {

struct CheckRequest {
    std::vector<std::string> programs;
    std::string setup;
    std::string json;      // "-": standard output, instead of the text report
    std::string csvMoves;  // one program only
};
ExitCode check(const CheckRequest& request);

struct MovesRequest {
    Job job;
    std::string out;  // empty: standard output
};
ExitCode moves(const MovesRequest& request);

struct SectionRequest {
    Job job;
    std::string out;
    std::optional<long> afterLine;
    std::optional<double> atTimeS;
};
ExitCode section(const SectionRequest& request);

}  // namespace firstoff::cli
