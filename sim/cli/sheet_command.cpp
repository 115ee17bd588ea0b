#include <algorithm>
#include <cctype>
#include <filesystem>
#include <stdexcept>
#include <string>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/cli/commands.h"
#include "sim/cli/tried_file.h"
#include "sim/output/sheets/job_sheets.h"
#include "sim/output/sheets/sheet_html.h"
#include "sim/output/sheets/sheet_pdf.h"
#include "sim/output/whole_file.h"

namespace firstoff::cli {

namespace {

enum class Form : std::uint8_t { Html, Pdf };

Form formOf(const std::string& out) {
    std::string ending = std::filesystem::path(out).extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    if (ending == ".html" || ending == ".htm") return Form::Html;
    if (ending == ".pdf") return Form::Pdf;
    throw std::runtime_error(say("--out {}: the ending of the name says what is written; there are html and pdf", out));
}

SheetKind kindOf(const std::string& word) {
    if (const std::optional<SheetKind> kind = sheetKind(word)) return *kind;
    throw std::runtime_error(say("--kind {}: there are {}", word, sheetKinds()));
}

}  // namespace

ExitCode sheet(const SheetRequest& request) {
    // Before the trial, which may take long.
    const SheetKind kind = kindOf(request.kind);
    if (request.answers && kind != SheetKind::Handout) {
        throw std::runtime_error(
            say("--answers: only hand-outs have exercises; --kind {} has none", std::string(request.kind)));
    }
    const Form form = formOf(request.out);
    const TriedJob tried = tryForFile(request.job);
    SheetOptions options;
    options.setupText = tried.setupText;
    options.date = request.date;
    options.answers = request.answers;
    if (form == Form::Html) options.figureMm = kPhoneFigureMm;
    const Sheet made = makeSheet(*tried.trial, kind, options);
    writeWholeFile(request.out, form == Form::Html ? sheetHtml(made) : sheetPdf(made));
    return exitCode(tried.trial->verdict);
}

}  // namespace firstoff::cli
