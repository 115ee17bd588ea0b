#include "sim/training/lesson_trials.h"

#include <exception>
#include <map>
#include <new>

#include "sim/base/say.h"
#include "sim/output/blank_files.h"
#include "sim/output/program_folder.h"
#include "sim/output/setup_files.h"
#include "sim/output/whole_file.h"

namespace firstoff {

namespace {

namespace fs = std::filesystem;

// The first finding that says why a text could not be used at all.
std::string whyNot(const std::vector<Finding>& findings, const char* otherwise) {
    for (const Finding& finding : findings) {
        if (finding.severity != Severity::Stop) continue;
        return finding.span.line > 0 ? say("line {}: {}", finding.span.line, finding.message) : finding.message;
    }
    return otherwise;
}

bool isToml(const Setup& setup) {
    for (const Finding& finding : setup.findings) {
        if (finding.code == "setup-syntax") return false;
    }
    return true;
}

TriedProgram tryRead(const std::string& text, const fs::path& programFile, const fs::path& setupFile,
                     TrialOptions options) {
    const std::string programName = programFile.filename().string(), setupName = setupFile.filename().string();
    Program program = readProgram(text, programName);
    if (program.blocks.empty())
        return {nullptr, fmt::format("{}: {}", programName, whyNot(program.findings, tr("This is no program.")))};
    readCalledFiles(program, programFile);
    Setup setup = readSetup(readWholeFile(setupFile), setupName, setupFilesBeside(setupFile));
    if (!isToml(setup)) return {nullptr, fmt::format("{}: {}", setupName, whyNot(setup.findings, ""))};
    ReadyBlank ready = readBlank(std::move(setup), setupFile, options);
    options.previous = std::move(ready.previous);
    return {runTrial(std::move(program), std::move(ready.setup), options), {}};
}

// Each pair of files once.
class Trying {
public:
    Trying(const Lesson& lesson, const TrialOptions& options) : lesson_(lesson), options_(options) {}

    TriedProgram of(const std::string& program, const std::string& setup) {
        if (program.empty() || setup.empty()) return {nullptr, tr("The step has no program or no set-up.")};
        const auto [found, isNew] = tried_.try_emplace({program, setup});
        if (isNew) found->second = run(fileOf(lesson_, program), fileOf(lesson_, setup));
        return found->second;
    }

private:
    TriedProgram run(const fs::path& program, const fs::path& setup) const {
        try {
            return tryProgram(readWholeFile(program), program, setup, options_);
        } catch (const std::bad_alloc&) {
            throw;
        } catch (const std::exception& failure) {
            return {nullptr, failure.what()};
        }
    }

    const Lesson& lesson_;
    const TrialOptions& options_;
    std::map<std::pair<std::string, std::string>, TriedProgram> tried_;
};

}  // namespace

TriedProgram tryProgram(const std::string& text, const fs::path& programFile, const fs::path& setupFile,
                        TrialOptions options) {
    try {
        return tryRead(text, programFile, setupFile, std::move(options));
    } catch (const std::bad_alloc&) {
        throw;
    } catch (const std::exception& failure) {
        return {nullptr, failure.what()};
    }
}

LessonTrials tryLesson(const Lesson& lesson, const TrialOptions& options, int onlyStep) {
    LessonTrials result;
    result.steps.resize(lesson.steps.size());
    Trying trying(lesson, options);
    for (std::size_t i = 0; i < lesson.steps.size() && !options.stop.stop_requested(); ++i) {
        const LessonStep& step = lesson.steps[i];
        if (!step.usable || (onlyStep > 0 && static_cast<std::size_t>(onlyStep) != i + 1)) continue;
        result.steps[i].job = trying.of(step.program, step.setup);
        if (!step.solution.empty()) result.steps[i].model = trying.of(step.solution, step.setup);
    }
    return result;
}

}  // namespace firstoff
