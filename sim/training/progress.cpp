#include "sim/training/progress.h"

#include <toml++/toml.h>

#include <sstream>
#include <stdexcept>
#include <system_error>
#include <utility>

#include "sim/base/say.h"
#include "sim/output/finding_words.h"
#include "sim/output/whole_file.h"

namespace firstoff {

namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t kMostBytes = std::uintmax_t{4} << 20;  // thousands of lessons
constexpr int kMostCopies = 99;
constexpr std::int64_t kMostTries = 1'000'000'000;

const std::string& nameOf(const Lesson& lesson, int step) {
    return lesson.steps.at(static_cast<std::size_t>(step) - 1).name;
}

// A copy of what is there, under a name that is free.
fs::path keep(const fs::path& file) {
    for (int n = 1; n <= kMostCopies; ++n) {
        fs::path copy = file;
        copy += n == 1 ? std::string(".spoilt") : fmt::format(".spoilt-{}", n);
        std::error_code error;
        if (fs::copy_file(file, copy, fs::copy_options::none, error)) return copy;
        if (!fs::exists(copy))
            throw std::runtime_error(say("{}: no copy can be kept ({}).", file.string(), error.message()));
    }
    throw std::runtime_error(
        say("{}: there are {} spoilt copies already; take them away.", file.string(), kMostCopies));
}

// False: something in it is not as it is written here.
bool takeStep(const toml::table& table, Progress& progress) {
    const std::optional<std::string> lesson = table["lesson"].value<std::string>();
    const std::optional<std::string> step = table["step"].value<std::string>();
    if (!lesson || !step || lesson->empty() || step->empty()) return false;
    StepProgress& at = progress.lessons[*lesson][*step];
    at.answered = table["answered"].value_or(false);
    at.right = table["right"].value_or(false);
    const std::int64_t tries = table["tries"].value_or(std::int64_t{0});
    at.tries = static_cast<int>(std::clamp<std::int64_t>(tries, 0, kMostTries));
    at.date = table["date"].value_or(std::string());
    const bool flags = table["answered"].is_boolean() && table["right"].is_boolean() && table["tries"].is_integer();
    return flags && tries == at.tries && (!table.contains("date") || table["date"].is_string());
}

bool takeAll(const toml::table& root, Progress& progress) {
    bool whole = true;
    for (const auto& [key, node] : root) whole = whole && (key.str() == "step" || key.str() == "format");
    whole = whole && root["format"].value_or(std::string()) == "firstoff-progress";
    const toml::array* steps = root["step"].as_array();
    if (!steps) return whole && !root.contains("step");
    for (const toml::node& node : *steps) {
        const toml::table* table = node.as_table();
        whole = table && takeStep(*table, progress) && whole;
    }
    return whole;
}

}  // namespace

StepProgress Progress::of(const Lesson& lesson, int step) const {
    const auto found = lessons.find(lesson.name);
    if (found == lessons.end()) return {};
    const auto at = found->second.find(nameOf(lesson, step));
    return at == found->second.end() ? StepProgress{} : at->second;
}

int Progress::rightSteps(const Lesson& lesson) const {
    int right = 0;
    for (int step = 1; step <= static_cast<int>(lesson.steps.size()); ++step) right += of(lesson, step).right ? 1 : 0;
    return right;
}

Progress withTry(Progress progress, const Lesson& lesson, int step, bool right, std::string date) {
    StepProgress& at = progress.lessons[lesson.name][nameOf(lesson, step)];
    at.answered = true;
    at.right = at.right || right;
    if (at.tries < kMostTries) ++at.tries;
    at.date = std::move(date);
    return progress;
}

ReadProgress readProgress(const fs::path& file) {
    ReadProgress result;
    std::error_code error;
    const fs::file_status status = fs::status(file, error);
    if (status.type() == fs::file_type::not_found) return result;
    if (!fs::is_regular_file(status)) throw std::runtime_error(say("{}: this is no file.", file.string()));
    const std::uintmax_t bytes = fs::file_size(file, error);
    if (error) throw std::runtime_error(fmt::format("{}: {}", file.string(), error.message()));
    bool whole = false;
    std::string why = tr("it is empty or too large for a record of progress");
    if (bytes > 0 && bytes <= kMostBytes) {
        try {
            whole = takeAll(toml::parse(readWholeFile(file)), result.progress);
            why = tr("some of it is no record of progress");
        } catch (const toml::parse_error& fault) {
            why = say("line {}: {}", fault.source().begin.line, plainText(fault.description()));
        }
    }
    if (whole) return result;
    const fs::path copy = keep(file);
    result.told = say("The record of progress in {} is spoilt ({}). It was kept as {}; what could be read is used.",
                      file.string(), why, copy.filename().string());
    return result;
}

void saveProgress(const fs::path& file, const Progress& progress) {
    toml::array steps;
    for (const auto& [lesson, all] : progress.lessons) {
        for (const auto& [step, at] : all) {
            toml::table table{{"lesson", lesson},
                              {"step", step},
                              {"answered", at.answered},
                              {"right", at.right},
                              {"tries", at.tries}};
            if (!at.date.empty()) table.insert("date", at.date);
            steps.push_back(std::move(table));
        }
    }
    toml::table root{{"format", "firstoff-progress"}};
    if (!steps.empty()) root.insert("step", std::move(steps));
    std::ostringstream text;
    text << root << '\n';
    if (file.has_parent_path()) fs::create_directories(file.parent_path());
    writeWholeFile(file, text.str());
}

}  // namespace firstoff
