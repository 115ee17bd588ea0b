// The `firstoff` command: understands its words, calls what they ask for, and turns every failure of the outside world
// into a message and exit code 2.
#include <algorithm>
#include <cstdlib>
#include <exception>
#include <new>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>
#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>

#include "sim/base/language_choice.h"
#include "sim/base/say.h"
#include "sim/cli/commands.h"
#include "sim/cli/option_faults.h"
#include "sim/control/language_table.h"
#include "sim/output/finish_plot.h"
#include "sim/output/load_report.h"
#include "sim/output/sheets/sheet.h"
#include "sim/output/text_report.h"

namespace {

using namespace firstoff::cli;

using firstoff::later;
using firstoff::optionFault;
using firstoff::say;
using firstoff::tr;

constexpr const char* kAbout = later(
    "firstoff cuts a turning program on a virtual lathe and says what would hit, scrap the part or stop the machine.\n"
    "Exit code: 0 clear, 1 problems, 2 the command or a file could not be used, 3 not proven.");

constexpr const char* kSetupHelp =
    later("set-up file (TOML); if left out, the file beside the program that ends in .toml");

constexpr std::string_view kLanguageOption = "--language";

// Codes of the languages that there are.
std::vector<std::string> languageCodes() {
    std::vector<std::string> codes;
    for (const firstoff::Language& language : firstoff::languages()) codes.emplace_back(language.code);
    return codes;
}

// What stands before the command: where it ends, and the language asked for there.
struct BeforeCommand {
    int end = 1;
    std::string language;
};
BeforeCommand beforeCommand(int argc, char** argv) {
    BeforeCommand before;
    for (; before.end < argc && argv[before.end][0] == '-'; ++before.end) {
        const std::string_view word = argv[before.end];
        if (word == kLanguageOption && before.end + 1 < argc) {
            before.language = argv[++before.end];
        } else if (word.starts_with(kLanguageOption) && word.substr(kLanguageOption.size()).starts_with('=')) {
            before.language = word.substr(kLanguageOption.size() + 1);
        }
    }
    return before;
}

class Command {
public:
    Command() {
        app_.require_subcommand(1);
        tellInLanguage();
        app_.set_version_flag("--version", "firstoff " FIRSTOFF_VERSION,
                              tr("Display program version information and exit"));
        addLanguageOfAll();
        app_.footer(std::string(firstoff::standingCaution()));
        addCheck();
        addMoves();
        addClearances();
        addCompare();
        addTimes();
        addGauge();
        addLoads();
        addSection();
        addExport();
        addFinish();
        addSheet();
        addWords();
        addLesson();
        addLessons();
        addReference();
        addCodes();
        addMaterials();
        for (CLI::App* command : app_.get_subcommands(nullptr)) command->group(tr("Subcommands"));
    }

    int run(int argc, char** argv) {
        const int at = beforeCommand(argc, argv).end;
        if (at < argc && isUnknownCommand(argv[at])) {
            std::string known;
            for (const CLI::App* command : app_.get_subcommands(nullptr)) known += ' ' + command->get_name();
            fmt::print(stderr, "firstoff: {}\n", say("there is no command {}; there are:{}", argv[at], known));
            return static_cast<int>(ExitCode::Unusable);
        }
        try {
            app_.parse(argc, argv);
            return static_cast<int>(result_);
        } catch (const CLI::ParseError& error) {
            return app_.exit(error) == 0 ? 0 : static_cast<int>(ExitCode::Unusable);
        } catch (const std::bad_alloc&) {
            fmt::print(stderr, "firstoff: {}\n", tr("the machine has not enough memory for this"));
        } catch (const std::exception& failure) {
            fmt::print(stderr, "firstoff: {}\n", failure.what());
        }
        return static_cast<int>(ExitCode::Unusable);
    }

private:
    bool isUnknownCommand(const std::string& word) const {
        if (word.empty() || word.front() == '-') return false;
        const auto known = app_.get_subcommands([&](const CLI::App* command) { return command->get_name() == word; });
        return known.empty();
    }

