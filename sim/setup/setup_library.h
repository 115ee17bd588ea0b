// The machine file and the tool files that a set-up takes keys from: their tables are put under its own before
// anything has a meaning. Inside sim/setup only.
//
// What comes from such a file keeps its place in it, with SourceSpan::part as the number of the file; toldInSetup()
// turns such places into that of the key that names the file.
#pragma once

#include <string>
#include <vector>

#include "sim/setup/setup.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

class SetupLibrary {
public:
    // Takes over into `document` what it does not say itself. Findings of the document grow by what is wrong with the
    // files as files; those of their keys come with the check of the document.
    void take(SetupDocument& document, const ReadSetupFile& readFile);

    // A finding in one of the files as one at the key that names it, the file and its line said in the message.
    void tellInSetup(Finding& finding) const;
    void tellInSetup(SourceSpan& span) const;

private:
    struct File {
        std::string name;
        SourceSpan namedAt;
    };
    class Taking;
    std::vector<File> files_;  // part n is files_[n - 1]
};

}  // namespace firstoff
