// The set-up: machine, bar, workholding, tools, offsets. Plain values, made by `readSetup` from a TOML file.
//
// Lathe frame: z = 0 at the face of the chuck body, positive away from the chuck; r = 0 on the spindle axis, positive
// towards the turret. The members here are radii and mm in the lathe frame unless the comment says otherwise; the file
// writes diameters (its keys say so), and `readSetup` is the one place that converts.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/base/contour.h"
#include "sim/base/finding.h"
#include "sim/base/outline.h"
#include "sim/base/point.h"

namespace firstoff {

struct Range {
    double min = 0, max = 0;
};

struct Machine {
    std::string name;
    // Turret reference point at the machine's reference position (home), lathe frame. Machine coordinates (G53) count
    // from here.
    Point home;
    // Second, third and fourth reference position (G30), lathe frame; nothing where the set-up does not say.
    std::array<std::optional<Point>, 3> otherReferences;
    Range travelZ;  // of the turret reference, machine coordinates, mm
    Range travelR;  // the same for X, as radius
    double rapidZMmPerMin = 0;
    double rapidRMmPerMin = 0;   // of the slide, i.e. radius per minute
    bool rapidPerAxis = true;    // each axis at its own rapid (a dog-leg); false: straight line
    double maxFeedMmPerMin = 0;  // along the path
    double maxRevPerMin = 0;
    double indexTimeS = 0;  // turret index to the next station asked for, unclamp to clamp
    int stations = 12;
    double turretRadius = 0;     // of the disc, to the mounting faces
    double turretThickness = 0;  // along z
};

struct Chuck {
    double bodyRadius = 0;
    double bodyLength = 0;  // behind z = 0
    int jaws = 3;
    double jawLength = 0;       // from z = 0 towards the turret
    double jawOuterRadius = 0;  // of the circle the jaws sweep
    double jawWidth = 0;        // across a jaw; for the picture
    double maxRevPerMin = 0;    // marked on the chuck; 0 when the set-up does not say
    // Of what passes through chuck and spindle; nothing where the set-up does not say.
    std::optional<double> throughBoreRadius;
};

struct Tailstock {
    double quillRadius = 0;
    double quillLength = 0;   // drawn length of the quill behind the centre
    double centreAngle = 0;   // full point angle of the centre, rad
    double centreRadius = 0;  // of the centre's shank
    double tipZ = 0;          // where the centre point stands, lathe frame
    bool advanced = false;    // false: parked clear of the work, drawn and checked where it stands
    SourceSpan tipSpan = {};  // where the set-up says where it stands
};

// The blank as it is chucked, and where it comes from.
struct Stock {
    enum class Shape : std::uint8_t {
        Round,         // bar or tube
        Hexagon,       // across `acrossFlats`, a flat towards the angle 0
        Square,        // the same
        CrossSection,  // drawn seen from the front, the same all along
        HalfSection,   // turned before: drawn as (z, r)
        Previous,      // what another trial left
    };
    Shape shape = Shape::Round;
    double outerRadius = 0;  // of the circle round everything
    double boreRadius = 0;   // 0: solid bar
    double acrossFlats = 0;  // Hexagon and Square
    // How far the blank's own axis, bore included, lies off the spindle axis, towards the angle 0. Round, Hexagon and
    // Square.
    double eccentricity = 0;
    double backZ = 0;                   // lathe frame; negative inside the chuck
    double frontZ = 0;                  // lathe frame
    std::vector<Contour> crossSection;  // z as x, r as y: about the spindle axis, x towards the angle 0
    std::vector<Contour> halfSection;   // lathe frame
    std::string material;               // as written; for the papers
    // The files that CrossSection, HalfSection and Previous name, as written. Until they have been read (see
    // blank_drawing.h and TrialOptions) the blank has no radius and no length.
    std::string drawingFile, drawingLayer, drawingUnit;  // layer and unit may be empty: all, as the file says
    std::string previousProgram, previousSetup;          // the set-up may be empty: beside the program
    int piece = 0;             // of a section table or of the trial before: 0 what is held, 1 and so on what fell
    bool turnedRound = false;  // Previous, HalfSection: the other end now looks out of the chuck
    SourceSpan sizeSpan;       // where the set-up says how thick it is, or which file does
    SourceSpan placeSpan;      // and how far it sticks out

