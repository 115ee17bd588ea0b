#include "tests/cli/command_run.h"

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include <sys/wait.h>

namespace firstoff::shop {

namespace {

std::string contentsOf(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

}  // namespace

CommandRun firstoff(const std::string& arguments, const std::string& environment) {
    const Bench bench;
    const std::string line = environment + " " + FIRSTOFF_COMMAND + " " + arguments + " >'" + bench.path("out") +
                             "' 2>'" + bench.path("err") + "' </dev/null";
    const int status = std::system(line.c_str());
    CommandRun run;
    // A signal (a crash) keeps -1, which no test expects.
    if (WIFEXITED(status)) run.exitCode = WEXITSTATUS(status);
    run.out = bench.contents("out");
    run.err = bench.contents("err");
    return run;
}

std::string Bench::contents(const std::string& name) const {
    if (!has(name)) throw std::runtime_error("no file " + name);
    return contentsOf(folder_ / name);
}

int Bench::files() const {
    int count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder_.path())) count += entry.exists() ? 1 : 0;
    return count;
}

}  // namespace firstoff::shop
