#include "sim/control/language_table.h"

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/control/codes.h"

namespace firstoff {

namespace {

std::string written(char letter, int tenths) {
    if (tenths < 0) return "–";
    const std::string whole = fmt::format("{}{:02}", letter, tenths / 10);
    return tenths % 10 == 0 ? whole : fmt::format("{}.{}", whole, tenths % 10);
}

std::string row(const CodeEntry& entry) {
    const bool carriedOut = entry.group != CodeGroup::Unknown;
    return fmt::format("| {} | {} | {} | {}{} |\n", written(entry.letter, entry.number[0]),
                       written(entry.letter, entry.number[1]), written(entry.letter, entry.number[2]),
                       carriedOut ? "" : tr("**Not carried out** (`unknown-code`): "), tr(entry.meaning));
}

}  // namespace

std::string languageTable() {
    std::string text = fmt::format("| A | B | C | {} |\n|---|---|---|---|\n", tr("what it orders"));
    for (const CodeEntry& entry : codeTable()) text += row(entry);
    return text;
}

}  // namespace firstoff