    bool isRound() const { return (shape == Shape::Round || shape == Shape::HalfSection) && eccentricity == 0; }
};

enum class ToolKind : std::uint8_t {
    Turning,    // outside, nose-radius insert
    Boring,     // inside, nose-radius insert
    Grooving,   // straight edge with two corners, radial
    Parting,    // as grooving, meant to cut off
    Drill,      // on the axis
    Threading,  // V-shaped insert, outside or inside
    Tap,        // on the axis
};

// Which side of the spindle's turn the edge needs.
enum class SpindleDirection : std::uint8_t { Stopped, Forward /* M03 */, Reverse /* M04 */ };

struct Tool {
    int station = 0;  // 1-based
    std::string name;
    ToolKind kind = ToolKind::Turning;
    SpindleDirection needs = SpindleDirection::Forward;

    // From the turret reference point to the imaginary tool tip, as the tool really sits: z usually negative (towards
    // the chuck), r usually negative (towards the axis).
    Point tip;
    double centreHeight = 0;  // of the edge above (+) or below (-) the axis

    // Turning and boring: the insert.
    char insertShape = 'C';  // ISO 1832 letter of the shape
    double insertAngle = 0;  // included angle at the cutting corner, rad; 0 for round
    double edgeLength = 0;   // length of one edge (round: the diameter)
    double noseRadius = 0;
    double enteringAngle = 0;  // kappa of ISO 3002/5608, between the cutting edge and the feed along z, rad
    int tipNumber = 3;         // imaginary tip position 0–9: 3 outside towards the chuck, 2 bore towards the chuck

    // Grooving and parting: the edge.
    double width = 0;
    double cornerRadius = 0;
    double cuttingDepth = 0;  // how deep the blade or the boring bar may go before its holder follows

    // Drill: point on the axis.
    double diameter = 0;
    double pointAngle = 0;  // full angle, rad
    double fluteLength = 0;

    // Threading: full angle between the flanks, rad; noseRadius or a flat (width) at its end, cuttingDepth the height
    // of the profile. Tap: diameter, fluteLength. Both: pitch of the profile, mm, 0 where the tool cuts any.
    double threadAngle = 0;
    double pitch = 0;
    bool inside = false;  // threading: stands out along the axis, its tip points outwards

    // Holder, for the picture and for clearance: shank height (radially for a bar across the turret) and reach.
    double shankSize = 20;
    double overhang = 0;  // along the direction in which the tool stands out of its block
    Outline cutting;      // tool frame; made by toolOutline()
    // Further convex parts of a tool that is not convex as a whole: step drills, centre drills.
    std::vector<Outline> steps;
    Outline holder;   // tool frame, empty where the set-up gives too little to know it
    SourceSpan span;  // where it stands in the set-up file
};

// What the operator has entered on the control's offset page under one number.
struct Offset {
    int number = 0;
    std::optional<Point> gauge;  // tool tip from the turret reference as entered; without it the tool's true `tip`
    Point wear;                  // added to the programmed position: + makes an outside diameter larger
    std::optional<double> noseRadius;  // as entered for compensation; without it the tool's own
    std::optional<int> tipNumber;
};

// How nose-radius compensation is switched on and off at an outside corner: A with a straight move to the point
// perpendicular to the next element, B on a way round the corner. Described in nose_compensation.h.
enum class CompensationStart : std::uint8_t { A, B };

// How the control numbers those G codes that are numbered in three ways; see sim/control/codes.h.
enum class CodeSystem : std::uint8_t { A, B, C };

// Ways in which controls differ. The default is the most usual behaviour.
struct ControlOptions {
    // What T0100 drops; NotSaid: the wear, as Wear does, and moves after it are not proven.
    enum class OffsetCancel : std::uint8_t { NotSaid, Wear, All };
    // What a length without decimal point counts; NotSaid: mm or inch, as Units does, and the first one is noted.
    enum class WholeNumbers : std::uint8_t { NotSaid, Units, Increments /* 0.001 mm, 0.0001 inch */ };

