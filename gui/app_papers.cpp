// Papers, pictures and videos out of the window.
#include <algorithm>
#include <cctype>

#include "gui/app.h"
#include "gui/file_io.h"
#include "gui/video_export.h"
#include "sim/base/say.h"
#include "sim/output/sheets/job_sheets.h"
#include "sim/output/sheets/sheet_html.h"
#include "sim/output/sheets/sheet_pdf.h"

namespace firstoff::gui {

namespace fs = std::filesystem;

namespace {

const char* endingOf(SheetKind kind) {
    switch (kind) {
        case SheetKind::Setup:
            return "set-up";
        case SheetKind::Inspection:
            return "inspection";
        case SheetKind::Time:
            return "time";
        case SheetKind::Findings:
            return "findings";
        case SheetKind::Handout:
            return "hand-out";
    }
    return "paper";
}

}  // namespace

void App::apply(const AskForPaper& command) {
    paper_ = command;
    fs::path name = session_.programPath.empty() ? fs::path(session_.programName()) : session_.programPath;
    std::string stem = name.stem().string();
    stem += '-';
    stem += endingOf(command.kind);
    stem += ".pdf";
    browser_.open(AskForFile::What::Paper, name.parent_path() / stem);
}

// Of the trial that is shown: a paper of a text that was edited since would be of another job.
void App::apply(const WritePaper& command) {
    const Trial* trial = session_.trial();
    if (!trial) return tell(tr("There is no trial to write a paper of."));
    if (session_.stale()) return tell(tr("The trial of the last edit is not ready yet: write the paper in a moment."));
    std::string ending = command.path.extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    const bool html = ending == ".html" || ending == ".htm";
    if (!html && ending != ".pdf") return tell(tr("The name of a paper ends in .pdf or .html."));
    SheetOptions options;
    options.setupText = session_.setupText;
    options.answers = paper_.answers && paper_.kind == SheetKind::Handout;
    if (html) options.figureMm = kPhoneFigureMm;
    try {
        const Sheet sheet = makeSheet(*trial, paper_.kind, options);
        writeWholeFile(command.path, html ? sheetHtml(sheet) : sheetPdf(sheet));
        tell(say("Written: {}", command.path.string()));
    } catch (const std::exception& error) {
        tell(error.what());
    }
}

void App::apply(const SavePicture& command) {
    pictureWish_ = command.path;
}

void App::apply(const SaveVideo& command) {
    if (!session_.trial() || cycleTimeS() <= 0) return tell(tr("There is nothing to be seen in a video yet."));
    if (!videoCanBeWritten())
        return tell(tr("Videos are written by ffmpeg, which was not found. Install it and try again."));
    videoWish_ = command.path;
}

}  // namespace firstoff::gui
