#include "tests/training/lesson_bench.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "tests/support/shop.h"

namespace firstoff::shop {

namespace fs = std::filesystem;

namespace {

constexpr const char* kToml = R"(title = "Stud"
program = "stud.nc"
setup = "stud.toml"

[[step]]
kind = "show"
lines = ["N130", "N140"]

[[step]]
kind = "number"
name = "diameter"
quantity = "end_x_mm"
line = "N160"
tolerance = 0.01
question = "Which X?"

[[step]]
kind = "mend"
program = "stud-to-mend.nc"
solution = "stud.nc"
tolerance_mm = 0.02
question = "Mend it."
)";

constexpr const char* kText = R"(# Stud

Opening.

## First

Look.

![](part@end)

## Second

Reckon.

## Third

Mend.
)";

std::string withAssetsOfTheTree(std::string setup) {
    const std::string tree = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/";
    for (std::size_t at = setup.find("../../machines"); at != std::string::npos; at = setup.find("../../machines"))
        setup.replace(at, 6, tree);
    for (std::size_t at = setup.find("../../tools"); at != std::string::npos; at = setup.find("../../tools"))
        setup.replace(at, 6, tree);
    return setup;
}

}  // namespace

LessonBench::LessonBench() {
    put("lesson.toml", kToml);
    put("lesson.md", kText);
    const std::string job = "assets/lessons/01-reading-a-block/";
    put("stud.nc", readFile(job + "stud.nc"));
    put("stud-to-mend.nc", readFile(job + "stud-to-mend.nc"));
    put("stud-with-gap.nc", readFile(job + "stud-with-gap.nc"));
    put("stud.toml", withAssetsOfTheTree(readFile(job + "stud.toml")));
}

void LessonBench::put(const std::string& file, const std::string& contents) const {
    folder_.put(file, contents);
}

std::string LessonBench::contents(const std::string& file) const {
    std::ostringstream text;
    text << std::ifstream(folder_ / file, std::ios::binary).rdbuf();
    return text.str();
}

void LessonBench::remove(const std::string& file) const {
    fs::remove(folder_ / file);
}

void LessonBench::change(const std::string& file, const std::string& what, const std::string& with) const {
    std::string text = contents(file);
    const std::size_t at = text.find(what);
    ASSERT_NE(at, std::string::npos) << file << " does not hold " << what;
    put(file, text.replace(at, what.size(), with));
}

std::uint32_t lineWith(const std::string& text, const std::string& what) {
    const std::size_t at = text.find(what);
    if (at == std::string::npos) return 0;
    return 1 +
           static_cast<std::uint32_t>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
}

std::string faultsOf(const firstoff::Lesson& lesson) {
    std::string text;
    for (const LessonFault& fault : lesson.faults) {
        text += inWords(fault);
        text += '\n';
    }
    return text;
}

firstoff::Marking mark(const firstoff::Lesson& lesson, int step, const firstoff::Answer& answer) {
    return markAnswer(lesson, tryLesson(lesson, {}, step), step, answer);
}

std::string told(const firstoff::Marking& marking) {
    std::string text = marking.reply;
    for (const std::string& remark : marking.remarks) {
        text += '\n';
        text += remark;
    }
    return text;
}

}  // namespace firstoff::shop
