#include "sim/training/lesson_keys.h"

#include <cctype>

#include "sim/training/lesson.h"

namespace firstoff {

namespace {

using Form = LessonKey::Form;

// Wide ends keep a slip of the keyboard from meaning anything; they are not limits of machines.
constexpr double kMostMm = 10000;
constexpr double kMostSeconds = 1e6;
constexpr double kMostFigure = 1e9;

constexpr std::string_view kQuantityNames =
    "rev_per_min|clamp_x_mm|surface_speed_m_per_min|feed_mm_per_min|end_x_mm|end_z_mm|passes|pass_depth_mm|pass_x_mm|"
    "cut_depth_mm|line_time_s|cycle_time_s|finished_diameter_mm|finished_length_mm|theoretical_rz_um|finding_line|"
    "finding_count";

constexpr LessonKey kKeys[] = {
    {.table = "", .key = "title", .required = true, .inLanguages = true},
    {.table = "", .key = "about", .inLanguages = true},
    {.table = "", .key = "minutes", .form = Form::Whole, .least = 1, .most = 600},
    {.table = "", .key = "program", .form = Form::File},
    {.table = "", .key = "setup", .form = Form::File},

    {.table = "step", .key = "kind", .form = Form::Choice, .required = true, .choices = kStepKinds},
    {.table = "step", .key = "name"},
    {.table = "step", .key = "program", .form = Form::File},
    {.table = "step", .key = "setup", .form = Form::File},
    {.table = "step", .key = "lines", .form = Form::Lines},
    {.table = "step", .key = "times_s", .form = Form::Span, .least = 0, .most = kMostSeconds},
    {.table = "step", .key = "view", .form = Form::Choice, .choices = kLessonViews},
    {.table = "step", .key = "question", .kinds = "CNPmw", .inLanguages = true},
    {.table = "step", .key = "when_right", .kinds = "cnmwp", .inLanguages = true},
    {.table = "step", .key = "hint", .kinds = "cnmwp", .inLanguages = true},
    {.table = "step", .key = "quantity", .form = Form::Choice, .kinds = "n", .choices = kQuantityNames},
    {.table = "step", .key = "line", .form = Form::Line, .kinds = "nP"},
    {.table = "step", .key = "pass", .form = Form::Whole, .kinds = "n", .least = 1, .most = 10000},
    {.table = "step", .key = "z_mm", .form = Form::Number, .kinds = "n", .least = -kMostMm, .most = kMostMm},
    {.table = "step", .key = "inside", .form = Form::Flag, .kinds = "n"},
    {.table = "step", .key = "finding", .kinds = "n"},
    {.table = "step", .key = "answer", .form = Form::Number, .kinds = "n", .least = -kMostFigure, .most = kMostFigure},
    {.table = "step", .key = "unit", .kinds = "n"},
    {.table = "step", .key = "tolerance", .form = Form::Number, .kinds = "n", .least = 0, .most = kMostFigure},
    {.table = "step", .key = "tolerance_percent", .form = Form::Number, .kinds = "n", .least = 0, .most = 50},
    {.table = "step", .key = "tolerance_mm", .form = Form::Number, .kinds = "Pmw", .least = 0.001, .most = 20},
    {.table = "step", .key = "solution", .form = Form::File, .kinds = "MW"},
    {.table = "step", .key = "gap", .kinds = "W"},
    {.table = "step", .key = "most_longer_s", .form = Form::Number, .kinds = "mw", .least = 0, .most = kMostSeconds},
    {.table = "step", .key = "most_rev_per_min", .form = Form::Number, .kinds = "mw", .least = 1, .most = 100000},
    {.table = "step", .key = "deepest_cut_mm", .form = Form::Number, .kinds = "mw", .least = 0.01, .most = 100},
    {.table = "step", .key = "compensation", .form = Form::Flag, .kinds = "mw"},
    {.table = "step", .key = "surface_speed", .form = Form::Flag, .kinds = "mw"},
    {.table = "step", .key = "speed_clamp", .form = Form::Flag, .kinds = "mw"},
    {.table = "step", .key = "cycles", .form = Form::TextList, .kinds = "mw"},
    {.table = "step", .key = "gone", .form = Form::TextList, .kinds = "mw"},

    {.table = "choice", .key = "text", .required = true, .inLanguages = true},
    {.table = "choice", .key = "right", .form = Form::Flag},
    {.table = "choice", .key = "reply", .inLanguages = true},
};

}  // namespace

std::span<const LessonKey> lessonKeys() {
    return kKeys;
}

const LessonKey* lessonKey(std::string_view table, std::string_view key) {
    for (const LessonKey& known : kKeys) {
        if (known.table == table && known.key == key) return &known;
    }
    return nullptr;
}

bool knows(const LessonKey& key, char letter) {
    if (key.kinds.empty()) return true;
    return key.kinds.find(letter) != std::string_view::npos || needs(key, letter);
}

bool needs(const LessonKey& key, char letter) {
    if (key.kinds.empty()) return key.required;
    return key.kinds.find(static_cast<char>(std::toupper(static_cast<unsigned char>(letter)))) !=
           std::string_view::npos;
}

}  // namespace firstoff
