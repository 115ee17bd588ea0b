// Reads the folder of a lesson: the steps out of lesson.toml, the text out of lesson.md, and looks whether the files
// and lines that it names are there.
#include <algorithm>
#include <exception>
#include <map>
#include <new>
#include <system_error>

#include "sim/base/say.h"
#include "sim/output/finding_words.h"
#include "sim/output/whole_file.h"
#include "sim/training/lesson.h"
#include "sim/training/lesson_table.h"

namespace firstoff {

namespace {

namespace fs = std::filesystem;
using Kind = LessonStep::Kind;

constexpr const char* kTomlFile = "lesson.toml";
constexpr std::size_t kMostSteps = 200;
constexpr std::size_t kMostChoices = 26;  // each has a letter
constexpr std::uintmax_t kMostTomlBytes = std::uintmax_t{256} << 10;
constexpr std::uintmax_t kMostJobBytes = std::uintmax_t{4} << 20;  // programs of lessons are small

std::optional<Kind> kindNamed(std::string_view text) {
    for (const Kind kind : {Kind::Show, Kind::Choose, Kind::Number, Kind::Mend, Kind::Write, Kind::Predict}) {
        if (text == name(kind)) return kind;
    }
    return std::nullopt;
}

// "" where a word is missing in the list, else that word.
std::string missingWord(std::string_view words, const LessonTable& table) {
    while (!words.empty()) {
        const std::size_t end = std::min(words.find(' '), words.size());
        if (!table.has(words.substr(0, end))) return std::string(words.substr(0, end));
        words.remove_prefix(std::min(end + 1, words.size()));
    }
    return {};
}

bool holdsWord(std::string_view words, std::string_view word) {
    while (!words.empty()) {
        const std::size_t end = std::min(words.find(' '), words.size());
        if (words.substr(0, end) == word) return true;
        words.remove_prefix(std::min(end + 1, words.size()));
    }
    return false;
}

std::string withoutBlanks(std::string_view line) {
    const std::size_t from = line.find_first_not_of(" \t\r");
    if (from == std::string_view::npos) return {};
    return std::string(line.substr(from, line.find_last_not_of(" \t\r") - from + 1));
}

class Reading {
public:
    Reading(const fs::path& folder, std::string_view language)
        : language_(language == "en" ? std::string_view() : language) {
        lesson_.folder = folder;
        lesson_.name = fs::path(folder).lexically_normal().filename().string();
        if (lesson_.name.empty() || lesson_.name == ".")  // a name that ends in a slash, or "."
            lesson_.name = fs::absolute(folder).lexically_normal().parent_path().filename().string();
    }

    Lesson run() {
        readSteps();
        readTexts();
        if (lesson_.title.empty()) lesson_.title = lesson_.name;
        std::stable_sort(lesson_.faults.begin(), lesson_.faults.end(), [](const LessonFault& a, const LessonFault& b) {
            const bool aToml = a.file == kTomlFile, bToml = b.file == kTomlFile;
            return aToml != bToml ? aToml : a.file != b.file ? a.file < b.file : a.line < b.line;
        });
        return std::move(lesson_);
    }

private:
    void fault(const std::string& file, std::uint32_t line, std::string cause, std::string remedy, int step = 0) {
        lesson_.faults.push_back({file, line, std::move(cause), std::move(remedy), step});
    }

    // Nothing, and a fault, where it cannot be had.
    std::optional<std::string> fileText(const std::string& file, std::uintmax_t mostBytes) {
        const fs::path path = lesson_.folder / file;
        std::error_code error;
        const std::uintmax_t bytes = fs::file_size(path, error);
        if (!error && bytes > mostBytes) {
            fault(file, 0, say("The file has {} bytes; up to {} are read.", bytes, mostBytes),
                  tr("Make it smaller, or see whether it is the file you mean."));
            return std::nullopt;
        }
        try {
            return readWholeFile(path);
        } catch (const std::bad_alloc&) {
            throw;
        } catch (const std::exception& failure) {
            fault(file, 0, say("The file cannot be had: {}.", failure.what()),
                  tr("Put it into the folder of the lesson."));
            return std::nullopt;
        }
    }

