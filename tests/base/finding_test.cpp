#include "sim/base/finding.h"

#include <gtest/gtest.h>

namespace firstoff {
namespace {

Finding finding(Severity severity, bool unproven) {
    Finding f;
    f.severity = severity;
    f.unproven = unproven;
    return f;
}

TEST(Verdict, NothingFoundIsClear) { EXPECT_EQ(verdictOf({}), Verdict::Clear); }

TEST(Verdict, NotesLeaveItClear) { EXPECT_EQ(verdictOf({finding(Severity::Note, false)}), Verdict::Clear); }

TEST(Verdict, AnythingNotUnderstoodIsNotProvenWhateverItsSeverity) {
    for (Severity s : {Severity::Note, Severity::Warning, Severity::Stop}) {
        EXPECT_EQ(verdictOf({finding(s, true)}), Verdict::NotProven);
    }
}

TEST(Verdict, AKnownFaultOutweighsWhatWasNotUnderstood) {
    EXPECT_EQ(verdictOf({finding(Severity::Note, true), finding(Severity::Warning, false)}), Verdict::Problems);
}

}  // namespace
}  // namespace firstoff
