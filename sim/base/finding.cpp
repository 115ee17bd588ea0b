#include "sim/base/finding.h"

#include <algorithm>

#include "sim/base/say.h"

namespace firstoff {

const char* name(Severity severity) {
    switch (severity) {
        case Severity::Note:
            return later("note");
        case Severity::Warning:
            return later("warning");
        case Severity::Stop:
            return later("stop");
    }
    return "";
}

const char* name(Verdict verdict) {
    switch (verdict) {
        case Verdict::Clear:
            return later("clear");
        case Verdict::Problems:
            return later("problems");
        case Verdict::NotProven:
            return later("not-proven");
    }
    return "";
}

Verdict verdictOf(const std::vector<Finding>& findings) {
    const bool fault = std::any_of(findings.begin(), findings.end(),
                                   [](const Finding& f) { return !f.unproven && f.severity != Severity::Note; });
    if (fault) return Verdict::Problems;
    const bool unproven = std::any_of(findings.begin(), findings.end(), [](const Finding& f) { return f.unproven; });
    return unproven ? Verdict::NotProven : Verdict::Clear;
}

}  // namespace firstoff