    void readSteps() {
        const std::optional<std::string> text = fileText(kTomlFile, kMostTomlBytes);
        if (!text) return;
        try {
            const toml::table root = toml::parse(*text);
            stepsRead_ = true;
            readRoot(root);
        } catch (const toml::parse_error& error) {
            fault(kTomlFile, error.source().begin.line,
                  say("The file cannot be read as TOML from here on: {}.", plainText(error.description())),
                  tr("Mend this line: [[step]] in double brackets, or key = value with texts in \"quotes\"."));
        }
    }

    void readRoot(const toml::table& root) {
        LessonTable table(root, "", 0, 0, language_, lesson_.faults);
        table.check("step");
        lesson_.title = table.text("title").value_or("");
        lesson_.about = table.text("about").value_or("");
        lesson_.minutes = static_cast<int>(table.number("minutes").value_or(0));
        program_ = fileIn(table, "program");
        setup_ = fileIn(table, "setup");
        namesJob_ = table.has("program") && table.has("setup");
        const toml::node* steps = root.get("step");
        const toml::array* list = steps ? steps->as_array() : nullptr;
        if (!list || !list->is_array_of_tables()) {
            fault(kTomlFile, steps ? steps->source().begin.line : 0, tr("The lesson has no steps."),
                  tr("Write each step below a line [[step]]."));
            return;
        }
        for (const toml::node& step : *list) {
            if (lesson_.steps.size() == kMostSteps) {
                fault(kTomlFile, step.source().begin.line, say("Only the first {} steps were read.", kMostSteps),
                      tr("Make two lessons of it."));
                return;
            }
            readStep(*step.as_table());
        }
        tellSameNames();
    }

    // Empty where there is none that can be used.
    std::string fileIn(LessonTable& table, std::string_view key) {
        const std::string file = table.text(key).value_or("");
        if (file.empty()) return {};
        if (fs::path(file).is_absolute()) {
            table.fault(key, say("{} is a path from the root; it was not used.", plainText(file)),
                        tr("Name the file as seen from the folder of the lesson."));
            return {};
        }
        std::error_code error;
        const fs::path path = lesson_.folder / file;
        if (fs::is_regular_file(path, error) && fs::file_size(path, error) <= kMostJobBytes && !error) return file;
        table.fault(key, say("There is no usable file {}.", plainText(file)),
                    tr("Put it where the lesson says, or mend the name; it may have 4 MiB."));
        return {};
    }

    void readStep(const toml::table& node) {
        LessonStep step;
        const int number = static_cast<int>(lesson_.steps.size()) + 1;
        step.line = node.source().begin.line;
        const auto* said = node.get("kind") ? node.get("kind")->as_string() : nullptr;
        const std::optional<Kind> kind = said ? kindNamed(said->get()) : std::nullopt;
        if (!kind) {  // as a step to read, so that the text below its heading is not lost
            fault(kTomlFile, node.contains("kind") ? node.get("kind")->source().begin.line : step.line,
                  tr("It is not said of what kind this step is; its text alone is shown."),
                  tr("Write kind = \"show\", \"choose\", \"number\", \"mend\", \"write\" or \"predict\"."), number);
            step.name = fmt::format("step-{}", number);
            step.program = program_;
            step.setup = setup_;
            lesson_.steps.push_back(std::move(step));
            return;
        }
        step.kind = *kind;
        LessonTable table(node, "step", said->get().front(), number, language_, lesson_.faults);
        step.usable = table.check(*kind == Kind::Choose ? "choice" : "");
        readCommon(table, step, number);
        switch (*kind) {
            case Kind::Choose:
                readChoices(node, table, step, number);
                break;
            case Kind::Number:
                readNumber(table, step);
                break;
            case Kind::Predict:
                readPlace(table, step);
                break;
            case Kind::Mend:
            case Kind::Write:
                readProgramStep(table, step);
                break;
            case Kind::Show:
                break;
        }
        lesson_.steps.push_back(std::move(step));
    }

