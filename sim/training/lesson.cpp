#include "sim/training/lesson.h"

#include "sim/base/say.h"

namespace firstoff {

const char* name(LessonStep::Kind kind) {
    switch (kind) {
        case LessonStep::Kind::Show:
            return later("show");
        case LessonStep::Kind::Choose:
            return later("choose");
        case LessonStep::Kind::Number:
            return later("number");
        case LessonStep::Kind::Mend:
            return later("mend");
        case LessonStep::Kind::Write:
            return later("write");
        case LessonStep::Kind::Predict:
            return later("predict");
    }
    return later("show");
}

std::string inWords(const LessonFault& fault) {
    std::string text = fault.line > 0 ? say("{}, line {}", fault.file, fault.line) : fault.file;
    if (fault.step > 0) {
        text += ' ';
        text += say("(step {})", fault.step);
    }
    text += ": ";
    text += fault.cause;
    if (!fault.remedy.empty()) {
        text += ' ';
        text += fault.remedy;
    }
    return text;
}

std::filesystem::path fileOf(const Lesson& lesson, const std::string& name) {
    return (lesson.folder / name).lexically_normal();
}

}  // namespace firstoff
