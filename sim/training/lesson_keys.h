// Every key that a lesson.toml may hold: the one table by which the file is read and against which
// assets/lessons/writing-lessons.md is tested.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>

namespace firstoff {

struct LessonKey {
    enum class Form : std::uint8_t {
        Text,      // any text that is not empty
        Choice,    // one of `choices`
        File,      // name of a file, seen from the folder of the lesson
        Number,    // least … most
        Whole,     // the same without a fraction
        Flag,      // true or false
        Line,      // "N120" or 12
        Lines,     // one of these, or the first and the last in a list
        Span,      // [from, to], numbers
        TextList,  // texts
    };
    std::string_view table;  // "" above all steps, "step", "choice"
    std::string_view key;
    Form form = Form::Text;
    // Kinds of steps that know it, by their first letters: s c n m w p; empty: all. Those in capitals cannot do
    // without.
    std::string_view kinds = {};
    bool required = false;     // of all, where `kinds` is empty
    bool inLanguages = false;  // may be there once more for a language, as title_de beside title
    double least = 0, most = 0;
    std::string_view choices = {};  // separated by |
};

std::span<const LessonKey> lessonKeys();

// Nothing if that table has no such key.
const LessonKey* lessonKey(std::string_view table, std::string_view key);

// Whether a step of a kind, by its letter, knows a key, and whether it needs it.
bool knows(const LessonKey& key, char kindLetter);
bool needs(const LessonKey& key, char kindLetter);

}  // namespace firstoff
