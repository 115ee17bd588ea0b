// A folder with a small lesson in it, for tests that spoil one thing.
#pragma once

#include <filesystem>
#include <string>

#include "sim/training/lesson.h"
#include "sim/training/marking.h"
#include "tests/support/work_folder.h"

namespace firstoff::shop {

// Three steps on the stud of the first lesson: show, number, mend. Removed with the object.
class LessonBench {
public:
    LessonBench();

    void put(const std::string& file, const std::string& contents) const;
    std::string contents(const std::string& file) const;
    void remove(const std::string& file) const;
    // Replaces a piece of a file; the test fails where it is not in it.
    void change(const std::string& file, const std::string& what, const std::string& with) const;

    const std::filesystem::path& folder() const { return folder_; }
    firstoff::Lesson read(const std::string& language = "en") const { return readLesson(folder_, language); }

private:
    WorkFolder folder_;
};

// Line of a text, from 1, on which something stands first; 0: nowhere.
std::uint32_t lineWith(const std::string& text, const std::string& what);

// Every fault in words, a line each.
std::string faultsOf(const firstoff::Lesson& lesson);

// What an answer to a step comes to. Tried anew each time.
firstoff::Marking mark(const firstoff::Lesson& lesson, int step, const firstoff::Answer& answer);

// Reply and remarks of a marking, a line each.
std::string told(const firstoff::Marking& marking);

}  // namespace firstoff::shop
