// What commands do to the text of the program and to files.
#include <algorithm>

#include "gui/app.h"
#include "gui/file_io.h"
#include "sim/base/say.h"
#include "sim/editing/word_spacing.h"
#include "sim/output/shipped_assets.h"

namespace firstoff::gui {

namespace fs = std::filesystem;

namespace {

// Time after the last key before the new text is tried, s: long enough for a word to be typed whole.
constexpr double kTextRestS = 0.15;

fs::path siblingSetup(const fs::path& program) {
    fs::path setup = program;
    setup.replace_extension(".toml");
    return setup;
}

}  // namespace

void App::apply(const TextChanged&) {
    followBookmarks();
    trialDue_ = now_ + kTextRestS;
}

// ---- editing ----

void App::apply(const EditProgram& command) {
    using What = EditProgram::What;
    const bool wantsSight = command.what == What::Find || command.what == What::Replace || command.what == What::GoTo;
    if (wantsSight && findingsFolded_) inPlace_ = Tab::Program;
    if (program_.carryOut(command.what)) apply(TextChanged{});
}

void App::apply(const AskToRenumber&) {
    renumber_.open();
}

// With the files it calls, where a trial of this very text has looked for them.
Program App::programAsItStands() const {
    if (session_.trial() && !session_.stale()) return session_.trial()->program;
    return readProgram(session_.document.text(), session_.programName());
}

void App::apply(const Renumber& command) {
    const CodeSystem system = session_.trial() ? session_.trial()->setup.control.codeSystem : CodeSystem::A;
    const Renumbered result = renumber(programAsItStands(), system, {command.first, command.step, command.everyBlock});
    renumber_.answer(result);
    if (program_.replace(result.changes)) apply(TextChanged{});
    if (!result.refusals.empty() || result.cautions.empty()) return;
    std::string text;
    for (const Renumbered::Remark& caution : result.cautions) {
        if (!text.empty()) text += '\n';
        text += caution.text;
    }
    tell(std::move(text));
}

void App::apply(const SpaceWords& command) {
    const Program program = readProgram(session_.document.text(), session_.programName());
    const TextChanges changes = spaceWords(program, command.oneBlank ? WordSpacing::OneBlank : WordSpacing::None);
    if (program_.replace(changes)) apply(TextChanged{});
}

// Places in the text are those of the trial: once it was edited, the next trial says where they are.
void App::apply(const MendFinding& command) {
    const Trial* trial = session_.trial();
    if (!trial || session_.stale() || command.finding >= trial->findings.size()) return;
    const auto fix = quickFix(*trial, trial->findings[command.finding]);
    if (fix && program_.replace(fix->changes)) apply(TextChanged{});
}

// ---- the text and its file ----

void App::apply(const CompareWith& command) {
    const bool saved = command.path.empty();
    const fs::path path = saved ? session_.programPath : command.path;
    try {
        const std::string name = path.filename().string();
        compare_.open(saved ? say("{} as it is saved", name) : name, path, readWholeFile(path));
    } catch (const FileError& error) {
        tell(error.what());
    }
}

void App::apply(const ChangeText& command) {
    if (command.revision != session_.document.revision()) return;
    if (program_.replace(command.changes)) apply(TextChanged{});
    compare_.leftChanged(session_.document);
}

void App::apply(const SaveCompared&) {
    const fs::path path = compare_.path();
    try {
        backups_.before(path);
        writeWholeFile(path, compare_.other().text());
    } catch (const FileError& error) {
        tell(error.what());
        return;
    }
    compare_.otherSaved();
    if (path != session_.programPath) return;
    watch_.hold(path, compare_.other().text());
    const bool same = compare_.other().text() == session_.document.text();
    session_.savedRevision = same ? session_.document.revision() : 0;
}

bool App::replaceText(std::string text) {
    const bool changed = program_.replace({{0, session_.document.text().size(), std::move(text)}});
    if (changed) apply(TextChanged{});
    return changed;
}

// As an edit, so that undo brings back what stood there.
void App::readAgainFromDisk() {
    try {
        std::string text = readWholeFile(session_.programPath);
        watch_.hold(session_.programPath, text);
        replaceText(std::move(text));
        session_.savedRevision = session_.document.revision();
        notices_.settle();
    } catch (const FileError& error) {
        tell(error.what());
    }
}

void App::apply(const FileAnswer& command) {
    using What = FileAnswer::What;
    switch (command.what) {
        case What::ReadAgain:
            return readAgainFromDisk();
        case What::CompareDisk:
            return apply(CompareWith{});
        case What::KeepMine:
            watch_.accept();
            notices_.settle();
            session_.savedRevision = 0;  // what is on disk is another text now
            return;
        case What::TakeUnsaved:
            replaceText(notices_.unsaved());
            return notices_.settleUnsaved();
        case What::CompareUnsaved:
            return compare_.open(tr("what was not saved"), {}, notices_.unsaved());
        case What::DropUnsaved:
            recovery_.drop(session_.programPath);
            return notices_.settleUnsaved();
    }
}

// Text that was found of an earlier window is not written over before the user has said what is to become of it.
void App::lookAfterFile() {
    if (!watchesFile_ || session_.inLesson) return;  // what a learner writes, the room keeps
    if (watch_.isAnother(now_)) notices_.changedOnDisk();
    if (!notices_.asksAboutUnsaved()) {
        recovery_.keep(session_.programPath, session_.document, session_.modified(), now_);
    }
}

bool App::readProgramFile(const fs::path& path) {
    keepLesson();
    std::string text;
    try {
        text = readWholeFile(path);
    } catch (const FileError& error) {
        tell(error.what());
        return false;
    }
    session_.inLesson = session_.asksPlace = false;
    if (path != session_.programPath) forgetBookmarks();
    forgetLoop();
    recovery_.release(session_.programPath);  // what was not saved of it was given up
    watch_.hold(path, text);
    notices_ = FileNotices();
    if (auto kept = recovery_.left(path, text)) notices_.unsavedFound(std::move(*kept));
    session_.document = TextDocument(std::move(text));
    session_.bookmarksAt = session_.document.revision();
    session_.programPath = path;
    session_.savedRevision = session_.document.revision();
    session_.playing = false;
    session_.chosen = kNoBlock;
    session_.timeS = 0;
    session_.step = kNoStep;
    program_.reset();
    return true;
}

void App::forgetBookmarks() {
    session_.bookmarks.clear();
    session_.changes.forget({ChangeHistory::Part::Bookmarks});
}

void App::forgetLoop() {
    session_.loop.reset();
    session_.changes.forget({ChangeHistory::Part::Loop});
}

bool App::readSetupFile(const fs::path& path) {
    try {
        session_.setupText = readWholeFile(path);
    } catch (const FileError& error) {
        tell(error.what());
        return false;
    }
    session_.setupPath = path;
    return true;
}

void App::apply(const OpenProgram& command) {
    if (session_.modified() && !discard_) {
        dialogs_.askToSave(command);
        return;
    }
    if (!readProgramFile(command.path)) return;
    if (keepsSettings_) rememberProgram(session_.view, command.path);
    const fs::path setup = siblingSetup(command.path);
    std::error_code error;
    if (fs::exists(setup, error)) {
        readSetupFile(setup);
    } else if (session_.setupPath.empty()) {
        tell(
            say("There is no set-up file {} beside the program. Open one with File > Open set-up, or drop it "
                "on the window.",
                setup.filename().string()));
    } else {
        tell(
            say("There is no set-up file {} beside the program; {} stays in use. Open another with File > Open set-up.",
                setup.filename().string(), session_.setupPath.filename().string()));
    }
    scene_.show(ViewName::Part);
    runTrial();
}

void App::apply(const OpenSetup& command) {
    if (!readSetupFile(command.path)) return;
    session_.message.clear();
    runTrial();
}

void App::dropFiles(const std::vector<fs::path>& paths) {
    const auto isSetup = [](const fs::path& path) { return path.extension() == ".toml"; };
    for (const fs::path& path : paths) {
        if (!isSetup(path)) commands_.add(OpenProgram{path});
    }
    for (const fs::path& path : paths) {
        if (isSetup(path)) commands_.add(OpenSetup{path});
    }
}

void App::apply(const AskForFile& command) {
    using What = AskForFile::What;
    fs::path start =
        command.what == What::Setup && !session_.setupPath.empty() ? session_.setupPath : session_.programPath;
    if (command.what == What::Picture || command.what == What::Video) {
        if (start.empty()) start = session_.programName();
        start.replace_extension(command.what == What::Picture ? ".png" : ".mp4");
    }
    if (command.what == What::Lesson) start = shippedAsset("lessons");
    browser_.open(command.what, start);
}

bool App::saveTo(const fs::path& path) {
    if (path == session_.programPath && watch_.isAnother()) {
        notices_.changedOnDisk();
        tell(
            say("{} was not saved: another program has changed the file. Say which of the two counts, then save again.",
                session_.programName()));
        return false;
    }
    std::string noBackup;
    try {
        backups_.before(path);
    } catch (const FileError& error) {
        noBackup = say("Saved, but the version of before could not be kept. {}", error.what());
    }
    try {
        writeWholeFile(path, session_.document.text());
    } catch (const FileError& error) {
        tell(error.what());
        return false;
    }
    if (!noBackup.empty()) tell(std::move(noBackup));
    if (!notices_.asksAboutUnsaved()) recovery_.drop(session_.programPath);
    watch_.hold(path, session_.document.text());
    notices_.settle();
    session_.programPath = path;
    session_.savedRevision = session_.document.revision();
    return true;
}

void App::apply(const Save&) {
    if (session_.programPath.empty()) {
        apply(AskForFile{AskForFile::What::SaveAs});
    } else {
        saveTo(session_.programPath);
    }
}

void App::apply(const SaveAs& command) {
    if (saveTo(command.path) && keepsSettings_) rememberProgram(session_.view, command.path);
}

void App::apply(const Reload&) {
    if (session_.modified() && !discard_) {
        dialogs_.askToSave(Reload{});
        return;
    }
    if (!session_.programPath.empty() && !readProgramFile(session_.programPath)) return;
    if (!session_.setupPath.empty()) readSetupFile(session_.setupPath);
    runTrial();
}

void App::apply(const CancelTrial&) {
    worker_.cancel();
}

}  // namespace firstoff::gui
