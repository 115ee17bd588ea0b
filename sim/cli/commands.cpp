#include "sim/cli/commands.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdio>
#include <exception>
#include <stdexcept>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/cli/tried_file.h"
#include "sim/output/clearance_report.h"
#include "sim/output/finish_overview.h"
#include "sim/output/finish_plot.h"
#include "sim/output/finish_table.h"
#include "sim/output/gauge_report.h"
#include "sim/output/json_report.h"
#include "sim/output/load_report.h"
#include "sim/output/tables.h"
#include "sim/output/text_report.h"
#include "sim/output/time_report.h"
#include "sim/output/whole_file.h"
#include "sim/plain_words/program_explained.h"
#include "sim/plain_words/reference_text.h"

namespace firstoff::cli {

namespace {

void print(std::string_view text) {
    std::fwrite(text.data(), 1, text.size(), stdout);
    if (std::fflush(stdout) != 0) throw std::runtime_error(tr("standard output cannot be written"));
}

void complain(std::string_view what) {
    fmt::print(stderr, "firstoff: {}\n", what);
}

void deliver(const std::string& out, std::string_view text) {
    if (out.empty() || out == "-") {
        print(text);
    } else {
        writeWholeFile(out, text);
    }
}

std::string reportOf(const TriedJob& tried) {
    const Trial& trial = *tried.trial;
    if (tried.usable) return textReport(trial, tried.setupText);
    return say("{} on {}\nNOT TRIED: the program or the set-up could not be used.\n{}", trial.program.name,
               trial.setup.name, textFindings(trial.findings, trial.program, trial.setup.name, tried.setupText));
}

BlockId blockOfLine(const Trial& trial, const char* option, long line) {
    const BlockId lines = trial.program.endBlockOf(0);
    if (line < 1 || line > static_cast<long>(lines)) {
        throw std::runtime_error(say("{} {}: the program has lines 1 to {}", option, line, lines));
    }
    return static_cast<BlockId>(line - 1);
}

// Time at which a line of the program has been carried out for the last time: its step with all its passes, or for a
// line of a profile, the last move along it.
double timeAfterLine(const Trial& trial, long line) {
    const BlockId block = blockOfLine(trial, "--after-line", line);
    const Toolpath& path = trial.toolpath;
    std::optional<std::size_t> endMove;  // one past the last move
    for (std::size_t i = 0; i < path.steps.size(); ++i) {
        if (path.steps[i].shown != block) continue;
        endMove = i + 1 < path.steps.size() ? path.steps[i + 1].firstMove : path.moves.size();
    }
    for (std::size_t i = path.moves.size(); i > 0 && !endMove; --i) {
        if (path.moves[i - 1].block == block) endMove = i;
    }
    if (!endMove) throw std::runtime_error(say("--after-line {}: that line is never carried out", line));
    if (*endMove == 0) return 0;
    return trial.timeline.moves[trial.timeline.firstOf[*endMove] - 1].t1;
}

double timeOf(const Trial& trial, const InstantRequest& instant) {
    if (instant.afterLine) return timeAfterLine(trial, *instant.afterLine);
    return instant.atTimeS.value_or(trial.timeline.cycleTimeS);
}

// The meridian asked for, rad. Of a bar that need not be round the nearest that is known is told.
double angleOf(const Trial& trial, const std::optional<double>& askedDeg) {
    const double asked = radians(askedDeg.value_or(0));
    const double off = std::remainder(sectionAngle(trial, asked) - asked, 2 * kPi);
    constexpr double kAsAsked = 1e-6;
    if (std::abs(off) > kAsAsked) {
        complain(say("the nearest meridian that is known stands at {:.3f} degrees; that is taken",
                     degrees(sectionAngle(trial, asked))));
    }
    return asked;
}

std::vector<FinishReport> finishes(const Trial& trial, const FinishRequest& request) {
    FinishOptions options;
    if (request.afterLine) options.timeS = timeAfterLine(trial, *request.afterLine);
    const double datumZ = sectionDatum(trial).z;
    if (request.line) {
        auto reports = finishOfBlock(trial, blockOfLine(trial, "--line", *request.line), options);
        if (reports.empty()) {
            throw std::runtime_error(
                say("--line {}: nothing is left of a surface along which that line was fed; `--z-from` and "
                    "`--z-to` take any stretch",
                    *request.line));
        }
        return reports;
    }
    if (request.faceZ) {
        const auto [from, to] = std::minmax(*request.xFrom, *request.xTo);
        return {finishOfFace(trial, *request.faceZ + datumZ, from / 2, to / 2, options)};
    }
    const auto [from, to] = std::minmax(*request.zFrom, *request.zTo);
    const auto side = request.inside ? SurfaceSpan::Side::Inner : SurfaceSpan::Side::Outer;
    return {finishOf(trial, {side, from + datumZ, to + datumZ, 0}, options)};
}

bool anyFigures(const std::vector<FinishReport>& reports) {
    return std::any_of(reports.begin(), reports.end(), [](const FinishReport& r) { return r.trouble.empty(); });
}

// Of the whole part: a table, and its rows for a spreadsheet.
ExitCode finishOfAll(const FinishRequest& request, const Trial& trial) {
    FinishOptions options;
    if (request.afterLine) options.timeS = timeAfterLine(trial, *request.afterLine);
    const std::vector<FinishReport> reports = surfaceFinishes(trial, options);
    print(finishOverview(trial, reports));
    if (!request.out.empty()) writeWholeFile(request.out, finishRows(trial, reports));
    return anyFigures(reports) ? exitCode(trial.verdict) : ExitCode::Unusable;
}

ExitCode checkOne(const CheckRequest& request, const Job& job, std::vector<std::shared_ptr<const Trial>>& trials) {
    try {
        const TriedJob tried = tryJob(job);
        trials.push_back(tried.trial);
        if (request.json != "-") print(reportOf(tried));
        if (!tried.usable) return ExitCode::Unusable;
        if (!request.csvMoves.empty()) deliver(request.csvMoves, movesTable(*tried.trial));
        return exitCode(tried.trial->verdict);
    } catch (const std::exception& failure) {
        complain(failure.what());
        trials.push_back(failedTrial(job, failure.what()));
        return ExitCode::Unusable;
    }
}

}  // namespace

TriedJob tryForFile(const Job& job) {
    TriedJob tried = tryJob(job);
    if (!tried.usable) {
        fmt::print(stderr, "{}", reportOf(tried));
        throw std::runtime_error(say("{}: nothing was made", job.programPath));
    }
    if (tried.trial->verdict != Verdict::Clear) {
        complain(
            say("{}: the verdict is {}; `firstoff check` says why", job.programPath, tr(name(tried.trial->verdict))));
    }
    return tried;
}

ExitCode check(const CheckRequest& request) {
    if (!request.csvMoves.empty() && request.programs.size() > 1) {
        throw std::runtime_error(tr("--csv-moves takes the moves of one program; give one program"));
    }
    ExitCode result = ExitCode::Clear;
    std::vector<std::shared_ptr<const Trial>> trials;
    for (const std::string& program : request.programs) {
        if (&program != &request.programs.front() && request.json != "-") print("\n");
        result = worse(result, checkOne(request, {program, request.setup}, trials));
    }
    if (!request.json.empty()) {
        std::vector<const Trial*> all;
        for (const auto& trial : trials) all.push_back(trial.get());
        deliver(request.json, jsonReport(all));
    }
    return result;
}

ExitCode moves(const MovesRequest& request) {
    const TriedJob tried = tryForFile(request.job);
    deliver(request.out, movesTable(*tried.trial));
    return exitCode(tried.trial->verdict);
}

ExitCode clearances(const ClearancesRequest& request) {
    const TriedJob tried = tryForFile(request.job);
    deliver(request.out, request.pairs ? pairTable(*tried.trial) : marginTable(*tried.trial));
    return exitCode(tried.trial->verdict);
}

ExitCode times(const TimesRequest& request) {
    const TriedJob tried = tryForFile(request.job);
    if (request.out.empty()) {
        print(timeReport(*tried.trial));
    } else {
        deliver(request.out, timeTable(*tried.trial));
    }
    return exitCode(tried.trial->verdict);
}

ExitCode words(const WordsRequest& request) {
    const TriedJob tried = tryForFile(request.job);
    std::optional<std::uint32_t> line;
    if (request.line) line = blockOfLine(*tried.trial, "--line", *request.line) + 1;
    print(programExplained(*tried.trial, line));
    return exitCode(tried.trial->verdict);
}

ExitCode reference(const ReferenceRequest& request) {
    const std::string systems = "ABC", asked = request.codeSystem;
    const char letter = asked.size() == 1 ? static_cast<char>(std::toupper(static_cast<unsigned char>(asked[0]))) : '?';
    const std::size_t system = systems.find(letter);
    if (system == std::string::npos) throw std::runtime_error(say("--code-system {}: there are A, B and C", asked));
    std::string words;
    for (const std::string& word : request.words) {
        words += words.empty() ? "" : " ";
        words += word;
    }
    print(referenceText(codeReference(static_cast<CodeSystem>(system)), words));
    return ExitCode::Clear;
}

ExitCode gauge(const GaugeRequest& request) {
    const TriedJob tried = tryForFile(request.job);
    if (request.out.empty()) {
        print(gaugeTable(*tried.trial));
    } else {
        deliver(request.out, gaugeRows(*tried.trial));
    }
    return exitCode(tried.trial->verdict);
}

ExitCode loads(const LoadsRequest& request) {
    const TriedJob tried = tryForFile(request.job);
    // A table of samples on standard output stands alone there.
    if (request.out != "-") print(loadTable(*tried.trial));
    if (!request.out.empty()) deliver(request.out, loadSamples(*tried.trial));
    return exitCode(tried.trial->verdict);
}

ExitCode section(const SectionRequest& request) {
    const TriedJob tried = tryForFile(request.job);
    const double angle = angleOf(*tried.trial, request.angleDeg);
    deliver(request.out, sectionTable(*tried.trial, timeOf(*tried.trial, request.instant), angle));
    return exitCode(tried.trial->verdict);
}

ExitCode exportPart(const ExportRequest& request) {
    // Before the trial, which may take long.
    const std::optional<PartFileKind> kind = partFileKind(request.out);
    if (!kind) {
        throw std::runtime_error(
            say("--out {}: the ending of the name says what is written; there are {}", request.out, partFileEndings()));
    }
    const bool isSection = *kind == PartFileKind::Svg || *kind == PartFileKind::Dxf || *kind == PartFileKind::Csv;
    if (request.angleDeg && !isSection) {
        throw std::runtime_error(say("--angle: {} is no section; svg, dxf and csv are", request.out));
    }
    const TriedJob tried = tryForFile(request.job);
    const double timeS = timeOf(*tried.trial, request.instant);
    PartFileOptions options = request.options;
    options.angle = angleOf(*tried.trial, request.angleDeg);
    writePartFile(*tried.trial, timeS, request.out, *kind, options);
    return exitCode(tried.trial->verdict);
}

ExitCode finish(const FinishRequest& request) {
    // Before the trial, which may take long.
    const std::optional<FinishFileKind> kind = finishFileKind(request.out);
    if (!request.out.empty() && !kind) {
        throw std::runtime_error(say("--out {}: the ending of the name says what is written; there are {}", request.out,
                                     finishFileEndings()));
    }
    const bool all = !request.line && !request.zFrom && !request.faceZ;
    if (all && kind == FinishFileKind::Svg) {
        throw std::runtime_error(
            say("--out {}: of all surfaces there is a table (csv); a plot takes --line, --z-from and --z-to, or "
                "--face-z",
                request.out));
    }
    const TriedJob tried = tryForFile(request.job);
    const Trial& trial = *tried.trial;
    if (all) return finishOfAll(request, trial);
    const std::vector<FinishReport> reports = finishes(trial, request);
    print(finishTable(trial, reports));
    if (kind) {
        const bool drawn = *kind == FinishFileKind::Svg;
        writeWholeFile(request.out, drawn ? finishPlot(trial, reports) : finishProfiles(trial, reports));
    }
    return anyFigures(reports) ? exitCode(trial.verdict) : ExitCode::Unusable;
}

}  // namespace firstoff::cli
