#include "sim/training/lesson.h"

#include "sim/base/say.h"

namespace firstoff {

const char* name(LessonStep::Kind kind) {
    switch (kind) {
        case LessonStep::Kind::Show:
            return "show";
        case LessonStep::Kind::Choose:
            return "choose";
        case LessonStep::Kind::Number:
            return "number";
        case LessonStep::Kind::Mend:
            return "mend";
        case LessonStep::Kind::Write:
            return "write";
        case LessonStep::Kind::Predict:
            return "predict";
    }
    return "show";
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
