#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <stdexcept>
#include <string>

#include "sim/base/say.h"
#include "sim/cli/commands.h"
#include "sim/output/comparison_report.h"
#include "sim/trial/comparison.h"

namespace firstoff::cli {

namespace {

struct Numbered {
    int number = 0;
    double figure = 0;
};

Numbered numbered(const char* option, const std::string& text) {
    const std::size_t equals = text.find('=');
    Numbered result;
    const char* end = text.data() + text.size();
    const auto wrong = [&] {
        return std::runtime_error(
            say("{} {}: write a number, an equals sign and millimetres, as in 3=-0.012", option, text));
    };
    if (equals == std::string::npos) throw wrong();
    const char* middle = text.data() + equals;
    const auto whole = std::from_chars(text.data(), middle, result.number);
    if (whole.ec != std::errc() || whole.ptr != middle || result.number <= 0) throw wrong();
    const char* figure = middle + 1 < end && middle[1] == '+' ? middle + 2 : middle + 1;
    const auto read = std::from_chars(figure, end, result.figure);
    constexpr double kMostMm = 1000;  // beyond is a slip of the keyboard
    if (read.ec != std::errc() || read.ptr != end || !(std::abs(result.figure) <= kMostMm)) throw wrong();
    return result;
}

const Tool& toolFor(const char* option, const std::string& text, const Setup& setup, int station) {
    const Tool* tool = setup.toolAt(station);
    if (tool == nullptr) {
        throw std::runtime_error(say("{} {}: the set-up has no tool at station {}", option, text, station));
    }
    return *tool;
}

// A wear that no tool call of the program uses would prove nothing.
void checkOffset(const char* option, const std::string& text, const Setup& setup, int number) {
    const bool known =
        setup.toolAt(number) != nullptr || std::any_of(setup.offsets.begin(), setup.offsets.end(),
                                                       [number](const Offset& o) { return o.number == number; });
    if (known) return;
    throw std::runtime_error(
        say("{} {}: the set-up has neither an offset {} nor a tool at that station", option, text, number));
}

WhatIf changesOf(const CompareRequest& request, const Setup& setup) {
    WhatIf whatIf;
    for (const std::string& text : request.wearX) {
        const Numbered n = numbered("--wear-x", text);
        checkOffset("--wear-x", text, setup, n.number);
        whatIf.wears.push_back({n.number, n.figure, 0});
    }
    for (const std::string& text : request.wearZ) {
        const Numbered n = numbered("--wear-z", text);
        checkOffset("--wear-z", text, setup, n.number);
        whatIf.wears.push_back({n.number, 0, n.figure});
    }
    for (const std::string& text : request.nose) {
        const Numbered n = numbered("--nose", text);
        if (!hasNose(toolFor("--nose", text, setup, n.number)) || n.figure < 0) {
            throw std::runtime_error(
                say("--nose {}: only turning tools and boring bars have a nose radius, 0 or more", text));
        }
        whatIf.edges.push_back({n.number, n.figure, 0});
    }
    for (const std::string& text : request.centre) {
        const Numbered n = numbered("--centre", text);
        toolFor("--centre", text, setup, n.number);
        whatIf.edges.push_back({n.number, -1, n.figure});
    }
    whatIf.datumZMm = request.datumZ;
    whatIf.feed = request.feedPercent / 100;
    whatIf.rapid = request.rapidPercent / 100;
    whatIf.spindle = request.spindlePercent / 100;
    return whatIf;
}

TriedJob usable(const Job& job) {
    TriedJob tried = tryJob(job);
    if (tried.usable) return tried;
    throw std::runtime_error(
        say("{}: the program or the set-up could not be used; `firstoff check` says why", job.programPath));
}

}  // namespace

ExitCode compare(const CompareRequest& request) {
    const TriedJob before = usable(request.job);
    const bool otherFiles = !request.withProgram.empty() || !request.withSetup.empty();
    TriedJob other;
    if (otherFiles) {
        Job job = request.job;
        if (!request.withProgram.empty()) job = {request.withProgram, {}};
        if (!request.withSetup.empty()) job.setupPath = request.withSetup;
        other = usable(job);
    }
    const TriedJob& base = otherFiles ? other : before;
    const WhatIf whatIf = changesOf(request, base.trial->setup);
    if (!otherFiles && whatIf.empty()) {
        throw std::runtime_error(
            tr("say what to compare with: --with, --with-setup, or a change such as --wear-x 3=-0.01"));
    }
    const std::shared_ptr<const Trial> after = whatIf.empty() ? base.trial : tryAgain(base, whatIf);
    const std::string text = comparisonReport(*before.trial, *after, compareTrials(*before.trial, *after));
    std::fwrite(text.data(), 1, text.size(), stdout);
    if (std::fflush(stdout) != 0) throw std::runtime_error(tr("standard output cannot be written"));
    return exitCode(after->verdict);
}

}  // namespace firstoff::cli