    CodeSystem codeSystem = CodeSystem::A;
    bool compensateInRoughing = false;  // nose-radius compensation active inside the P–Q profile of G71 to G73
    CompensationStart compensationStart = CompensationStart::A;
    double arcClosureMm = 0.002;     // largest radius difference between start and end of an arc
    double roughingRetractMm = 0.5;  // R of G71 and G72 when the program gives none
    double peckClearanceMm = 0.5;    // back after a peck: G74 and G75 without R, and G83
    bool peckFullRetract = true;     // G83 comes out of the hole after every peck
    double threadChamferLeads = 1;   // pull-out at the end of a threading pass of a cycle, in leads along Z
    // The block-skip switches: bit n is set where blocks with `/n` are left out; `/` alone is level 1.
    std::uint16_t blockSkipLevels = 0;
    bool optionalStop = true;   // the optional-stop switch: M01 stops
    bool plainCorners = false;  // R, C, I and K without comma are corners in G01 blocks of one axis
    OffsetCancel offsetCancel = OffsetCancel::NotSaid;
    WholeNumbers wholeNumbers = WholeNumbers::NotSaid;
    bool radiusProgramming = false;  // X and U are radii in the program, not diameters
    long maxBlocks = 20'000'000;     // executed blocks before a program counts as endless
};

// What an M code of this machine does that is none of the trade's own; table [m_codes.M63].
struct MachineCode {
    int number = 0;
    std::string meaning;
    double timeS = 0;                         // how long the control waits for it
    std::optional<SpindleDirection> spindle;  // what the spindle does from then on
    std::optional<bool> coolant;
    SourceSpan span;
};

inline constexpr std::size_t kPlainWorkOffsets = 6;     // G54–G59
inline constexpr std::size_t kFurtherWorkOffsets = 48;  // G54.1 P1–P48
inline constexpr std::size_t kWorkOffsets = kPlainWorkOffsets + kFurtherWorkOffsets;

struct Setup {
    std::string name;  // file name as the user gave it
    Machine machine;
    Chuck chuck;
    std::optional<Tailstock> tailstock;
    Stock stock;
    std::vector<Tool> tools;      // in order of station
    std::vector<Offset> offsets;  // in order of number
    // G54–G59, then G54.1 P1–P48: origin of the work frame in the lathe frame.
    std::array<Point, kWorkOffsets> workOffsets{};
    std::array<bool, kWorkOffsets> workOffsetGiven{};  // false: the set-up does not say where that datum is
    std::vector<MachineCode> machineCodes;             // in order of number
    ControlOptions control;
    std::vector<Finding> findings;

    const Tool* toolAt(int station) const;
    const Offset* offset(int number) const;
    const MachineCode* machineCode(int number) const;
};

// Reads a set-up from TOML text. Never throws for what the text says: unknown keys, wrong types, negative sizes and
// contradictions are findings with line, column and remedy, and a safe value is taken so that the rest can be read;
// such a finding is of severity Stop, so no trial with it is clear.
Setup readSetup(std::string_view text, std::string name);

// The cutting outline of a tool in the tool frame (imaginary tip at the origin, z away from the chuck, r outwards),
// from its kind and dimensions. Elements that are not cutting edges are marked so.
Outline toolOutline(const Tool& tool);

// Holder in the tool frame: a convex outline on the safe side, empty if the dimensions are not given.
Outline holderOutline(const Tool& tool);

// Length of the tapered front of a tap, mm.
double tapChamferMm(const Tool& tool);

// Displacement from the nose centre to the imaginary tip for a nose radius of 1, by tip number (common practice, no
// source): 1 (+z,+r) 2 (-z,+r) 3 (-z,-r) 4 (+z,-r) 5 (+z) 6 (+r) 7 (-z) 8 (-r), 0 and 9 none. Asserts 0 <= number <= 9.
Point tipFromNoseCentre(int tipNumber);

}  // namespace firstoff