    void readCommon(LessonTable& table, LessonStep& step, int number) {
        step.name = table.text("name").value_or(fmt::format("step-{}", number));
        step.program = table.has("program") ? fileIn(table, "program") : program_;
        step.setup = table.has("setup") ? fileIn(table, "setup") : setup_;
        if (step.program.empty() || step.setup.empty()) {
            const bool named = namesJob_ || (table.has("program") && table.has("setup"));  // and told where it is named
            if (!named)
                table.fault("program", tr("This step has no program and set-up that can be used."),
                            tr("Name both above all steps, or in the step."));
            step.usable = false;
        }
        if (table.has("lines") && table.has("times_s")) {
            table.fault("times_s", tr("Both lines and times_s are said; the lines are shown."),
                        tr("Leave one of them out."));
        }
        const std::vector<LinePlace> lines = table.lines("lines");
        if (!lines.empty()) {
            step.fromLine = checkedLine(table, "lines", step.program, lines.front());
            step.toLine = checkedLine(table, "lines", step.program, lines.back());
            if (!step.fromLine || !step.toLine) step.fromLine = step.toLine = std::nullopt;
        } else if (const auto times = table.span("times_s")) {
            step.fromTimeS = times->first;
            step.toTimeS = times->second;
        }
        const std::optional<std::string> view = table.text("view");
        if (view) step.view = *lessonViewNamed(*view);
        if (step.kind == Kind::Show) return;
        step.question = table.text("question").value_or("");
        step.whenRight = table.text("when_right").value_or("");
        step.hint = table.text("hint").value_or("");
    }

    // Nothing, and a fault, where the program has no such line.
    std::optional<LinePlace> checkedLine(LessonTable& table, std::string_view key, const std::string& program,
                                         const LinePlace& place) {
        if (program.empty()) return place;  // told already
        if (blockOf(programOf(program), place) != kNoBlock) return place;
        table.fault(key, say("{} has no {}.", program, inWords(place)), tr("Name a line that is there."));
        return std::nullopt;
    }

    const Program& programOf(const std::string& file) {
        const auto [found, isNew] = programs_.try_emplace(file);
        if (isNew) {
            if (const std::optional<std::string> text = fileText(file, kMostJobBytes))
                found->second = readProgram(*text, file);
        }
        return found->second;
    }

    void readChoices(const toml::table& node, LessonTable& table, LessonStep& step, int number) {
        const toml::node* choices = node.get("choice");
        const toml::array* list = choices ? choices->as_array() : nullptr;
        if (list && list->is_array_of_tables()) {
            for (const toml::node& one : *list) {
                if (step.choices.size() < kMostChoices) readChoice(*one.as_table(), step, number);
            }
            if (list->size() > kMostChoices)
                table.fault("choice", say("There are more than {} choices; the first were read.", kMostChoices),
                            tr("Leave some out."));
        }
        const auto right =
            std::count_if(step.choices.begin(), step.choices.end(), [](const LessonChoice& c) { return c.right; });
        if (right > 0 && right < static_cast<std::ptrdiff_t>(step.choices.size())) return;
        table.fault("choice", tr("There must be a right choice and a wrong one; this cannot be asked."),
                    tr("Write two or more [[step.choice]] with text = \"…\", and right = true in those that are."));
        step.usable = false;
    }

    void readChoice(const toml::table& node, LessonStep& step, int number) {
        LessonTable table(node, "choice", 0, number, language_, lesson_.faults);
        if (!table.check()) step.usable = false;
        step.choices.push_back(
            {table.text("text").value_or("?"), table.flag("right"), table.text("reply").value_or("")});
        if (table.anyWrong()) step.usable = false;
    }

