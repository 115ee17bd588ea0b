#include "sim/cli/job_files.h"

#include <algorithm>
#include <filesystem>
#include <stdexcept>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/blank_files.h"
#include "sim/output/program_folder.h"
#include "sim/output/setup_files.h"
#include "sim/output/whole_file.h"

namespace firstoff::cli {

namespace {

namespace fs = std::filesystem;

std::string setupPathOf(const Job& job) {
    if (!job.setupPath.empty()) return job.setupPath;
    fs::path beside = job.programPath;
    beside.replace_extension(".toml");
    std::error_code error;
    if (fs::is_regular_file(beside, error)) return beside.string();
    throw std::runtime_error(say("{}: no set-up given; name one with --setup FILE, or put it beside the program as {}",
                                 job.programPath, beside.filename().string()));
}

bool isToml(const Setup& setup) {
    return std::none_of(setup.findings.begin(), setup.findings.end(),
                        [](const Finding& f) { return f.code == "setup-syntax"; });
}

}  // namespace

TriedJob tryJob(const Job& job) {
    TriedJob tried;
    const std::string setupPath = setupPathOf(job);
    Program program = readProgram(readWholeFile(job.programPath), job.programPath);
    readCalledFiles(program, job.programPath);
    tried.setupText = readWholeFile(setupPath);
    Setup setup = readSetup(tried.setupText, setupPath, setupFilesBeside(setupPath));
    tried.usable = !program.blocks.empty() && isToml(setup);
    if (tried.usable) {
        ReadyBlank ready = readBlank(std::move(setup), setupPath);
        TrialOptions options;
        options.previous = tried.previous = std::move(ready.previous);
        tried.trial = runTrial(std::move(program), std::move(ready.setup), options);
        return tried;
    }
    auto trial = std::make_shared<Trial>();
    trial->findings = setup.findings;
    trial->findings.insert(trial->findings.end(), program.findings.begin(), program.findings.end());
    trial->verdict = verdictOf(trial->findings);
    trial->program = std::move(program);
    trial->setup = std::move(setup);
    tried.trial = std::move(trial);
    return tried;
}

std::shared_ptr<const Trial> tryAgain(const TriedJob& tried, const WhatIf& whatIf) {
    TrialOptions options;
    options.previous = tried.previous;
    return runTrial(tried.trial->program, withChanges(tried.trial->setup, whatIf), options);
}

std::shared_ptr<const Trial> failedTrial(const Job& job, const std::string& reason) {
    auto trial = std::make_shared<Trial>();
    trial->program.name = job.programPath;
    trial->setup.name = job.setupPath;
    Finding finding;
    finding.severity = Severity::Stop;
    finding.code = "file-not-usable";
    finding.unproven = true;
    finding.message = reason;
    finding.remedy = tr("Check the name and the file.");
    trial->findings.push_back(std::move(finding));
    trial->verdict = Verdict::NotProven;
    return trial;
}

}  // namespace firstoff::cli