    // The words of the help that are not ours; commands made later have them as well.
    void tellInLanguage() {
        for (const char* label : {later("Usage"), later("Positionals"), later("OPTIONS"), later("SUBCOMMAND"),
                                  later("REQUIRED"), later("Needs"), later("Excludes")}) {
            app_.get_formatter()->label(label, tr(label));
        }
        app_.option_defaults()->group(tr("Options"));
        app_.set_help_flag("-h,--help", tr("Print this help message and exit"));
        app_.failure_message([](const CLI::App*, const CLI::Error& error) {
            return fmt::format("{}\n{}\n", optionFault(error.what()), tr("Run with --help for more information."));
        });
    }

    // It was heeded before anything was told (see main); here it is known to the help, and what is none is refused.
    void addLanguageOfAll() {
        app_.add_option(std::string(kLanguageOption), language_,
                        tr("of all that is told, before the command; if left out, as LC_ALL, LC_MESSAGES or LANG say"))
            ->check(CLI::IsMember(languageCodes()));
    }

    void addCheck() {
        CLI::App* command = app_.add_subcommand("check", tr("try programs and say what was found"));
        command->add_option("PROGRAM", check_.programs, tr("turning programs"))->required();
        command->add_option("--setup", check_.setup, tr(kSetupHelp));
        command->add_option("--json", check_.json,
                            tr("write the report as JSON; - for standard output, instead of the text"));
        command->add_option("--csv-moves", check_.csvMoves, tr("write a table of the moves (one program only)"));
        command->callback([this] { result_ = check(check_); });
    }

    void addMoves() {
        CLI::App* command = app_.add_subcommand("moves", tr("table of the moves, with their times"));
        addJob(command, moves_.job);
        command->add_option("--out", moves_.out, tr("file to write; standard output if left out"));
        command->callback([this] { result_ = moves(moves_); });
    }

    void addClearances() {
        CLI::App* command = app_.add_subcommand(
            "clearances",
            tr("by how much offsets, overhangs, stick-out and datum may be wrong before the first contact"));
        addJob(command, clearances_.job);
        command->add_flag("--pairs", clearances_.pairs,
                          tr("instead: every pair of bodies that was watched, and how near they came"));
        command->add_option("--out", clearances_.out, tr("file for the table (CSV); if left out, standard output"));
        command->callback([this] { result_ = clearances(clearances_); });
    }

    void addCompare() {
        CLI::App* command = app_.add_subcommand(
            "compare",
            tr("what another program or set-up, or a change at the machine, would alter on the part, in time, "
               "load and findings"));
        addJob(command, compare_.job);
        command->add_option("--with", compare_.withProgram, tr("the other program; the same if left out"));
        command->add_option("--with-setup", compare_.withSetup,
                            tr("the other set-up; with --with: the file beside that program, else the same"));
        command->add_option(
            "--wear-x", compare_.wearX,
            tr("OFFSET=MM: added to the X wear of an offset, as diameter; + makes an outside diameter larger"));
        command->add_option("--wear-z", compare_.wearZ, tr("OFFSET=MM: added to the Z wear of an offset"));
        command->add_option("--nose", compare_.nose,
                            tr("STATION=MM: an insert with this nose radius at a station, gauged anew"));
        command->add_option("--centre", compare_.centre, tr("STATION=MM: added to the centre height of a tool"));
        command->add_option("--datum-z", compare_.datumZ, tr("added to Z0 of every work offset, mm"));
        const auto percent = CLI::Range(1.0, 300.0);
        command->add_option("--feed", compare_.feedPercent, tr("feed override, percent"))->check(percent);
        command->add_option("--rapid", compare_.rapidPercent, tr("rapid override, percent"))->check(percent);
        command->add_option("--spindle", compare_.spindlePercent, tr("spindle override, percent"))->check(percent);
        command->callback([this] { result_ = compare(compare_); });
    }

    void addGauge() {
        CLI::App* command = app_.add_subcommand(
            "gauge", tr("the part gauged against the drawing that the set-up gives: sizes, limits, what to key in"));
        addJob(command, gauge_.job);
        command->add_option("--out", gauge_.out,
                            tr("file for the dimensions as rows (CSV), - for standard output; a table if left out"));
        command->callback([this] { result_ = gauge(gauge_); });
    }

    void addLoads() {
        CLI::App* command = app_.add_subcommand(
            "loads", tr("what the cuts ask for: chip, force, torque and power, the greatest of each tool and where"));
        addJob(command, loads_.job);
        command->add_option("--out", loads_.out, tr("file for a table of every sample (CSV); - for standard output"));
        command->callback([this] { result_ = loads(loads_); });
    }