    void readNumber(LessonTable& table, LessonStep& step) {
        step.answer = table.number("answer");
        const std::optional<std::string> quantity = table.text("quantity");
        if (quantity) readQuantity(table, *quantity, step);
        if (table.has("quantity") == table.has("answer")) {
            table.fault(
                "answer",
                tr("One of quantity and answer is needed: what is gauged from the trial, or the figure itself."),
                tr("Write quantity = \"…\", which cannot go stale, or answer = a number."));
            step.usable = false;
        }
        if (step.quantity) {
            if (table.has("unit"))
                table.fault("unit", tr("The quantity has its own unit; this one was not used."), tr("Leave unit out."));
            step.unit = nameOf(step.quantity->kind).unit;
        } else {
            step.unit = table.text("unit").value_or("");
        }
        step.tolerance = table.number("tolerance").value_or(0);
        step.tolerancePercent = table.number("tolerance_percent").value_or(0);
        if (table.anyWrong()) step.usable = false;
    }

    void readQuantity(LessonTable& table, const std::string& name, LessonStep& step) {
        const QuantityName& known = *quantityNamed(name);
        if (const std::string missing = missingWord(known.needs, table); !missing.empty()) {
            table.fault("quantity", say("{} needs the key {}.", name, missing), say("Write {} beside it.", missing));
            step.usable = false;
            return;
        }
        for (const std::string_view key : {"line", "pass", "z_mm", "inside", "finding"}) {
            if (table.has(key) && !holdsWord(known.needs, key) && !holdsWord(known.allows, key))
                table.fault(key, say("{} has no meaning beside the quantity {}.", key, name), tr("Leave it out."));
        }
        Quantity quantity{known.kind, {}, 0, 0, false, {}};
        quantity.line = table.line("line");
        if (quantity.line) quantity.line = checkedLine(table, "line", step.program, *quantity.line);
        quantity.pass = static_cast<int>(table.number("pass").value_or(0));
        quantity.zMm = table.number("z_mm").value_or(0);
        quantity.inside = table.flag("inside");
        quantity.finding = table.text("finding").value_or("");
        step.quantity = quantity;
    }

    void readPlace(LessonTable& table, LessonStep& step) {
        step.atLine = table.line("line");
        if (step.atLine) step.atLine = checkedLine(table, "line", step.program, *step.atLine);
        step.tolerance = table.number("tolerance_mm").value_or(0);
        if (!step.atLine || !(step.tolerance > 0)) step.usable = false;
    }

    void readProgramStep(LessonTable& table, LessonStep& step) {
        step.solution = fileIn(table, "solution");
        if (step.solution.empty()) step.usable = false;
        ProgramNeeds& needs = step.needs;
        needs.toleranceMm = table.number("tolerance_mm").value_or(needs.toleranceMm);
        needs.mostLongerS = table.number("most_longer_s");
        needs.mostRevPerMin = table.number("most_rev_per_min");
        needs.deepestCutMm = table.number("deepest_cut_mm");
        needs.compensation = table.flag("compensation");
        needs.surfaceSpeed = table.flag("surface_speed");
        needs.speedClamp = table.flag("speed_clamp");
        needs.gone = table.texts("gone");
        for (const std::string& cycle : table.texts("cycles")) readCycle(table, cycle, needs);
        if (step.kind == Kind::Write) readGap(table, step);
        if (table.anyWrong()) step.usable = false;  // it could be marked right for less than is asked
    }

    static void readCycle(LessonTable& table, const std::string& text, ProgramNeeds& needs) {
        constexpr int kFirstCycle = 70, kLastCycle = 94;
        const std::optional<LinePlace> number =
            text.size() > 1 && (text[0] == 'G' || text[0] == 'g') ? linePlaceOf(text.substr(1)) : std::nullopt;
        const int code = number && !number->sequence ? static_cast<int>(std::min(number->number, 1000u)) : 0;
        if (code >= kFirstCycle && code <= kLastCycle) {
            needs.cycles.push_back(code);
        } else {
            table.fault("cycles", say("{} is no cycle.", plainText(text)),
                        tr("Write cycles as code system A has them, from G70 to G94: [\"G71\", \"G70\"]."));
        }
    }

