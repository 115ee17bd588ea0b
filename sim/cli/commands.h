// What `firstoff` does once its words are understood.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/cli/exit_code.h"
#include "sim/cli/job_files.h"
#include "sim/output/part_file.h"

namespace firstoff::cli {

struct CheckRequest {
    std::vector<std::string> programs;
    std::string setup;
    std::string json;      // "-": standard output, instead of the text report
    std::string csvMoves;  // one program only
};
ExitCode check(const CheckRequest& request);

struct MovesRequest {
    Job job;
    std::string out;  // empty: standard output
};
ExitCode moves(const MovesRequest& request);

// An instant of the cycle as it is asked for; neither: the end.
struct InstantRequest {
    std::optional<long> afterLine;
    std::optional<double> atTimeS;
};

struct ClearancesRequest {
    Job job;
    std::string out;     // empty: standard output
    bool pairs = false;  // every pair of bodies instead of the margins
};
ExitCode clearances(const ClearancesRequest& request);

// Two programs, two set-ups, or one job with changes at the machine.
struct CompareRequest {
    Job job;
    std::string withProgram, withSetup;  // empty: the same
    // "3=-0.012": number of an offset or station, and a figure.
    std::vector<std::string> wearX, wearZ, nose, centre;
    double datumZ = 0;
    double feedPercent = 100, rapidPercent = 100, spindlePercent = 100;
};
ExitCode compare(const CompareRequest& request);

struct TimesRequest {
    Job job;
    std::string out;  // table for spreadsheets, "-": standard output; empty: the report for people instead
};
ExitCode times(const TimesRequest& request);

struct WordsRequest {
    Job job;
    std::optional<long> line;  // nothing: the whole program
};
ExitCode words(const WordsRequest& request);

struct ReferenceRequest {
    std::vector<std::string> words;  // none: the whole reference
    std::string codeSystem = "A";    // or B or C, in either case
};
ExitCode reference(const ReferenceRequest& request);

struct GaugeRequest {
    Job job;
    std::string out;  // rows (CSV); empty: a table on standard output
};
ExitCode gauge(const GaugeRequest& request);

struct LoadsRequest {
    Job job;
    std::string out;  // every sample; empty: none
};
ExitCode loads(const LoadsRequest& request);

struct SectionRequest {
    Job job;
    std::string out;
    InstantRequest instant;
    std::optional<double> angleDeg;  // 0 without
};
ExitCode section(const SectionRequest& request);

struct ExportRequest {
    Job job;
    std::string out;  // its ending says the kind of file
    InstantRequest instant;
    PartFileOptions options;
    std::optional<double> angleDeg;  // of a section; 0 without
};
ExitCode exportPart(const ExportRequest& request);
// A surface: the one or more that a line left, a stretch of the outside or of the bore, or a face; without any of these
// every surface of the part. Work coordinates, X as diameter.
struct FinishRequest {
    Job job;
    std::string out;  // profiles, or the rows of all surfaces; empty: none
    std::optional<long> line;
    std::optional<double> zFrom, zTo;
    bool inside = false;
    std::optional<double> faceZ, xFrom, xTo;
    std::optional<long> afterLine;
};
ExitCode finish(const FinishRequest& request);

struct SheetRequest {
    Job job;
    std::string kind;
    std::string out;   // its ending says what is written: HTML or PDF
    std::string date;  // empty: none
    bool answers = false;
};
ExitCode sheet(const SheetRequest& request);

// A lesson checked, or, with a step, shown, or marked where there is an answer.
struct LessonRequest {
    std::string folder;  // or the name of one that is shipped
    std::string language;
    int step = 0;                       // 0: the whole lesson is checked
    std::optional<std::string> answer;  // a text, or of a program the name of its file
};
// Marking: Clear for right, Problems for wrong. Checking: Problems where the lesson cannot be given as it stands.
ExitCode lesson(const LessonRequest& request);

struct LessonsRequest {
    std::string folder;  // that holds the folders of lessons; empty: those that are shipped
    std::string language;
};
ExitCode lessons(const LessonsRequest& request);

}  // namespace firstoff::cli