    void addSection() {
        CLI::App* command = app_.add_subcommand("section", tr("half-section of the billet as closed loops of points"));
        addJob(command, section_.job);
        addInstant(command, section_.instant);
        addAngle(command, section_.angleDeg);
        command->add_option("--out", section_.out, tr("file to write; standard output if left out"));
        command->callback([this] { result_ = section(section_); });
    }

    void addExport() {
        CLI::App* command = app_.add_subcommand("export", tr("the part as a file for other programs"));
        addJob(command, export_.job);
        command
            ->add_option("--out", export_.out,
                         say("file to write; its ending says what kind: {}", firstoff::partFileEndings()))
            ->required();
        addInstant(command, export_.instant);
        addAngle(command, export_.angleDeg);
        command->add_option("--piece", export_.options.piece,
                            tr("0: what is held, 1 and on: pieces cut off, in order; all of them if left out"));
        command
            ->add_option("--tolerance-mm", export_.options.toleranceMm,
                         tr("greatest distance of the surface from the part; 0.005 if left out"))
            ->check(CLI::Range(0.0005, 1.0));
        command->add_option("--voxel-mm", export_.options.voxelMm, tr("edge of the voxels of a vdb; 0.1 if left out"))
            ->check(CLI::Range(0.001, 10.0));
        command->callback([this] { result_ = exportPart(export_); });
    }

    void addTimes() {
        CLI::App* command = app_.add_subcommand("times", tr("where the cycle time goes: by kind, tool and operation"));
        addJob(command, times_.job);
        command->add_option("--out", times_.out, tr("table for spreadsheets to write, - for standard output"));
        command->callback([this] { result_ = times(times_); });
    }

    static void addInstant(CLI::App* command, InstantRequest& instant) {
        CLI::Option* line = command->add_option("--after-line", instant.afterLine,
                                                tr("as it is once this line of the program has been carried out"));
        CLI::Option* time =
            command->add_option("--at-time", instant.atTimeS, tr("as it is at this time of the cycle, s"));
        line->excludes(time);
    }

    static void addAngle(CLI::App* command, std::optional<double>& angleDeg) {
        command
            ->add_option(
                "--angle", angleDeg,
                tr("of a section: the half-plane at this angle, degrees, from the marker of the spindle (a flat of "
                   "hexagon and square bars) in the order in which the bar passes a tool under M03; the nearest that "
                   "is known is taken, and said; 0 if left out"))
            ->check(CLI::Range(-360.0, 360.0));
    }

    void addFinish() {
        CLI::App* command = app_.add_subcommand(
            "finish", tr("roughness from the feed marks that the tools leave: of every turned surface, or of "
                         "those that you name"));
        addJob(command, finish_.job);
        CLI::Option* line =
            command->add_option("--line", finish_.line, tr("the surfaces that this line of the program left"));
        CLI::Option* zFrom =
            command->add_option("--z-from", finish_.zFrom, tr("a stretch of the outside: from this Z"));
        CLI::Option* zTo = command->add_option("--z-to", finish_.zTo, tr("to this Z"));
        CLI::Option* inside = command->add_flag("--inside", finish_.inside, tr("of the bore, not of the outside"));
        CLI::Option* face = command->add_option("--face-z", finish_.faceZ, tr("a face: at this Z"));
        CLI::Option* xFrom = command->add_option("--x-from", finish_.xFrom, tr("from this diameter"));
        CLI::Option* xTo = command->add_option("--x-to", finish_.xTo, tr("to this diameter"));
        zFrom->needs(zTo)->excludes(line)->excludes(face);
        zTo->needs(zFrom);
        inside->needs(zFrom);
        face->needs(xFrom)->needs(xTo)->excludes(line);
        xFrom->needs(face);
        xTo->needs(face);
        command->add_option("--after-line", finish_.afterLine,
                            tr("as it is once this line of the program has been carried out"));
        command->add_option("--out", finish_.out,
                            say("file for the profile, height over length, or for the table of all surfaces; its "
                                "ending says what kind: {}",
                                firstoff::finishFileEndings()));
        command->callback([this] { result_ = finish(finish_); });
    }

    void addWords() {
        CLI::App* command =
            app_.add_subcommand("words", tr("the program told word by word, with what its figures come to"));
        addJob(command, words_.job);
        command->add_option("--line", words_.line, tr("of this line alone"));
        command->callback([this] { result_ = words(words_); });
    }