    void readGap(LessonTable& table, LessonStep& step) {
        step.gap = withoutBlanks(table.text("gap").value_or(""));
        if (step.program.empty()) return;
        const Program& program = programOf(step.program);
        int found = 0;
        for (const Block& block : program.blocks) found += withoutBlanks(program.textOf(block)) == step.gap ? 1 : 0;
        if (found == 1 && step.gap.size() > 1 && step.gap.front() == '(') return;
        table.fault("gap",
                    say("The gap must be one line of {}, a comment that stands there once; it is there {} times.",
                        step.program, found),
                    tr("Write a comment in the place of the missing blocks, and the same text here."));
        step.usable = false;
    }

    void tellSameNames() {
        std::map<std::string, int> names;
        for (std::size_t i = 0; i < lesson_.steps.size(); ++i) {
            LessonStep& step = lesson_.steps[i];
            if (names[step.name]++ == 0) continue;
            const int number = static_cast<int>(i) + 1;
            fault(kTomlFile, step.line, say("Two steps have the name {}.", plainText(step.name)),
                  tr("Give each step a name of its own: progress is recorded by it."), number);
            step.name = fmt::format("step-{}", number);
        }
    }

    void readTexts() {
        std::string file = "lesson.md";
        if (!language_.empty()) {
            const std::string other = fmt::format("lesson.{}.md", language_);
            std::error_code error;
            if (fs::is_regular_file(lesson_.folder / other, error)) file = other;
        }
        const std::optional<std::string> text = fileText(file, kMostTextBytes);
        if (!text) return;
        ReadLessonText read = readLessonText(*text);
        for (TextFault& f : read.faults) fault(file, f.line, std::move(f.cause), std::move(f.remedy));
        if (!read.blocks.empty()) deal(file, std::move(read.blocks));
    }

    // What stands below each heading of the second level to its step.
    void deal(const std::string& file, LessonText blocks) {
        std::size_t headings = 0;
        for (TextBlock& block : blocks) {
            if (block.kind == TextBlock::Kind::Heading && block.level == 2) {
                if (++headings <= lesson_.steps.size()) lesson_.steps[headings - 1].title = plainRuns(block.runs);
                continue;
            }
            const int step = headings <= lesson_.steps.size() ? static_cast<int>(headings) : 0;
            if (block.kind == TextBlock::Kind::Picture && !pictureIsThere(file, block, step)) continue;
            if (headings == 0 || headings > lesson_.steps.size()) {
                lesson_.opening.push_back(std::move(block));  // nothing is kept from the reader
            } else {
                lesson_.steps[headings - 1].text.push_back(std::move(block));
            }
        }
        if (headings == lesson_.steps.size() || !stepsRead_) return;
        fault(file, 0,
              say("The text has {} headings of the second level (## …), the lesson {} steps.", headings,
                  lesson_.steps.size()),
              tr("Write one such heading for each step, in the same order."));
    }

    bool pictureIsThere(const std::string& file, const TextBlock& picture, int step) {
        const LessonStep* of = step > 0 ? &lesson_.steps[static_cast<std::size_t>(step) - 1] : nullptr;
        const std::string& program = of ? of->program : program_;
        if (program.empty()) {
            if (!stepsRead_ || namesJob_ || of) return false;  // why is told there
            fault(file, picture.line, tr("The picture has no program to be taken from."),
                  tr("Name program and setup above all steps."), step);
            return false;
        }
        if (!picture.figure.afterLine || blockOf(programOf(program), *picture.figure.afterLine) != kNoBlock)
            return true;
        fault(file, picture.line,
              say("The picture wants {}, which {} has not.", inWords(*picture.figure.afterLine), program),
              tr("Name a line that is there."), step);
        return false;
    }

    std::string_view language_;
    Lesson lesson_;
    std::string program_, setup_;
    bool stepsRead_ = false;  // lesson.toml is TOML
    bool namesJob_ = false;   // it names program and set-up above all steps, usable or not
    std::map<std::string, Program> programs_;
};

}  // namespace

Lesson readLesson(const fs::path& folder, std::string_view language) {
    return Reading(folder, language).run();
}

}  // namespace firstoff
