#include "sim/control/remarks.h"

#include "sim/base/say.h"

namespace firstoff {

namespace {

constexpr std::size_t kMostOfOneKind = 200;  // a list longer than this is read by nobody

}  // namespace

void Remarks::at(BlockId block, const Word* word, Remark remark) {
    if (word != nullptr) {
        at(block, *word, std::move(remark));
    } else {
        at(block, std::move(remark));
    }
}

void Remarks::add(SourceSpan span, Remark remark) {
    if (!said_.emplace((std::uint64_t{span.part} << 32) | span.line, remark.code).second) return;
    if (++counts_[remark.code] > kMostOfOneKind) return;
    Finding finding;
    finding.severity = remark.severity;
    finding.code = remark.code;
    finding.span = span;
    finding.unproven = remark.unproven;
    finding.message = std::move(remark.message);
    finding.remedy = std::move(remark.remedy);
    finding.values = std::move(remark.values);
    out_.push_back(std::move(finding));
}

void Remarks::close() {
    for (const auto& [code, count] : counts_) {
        if (count <= kMostOfOneKind) continue;
        Finding finding;
        finding.severity = Severity::Note;
        finding.code = "more-of-the-same";
        finding.message = say("{} more lines have the finding {} and are not listed.", count - kMostOfOneKind, code);
        finding.remedy = tr("Mend the lines that are listed, then check again.");
        out_.push_back(std::move(finding));
    }
}

}  // namespace firstoff
