// Answers as they are written in a terminal.
#include <algorithm>
#include <cctype>
#include <charconv>
#include <exception>

#include "sim/base/say.h"
#include "sim/output/whole_file.h"
#include "sim/training/marking.h"

namespace firstoff {

namespace {

using Kind = LessonStep::Kind;

std::string_view trimmed(std::string_view text) {
    const std::size_t from = text.find_first_not_of(" \t\r\n");
    if (from == std::string_view::npos) return {};
    return text.substr(from, text.find_last_not_of(" \t\r\n") - from + 1);
}

// The number that a text begins with, and how long it is; a comma may stand for the point.
std::optional<double> leadingNumber(std::string_view text, std::size_t& length) {
    length = std::min(text.find_first_not_of("+-0123456789.,"), text.size());
    std::string figures(text.substr(0, length));
    std::replace(figures.begin(), figures.end(), ',', '.');
    const char* begin = figures.c_str() + (figures.starts_with('+') ? 1 : 0);
    const char* end = figures.c_str() + figures.size();
    double value = 0;
    const auto read = std::from_chars(begin, end, value);
    if (begin == end || read.ec != std::errc() || read.ptr != end) return std::nullopt;
    return value;
}

std::optional<Answer> choicesOf(std::string_view text, std::string& trouble) {
    ChosenAnswer answer;
    while (!(text = trimmed(text)).empty()) {
        const std::size_t end = std::min(text.find_first_of(" ,;"), text.size());
        const std::string_view one = text.substr(0, end);
        const char c = one.empty() ? 0 : one.front();
        int number = 0;
        const auto read = std::from_chars(one.data(), one.data() + one.size(), number);
        if (one.size() == 1 && std::isalpha(static_cast<unsigned char>(c))) {
            answer.choices.push_back((c | 0x20) - 'a');
        } else if (!one.empty() && read.ec == std::errc() && read.ptr == one.data() + one.size() && number > 0) {
            answer.choices.push_back(number - 1);
        } else if (!one.empty()) {
            trouble = tr("Write choices by their letters or numbers: b, or 1,3.");
            return std::nullopt;
        }
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return answer;
}

std::optional<Answer> numberOf(std::string_view text, const std::string& unit, std::string& trouble) {
    std::size_t length = 0;
    const std::optional<double> value = leadingNumber(text, length);
    const std::string_view rest = trimmed(text.substr(length));
    if (value && (rest.empty() || rest == unit)) return NumberAnswer{*value};
    trouble = unit.empty() ? std::string(tr("Write a number alone.")) : say("Write a number, in {}.", unit);
    return std::nullopt;
}

// "X30 Z-12.5", or both numbers in this order.
std::optional<Answer> placeOf(std::string_view text, std::string& trouble) {
    std::optional<double> x, z;
    while (!(text = trimmed(text)).empty()) {
        const char letter = static_cast<char>(text.front() & ~0x20);
        const bool named = letter == 'X' || letter == 'Z';
        if (named) text.remove_prefix(1);
        std::size_t length = 0;
        std::optional<double>& into = named ? (letter == 'X' ? x : z) : (x ? z : x);
        const std::optional<double> value = leadingNumber(text, length);
        if (!value || into) break;
        into = value;
        text.remove_prefix(length);
    }
    if (x && z && text.empty()) return PlaceAnswer{*x, *z};
    trouble = tr("Write the place as on the position display: X30 Z-12.5, X as diameter.");
    return std::nullopt;
}

std::optional<Answer> programOf(const Lesson& lesson, const LessonStep& step, std::string_view text,
                                std::string& trouble) {
    if (trimmed(text).empty()) {
        trouble = tr("The program is empty.");
        return std::nullopt;
    }
    const bool whole = trimmed(text).front() == '%';
    if (step.kind == Kind::Mend || whole) return ProgramAnswer{std::string(text)};
    try {
        return ProgramAnswer{withGapFilled(readWholeFile(fileOf(lesson, step.program)), step.gap, text)};
    } catch (const std::exception& failure) {
        trouble = failure.what();
        return std::nullopt;
    }
}

}  // namespace

std::optional<Answer> answerOf(const Lesson& lesson, int number, std::string_view text, std::string& trouble) {
    if (number < 1 || static_cast<std::size_t>(number) > lesson.steps.size()) {
        trouble = say("The lesson has the steps 1 to {}.", lesson.steps.size());
        return std::nullopt;
    }
    const LessonStep& step = lesson.steps[static_cast<std::size_t>(number) - 1];
    switch (step.kind) {
        case Kind::Show:
            return SeenAnswer{};
        case Kind::Choose:
            return choicesOf(text, trouble);
        case Kind::Number:
            return numberOf(trimmed(text), step.unit, trouble);
        case Kind::Predict:
            return placeOf(text, trouble);
        case Kind::Mend:
        case Kind::Write:
            return programOf(lesson, step, text, trouble);
    }
    return std::nullopt;
}

std::string withGapFilled(std::string_view program, std::string_view gap, std::string_view blocks) {
    std::string result;
    while (!program.empty()) {
        const std::size_t end = std::min(program.find('\n'), program.size());
        const std::string_view line = program.substr(0, end);
        const bool isGap = trimmed(line) == gap && !gap.empty();
        result += isGap ? trimmed(blocks) : line;
        if (end < program.size()) result += '\n';
        program.remove_prefix(std::min(end + 1, program.size()));
    }
    return result;
}

}  // namespace firstoff
