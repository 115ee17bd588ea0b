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

// A surface: the one or more that a line left, a stretch of the outside or of the bore, or a face. Work coordinates, X
// as diameter.
struct FinishRequest {
    Job job;
    std::string out;  // profiles; empty: none
    std::optional<long> line;
    std::optional<double> zFrom, zTo;
    bool inside = false;
    std::optional<double> faceZ, xFrom, xTo;
    std::optional<long> afterLine;
};
ExitCode finish(const FinishRequest& request);

}  // namespace firstoff::cli
