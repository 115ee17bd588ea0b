#include "sim/output/blank_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <new>
#include <stdexcept>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

#include "sim/base/say.h"
#include "sim/output/body_files.h"
#include "sim/output/files_beside.h"
#include "sim/output/program_folder.h"
#include "sim/output/setup_files.h"
#include "sim/setup/blank_drawing.h"
#include "sim/setup/wanted_drawing.h"

namespace firstoff {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t kMostBefore = 8;

fs::path sameFile(const fs::path& path) {
    std::error_code error;
    const fs::path canonical = fs::canonical(path, error);
    return error ? fs::absolute(path, error).lexically_normal() : canonical;
}

void tell(Setup& setup, Severity severity, const char* code, std::string message, std::string remedy) {
    Finding finding;
    finding.severity = severity;
    finding.code = code;
    finding.unproven = true;
    finding.span = setup.stock.sizeSpan;
    finding.span.file = SourceSpan::File::Setup;
    finding.message = std::move(message);
    finding.remedy = std::move(remedy);
    setup.findings.push_back(std::move(finding));
}

class BlankFiles {
public:
    explicit BlankFiles(const TrialOptions& options) : options_(options) {}

    ReadyBlank read(Setup setup, const fs::path& setupFile) {
        setup = withBodies(std::move(setup), setupFile);
        const Stock& stock = setup.stock;
        if (wantsDrawing(stock)) return {readDrawing(std::move(setup), setupFile), nullptr};
        if (stock.shape != Stock::Shape::Previous || stock.previousProgram.empty()) return {std::move(setup), nullptr};
        return readPrevious(std::move(setup), setupFile);
    }

private:
    static Setup readDrawing(Setup setup, const fs::path& setupFile) {
        std::string text;
        try {
            text = readNamedFile(besideSetup(setupFile, setup.stock.drawingFile));
        } catch (const std::bad_alloc&) {
            throw;
        } catch (const std::exception& failure) {
            return withoutDrawing(std::move(setup), failure.what());
        }
        return withDrawing(std::move(setup), text);
    }

    ReadyBlank readPrevious(Setup setup, const fs::path& setupFile) {
        ReadyBlank ready{std::move(setup), nullptr};
        const std::size_t waiting = chain_.size();
        try {
            const fs::path program = besideSetup(setupFile, ready.setup.stock.previousProgram);
            const fs::path file = setupOf(ready.setup.stock, program, setupFile);
            refuseCircles(setupFile, file);
            chain_.push_back(sameFile(setupFile));
            const std::shared_ptr<const Trial> before = tryBefore(program, file);
            if (before) take(ready, *before);
        } catch (const std::bad_alloc&) {
            throw;
        } catch (const std::exception& failure) {
            tell(ready.setup, Severity::Stop, "setup-previous-not-usable", failure.what(),
                 tr("Put program and set-up of the trial before beside this set-up, or correct their names."));
        }
        chain_.resize(waiting);
        return ready;
    }

    static fs::path setupOf(const Stock& stock, const fs::path& program, const fs::path& setupFile) {
        if (!stock.previousSetup.empty()) return besideSetup(setupFile, stock.previousSetup);
        fs::path file = program;
        return file.replace_extension(".toml");
    }

    void refuseCircles(const fs::path& own, const fs::path& before) const {
        const fs::path same = sameFile(before);
        if (same == sameFile(own) || std::find(chain_.begin(), chain_.end(), same) != chain_.end()) {
            throw std::runtime_error(say("{}: this set-up would have to come before itself", before.string()));
        }
        if (chain_.size() >= kMostBefore) {
            throw std::runtime_error(say("{}: more than {} trials one before the other", before.string(), kMostBefore));
        }
    }

    // Null if stopped.
    std::shared_ptr<const Trial> tryBefore(const fs::path& programFile, const fs::path& setupFile) {
        Program program = readProgram(readNamedFile(programFile), programFile.string());
        readCalledFiles(program, programFile);
        ReadyBlank ready =
            read(readSetup(readNamedFile(setupFile), setupFile.string(), setupFilesBeside(setupFile)), setupFile);
        TrialOptions options;
        options.threads = options_.threads;
        options.stop = options_.stop;
        options.previous = std::move(ready.previous);
        return runTrial(std::move(program), std::move(ready.setup), options);
    }

    static void take(ReadyBlank& ready, const Trial& before) {
        if (!before.stock) {
            throw std::runtime_error(say("{}: {} gives no usable bar", before.program.name, before.setup.name));
        }
        ready.previous = before.stock;
        if (before.verdict == Verdict::Clear) return;
        tell(ready.setup, Severity::Warning, "setup-previous-not-clear",
             say("The trial before, of {} on {}, is not clear (its verdict: {}), so the blank may not be as shown.",
                 before.program.name, before.setup.name, tr(name(before.verdict))),
             tr("Check that program first and mend what is found."));
    }

    const TrialOptions& options_;
    std::vector<fs::path> chain_;  // set-ups that wait for a trial before them
};

}  // namespace

namespace {

// After the blank, with which the size of the part is compared.
Setup readWanted(Setup setup, const fs::path& setupFile) {
    if (setup.wanted.file.empty()) return setup;
    std::string text;
    try {
        text = readNamedFile(besideSetup(setupFile, setup.wanted.file));
    } catch (const std::bad_alloc&) {
        throw;
    } catch (const std::exception& failure) {
        return withoutWantedDrawing(std::move(setup), failure.what());
    }
    return withWantedDrawing(std::move(setup), text);
}

}  // namespace

ReadyBlank readBlank(Setup setup, const fs::path& setupFile, const TrialOptions& options) {
    ReadyBlank ready = BlankFiles(options).read(std::move(setup), setupFile);
    ready.setup = readWanted(std::move(ready.setup), setupFile);
    return ready;
}

}  // namespace firstoff