    void addReference() {
        CLI::App* command = app_.add_subcommand(
            "reference",
            tr("codes, letters and macro statements in plain words, all of them or those that you search"));
        command->add_option("WORDS", reference_.words,
                            tr("what a row must have: a code, or words such as depth of cut"));
        command->add_option("--code-system", reference_.codeSystem, tr("A, B or C; A if left out"));
        command->callback([this] { result_ = reference(reference_); });
    }

    void addSheet() {
        CLI::App* command = app_.add_subcommand("sheet", tr("papers for the shop, as HTML or PDF"));
        addJob(command, sheet_.job);
        command->add_option("--kind", sheet_.kind, say("which: {}", firstoff::sheetKinds()))->required();
        command->add_option("--out", sheet_.out, tr("file to write; its ending says what kind: html, pdf"))->required();
        command->add_option("--date", sheet_.date, tr("a date to stand on it, as you write it; none if left out"));
        command->add_flag("--answers", sheet_.answers, tr("of a hand-out: with a page of answers to its exercises"));
        command->callback([this] { result_ = sheet(sheet_); });
    }

    void addLesson() {
        CLI::App* command = app_.add_subcommand(
            "lesson",
            tr("check a lesson, or mark an answer to one of its steps: exit code 0 right, 1 wrong, 3 not proven"));
        command->add_option("FOLDER", lesson_.folder, tr("folder of the lesson, or the name of one that is shipped"))
            ->required();
        CLI::Option* step =
            command->add_option("--step", lesson_.step, tr("number of a step; shown if there is no answer"))
                ->check(CLI::Range(1, 1000));
        command
            ->add_option(
                "--answer", lesson_.answer,
                tr("the answer: choices (b, or 1,3), a number, a place (\"X30 Z-12.5\"), or the file of a program; "
                   "of missing blocks also these alone"))
            ->needs(step);
        addLanguage(command, lesson_.language);
        command->callback([this] { result_ = lesson(lesson_); });
    }

    void addLessons() {
        CLI::App* command =
            app_.add_subcommand("lessons", tr("list the lessons that are shipped, or those of a folder"));
        command->add_option("FOLDER", lessons_.folder, tr("that holds the folders of lessons"));
        addLanguage(command, lessons_.language);
        command->callback([this] { result_ = lessons(lessons_); });
    }

    static void addLanguage(CLI::App* command, std::string& language) {
        command->add_option(
            "--language", language,
            tr("of the lesson's text, two letters; English if it has no other; if left out, that of all that is told"));
    }

    void addCodes() {
        CLI::App* command = app_.add_subcommand("codes", tr("table of the codes that are understood, as Markdown"));
        command->callback([this] {
            fmt::print("{}", firstoff::languageTable());
            result_ = ExitCode::Clear;
        });
    }

    void addMaterials() {
        CLI::App* command = app_.add_subcommand("materials", tr("table of the materials that are known, with sources"));
        command->callback([this] {
            fmt::print("{}", firstoff::materialList());
            result_ = ExitCode::Clear;
        });
    }

    static void addJob(CLI::App* command, Job& job) {
        command->add_option("PROGRAM", job.programPath, tr("turning program"))->required();
        command->add_option("--setup", job.setupPath, tr(kSetupHelp));
    }

    CLI::App app_{tr(kAbout), "firstoff"};
    CheckRequest check_;
    MovesRequest moves_;
    GaugeRequest gauge_;
    WordsRequest words_;
    ReferenceRequest reference_;
    SectionRequest section_;
    ExportRequest export_;
    ClearancesRequest clearances_;
    CompareRequest compare_;
    TimesRequest times_;
    LoadsRequest loads_;
    FinishRequest finish_;
    SheetRequest sheet_;
    LessonRequest lesson_;
    LessonsRequest lessons_;
    std::string language_;
    ExitCode result_ = ExitCode::Unusable;
};

}  // namespace

int main(int argc, char** argv) {
    // Before anything is told, the help among it. What is no language is told in English, and refused where it was
    // asked.
    const std::string asked = beforeCommand(argc, argv).language;
    firstoff::useLanguage(asked.empty() ? firstoff::languageFor({}, firstoff::languageAskedByEnvironment())
                                        : std::string_view(asked));
    return Command().run(argc, argv);
}
