// The set-up: machine, bar, workholding, tools, offsets. Plain values, made by `readSetup` from a TOML file.
//
// Lathe frame: z = 0 at the face of the chuck body, positive away from the chuck; r = 0 on the spindle axis, positive
// towards the turret. The members here are radii and mm in the lathe frame unless the comment says otherwise; the file
// writes diameters (its keys say so), and `readSetup` is the one place that converts.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/base/contour.h"
#include "sim/base/finding.h"
#include "sim/base/outline.h"
#include "sim/base/point.h"
#include "sim/setup/wanted_part.h"

namespace firstoff {

struct Range {
    double min = 0, max = 0;
};

// How the slides gain and lose speed, and what the control does where one block ends and the next begins.
struct AxisDynamics {
    enum class BlockEnd : std::uint8_t {
        Flowing,    // passes corners as fast as the axes can follow
        ExactStop,  // stands still at the end of every block
    };
    double accelerationZ = 0, accelerationR = 0;  // mm/s2 of the slide; 0: not said, speeds change at once
    double jerkZ = 0, jerkR = 0;                  // mm/s3; 0: the acceleration is there at once
    BlockEnd blockEnd = BlockEnd::Flowing;
    // Flowing: by how much the speed of an axis may jump at a corner, mm/s.
    double cornerJumpZ = 0, cornerJumpR = 0;
    int lookAhead = 0;  // Flowing: blocks that the control sees ahead of the one that runs; 0: all

    bool known() const { return accelerationZ > 0 && accelerationR > 0; }
};

// What turns the spindle. 0 and empty: not said; then nothing that needs it is reckoned.
struct SpindleDrive {
    struct CurvePoint {
        double revPerMin = 0;
        double torqueNm = 0;  // at the spindle, continuous duty
    };
    std::vector<CurvePoint> curve;  // speed rising; before the first and past the last as there
    double powerKw = 0;             // of the motor, continuous duty
    double efficiency = 0;          // of what lies between motor and chuck, 0 to 1
    double inertiaKgM2 = 0;         // of motor, spindle and chuck, at the spindle, without a bar
    double runUpS = 0;          // from standing still to Machine::maxRevPerMin without a bar; instead of the inertia
    bool waitsForSpeed = true;  // feed begins when the speed asked for is reached
    SourceSpan span;
};

// How long things take that are no move of the slides, s.
struct OtherTimes {
    double chuckS = 0;        // opening or closing, M codes that do it
    double tailstockS = 0;    // out or back
    double coolantS = 0;      // until it is there or gone
    double machineCodeS = 0;  // of every M code that has no time of its own
    double nextStationS = 0;  // of an index, for every station past the first
    double changePartS = 0;   // to take the part out and put the next bar in; counts for parts per hour
};

// What the operator's switches stand at, and where he holds the feed.
struct Overrides {
    double feed = 1, rapid = 1, spindle = 1;  // shares
    // The dry-run switch: all moves at feed but threads and taps go at this pace whatever F says; 0: off. Common
    // practice, no source; what a control does with threads its manual says.
    double dryRunMmPerMin = 0;
    struct FeedHold {
        std::uint32_t line = 0;  // at the start of its first move
        double seconds = 0;
        SourceSpan span;
    };
    std::vector<FeedHold> holds;  // in order of lines
};

// What the bar is made of, as far as it is known; 0 and empty: not known.
struct Material {
    std::string name;      // as the table of materials or the set-up has it
    double kc11 = 0;       // specific cutting force at a chip 1 mm thick, N/mm2 (Kienzle)
    double mc = 0;         // by which power of the thickness it falls
    double rakeAngle = 0;  // rad, of the edge that kc11 holds for
    std::string group;     // letter of ISO 513: P M K N S H
    double youngGPa = 0;   // modulus of elasticity
    double densityKgPerDm3 = 0;
    std::string source;  // of kc11 and mc, shown beside every force
    std::string youngSource;
    SourceSpan span;

    // Both figures of the law are there; an exponent of 0 says that the force does not depend on the thickness.
    bool cuts() const { return kc11 > 0; }
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
    bool rapidPathSaid = false;  // false: taken as per axis in time, and kept clear on both ways
    double maxFeedMmPerMin = 0;  // along the path
    double maxRevPerMin = 0;
    double indexTimeS = 0;  // turret index to the next station asked for, unclamp to clamp
    int stations = 12;
    double turretRadius = 0;     // of the disc, to the mounting faces
    double turretThickness = 0;  // along z
    AxisDynamics axes;
    SpindleDrive spindle;
    OtherTimes times;
};

// What the tools stand on. Its own frame, like that of a tool: from the turret reference point, z away from the chuck,
// r outwards, y across both, with the station in question in working position.
struct Turret {
    enum class Kind : std::uint8_t {
        Disc,  // turns about an axis parallel to Z; stations on its rim
        Gang,  // a plate that only slides, every tool in reach all the time
    };
    enum class IndexWay : std::uint8_t {
        NotSaid,   // kept clear both ways round
        Shortest,  // half a turn: kept clear both ways round
        Rising,    // always with station numbers rising
    };
    Kind kind = Kind::Disc;
    IndexWay indexWay = IndexWay::NotSaid;
    double faceZ = 0;  // front of disc or plate, towards the chuck; Machine::turretThickness lies behind it
    double axisR = 0;  // Disc: of its axis, outwards
    Range plateR;      // Gang: of the plate
    Range plateY;
    // What carries the disc and slides with it without indexing: a round housing behind the disc, about its axis. 0:
    // not said.
    double headRadius = 0;
    double headLength = 0;
    SourceSpan span;
};

// What holds a tool on the turret: a box in the frame of the turret, symmetrical about the middle of the station.
struct ToolBlock {
    Range z, r;
    double width = 0;  // across
};

// A holder by its designation, ISO 5608 (outside) or ISO 5609 (bars), or by its measures: where it differs from the
// plain shank that Tool::shankSize gives. Tool frame; 0: not said.
struct HolderHead {
    std::string designation;  // as written
    // f: from the tip to the far side of the shank, across the tool. Of bars, whose f counts to their middle, half the
    // bar more.
    double headWidth = 0;
    double headLength = 0;   // l2: from the tip to where the plain shank begins, along the tool; not said: all the way
    double shankWidth = 0;   // b: in the turning plane; of bars their diameter
    double shankHeight = 0;  // h: square to it, below the edge; of bars their diameter
};

struct Chuck {
    enum class Kind : std::uint8_t { Jaws, Collet };
    enum class Jaw : std::uint8_t { Hard, Soft /* bored on the machine */, Stepped };
    enum class Grip : std::uint8_t { Outside, Inside };
    Kind kind = Kind::Jaws;
    Jaw jaw = Jaw::Hard;
    Grip grip = Grip::Outside;
    double bodyRadius = 0;
    double bodyLength = 0;  // behind z = 0
    int jaws = 3;
    // Of the jaws, of a collet its nose: from z = 0 towards the turret, and the circle they sweep.
    double jawLength = 0;
    double jawOuterRadius = 0;
    double jawWidth = 0;      // across a jaw; for the picture
    double maxRevPerMin = 0;  // marked on the chuck; 0 when the set-up does not say
    // Of what passes through chuck and spindle; nothing where the set-up does not say.
    std::optional<double> throughBoreRadius;
    // Stepped jaws, from their gripping face outwards: out to `radius` they stand `length` off the chuck. The last step
    // reaches to jawOuterRadius, the first is the longest.
    struct Step {
        double radius = 0, length = 0;
    };
    std::vector<Step> steps;
    // How much of the jaws' or the collet's length grips: of soft jaws the depth they are bored to. 0: all of it.
    double gripLength = 0;
    // For the grip at speed; 0: not said. Forces of all jaws together, standing.
    double gripForceN = 0;
    double jawMassKg = 0;                    // of one top jaw
    double jawMassRadius = 0;                // of its centre of mass as it is set
    std::optional<double> baseJawMomentKgM;  // of one base jaw: mass times radius; nothing: not said
    double friction = 0;                     // between jaw and bar
    double forceSafety = 0;                  // Sz, against the cutting force; 0: what the method asks for at least
    double speedSafety = 0;                  // Ssp, against what the speed takes away
};

struct Tailstock {
    double quillRadius = 0;
    double quillLength = 0;   // length of the quill behind the centre, as far as it is out of its casting
    double centreAngle = 0;   // full point angle of the centre, rad
    double centreRadius = 0;  // of the centre's shank
    double tipZ = 0;          // where the centre point stands at the start, lathe frame
    bool advanced = false;    // false: parked clear of the work, drawn and checked where it stands
    SourceSpan tipSpan = {};  // where the set-up says where it stands
    // How far the shank of the centre stands out of the quill, from its point; 0: not said, then all behind the point
    // counts as thick as the quill.
    double centreLength = 0;
    bool live = true;  // the centre turns in bearings; their housing is the next two, 0: none
    double housingRadius = 0;
    double housingLength = 0;
    // Where M codes take it, point of the centre, lathe frame; nothing where the set-up does not say.
    std::optional<double> advancedZ = {}, parkedZ = {};
    // The casting behind the quill, a cylinder on the spindle axis; 0: not said.
    double castingRadius = 0;
    double castingLength = 0;
    double forceN = 0;  // along Z; 0: not said
};

// A second spindle facing the first, on the same axis. It only travels along Z.
struct SecondSpindle {
    Chuck chuck;           // as seen from its own face
    double startZ = 0;     // of its chuck's face at the start, lathe frame
    double approachZ = 0;  // where M codes take it to grip the piece
    double parkedZ = 0;    // and back
    double maxRevPerMin = 0;
    SourceSpan span;
};

// A ring round the bar, open towards one side, with rollers that stand on the bar.
struct SteadyRest {
    double z = 0;      // middle, lathe frame
    double width = 0;  // along z
    double innerRadius = 0, outerRadius = 0;
    double rollerRadius = 0;
    double barRadius = 0;  // that the rollers are set to
    int rollers = 3;
    double openFrom = 0, openTo = 0;  // rad, from towards the turret, anticlockwise seen from the tailstock
    SourceSpan span;
};

// Anything else that stands in the machine: a guard, a door, a coolant pipe, a body from a mesh file.
struct ExtraBody {
    enum class Carrier : std::uint8_t { Bed, Spindle, TurretSlide, Station, Tailstock, SecondSpindle };
    enum class Kind : std::uint8_t { Guard, Door, Other };
    std::string name;
    Kind kind = Kind::Other;
    Carrier carrier = Carrier::Bed;
    int station = 0;  // of Carrier::Station
    // Either a box, or a mesh. Bed, Spindle: lathe frame; turret: its frame; tailstock: z from the point of its centre;
    // second spindle: z from its face. r across, towards the turret; y completes the frame.
    Range z, r, y;
    std::string file, unit;                       // as written; empty: a box. Unit empty: mm
    double atZ = 0, atR = 0, atY = 0;             // where the mesh's own origin stands
    double turnZ = 0;                             // the mesh turned about z first, rad
    std::vector<std::array<float, 9>> triangles;  // (z, r, y) of three corners, in place; read later, see body_files.h
    SourceSpan span;
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
    // How far the blank's own axis, bore included, lies off the spindle axis, towards the angle 0. Round, Hexagon,
    // Square, Previous.
    double eccentricity = 0;
    double backZ = 0;                   // lathe frame; negative inside the chuck
    double frontZ = 0;                  // lathe frame
    std::vector<Contour> crossSection;  // z as x, r as y: about the spindle axis, x towards the angle 0
    std::vector<Contour> halfSection;   // lathe frame
    std::string material;               // as written; what is known of it is Setup::material
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
    Turning,      // outside, nose-radius insert
    Boring,       // inside, nose-radius insert
    Grooving,     // straight edge with two corners, radial
    Parting,      // as grooving, meant to cut off
    Drill,        // on the axis
    Threading,    // V-shaped insert, outside or inside
    Tap,          // on the axis
    CentreDrill,  // on the axis: a pilot, a cone, and a protecting chamfer in form B
    StepDrill,    // on the axis: a drill that grows in steps
    Reamer,       // on the axis: cuts with the chamfer at its front only
};

// Drills, reamers and taps: tools that stand along the axis with their point on it.
inline bool worksOnTheAxis(ToolKind kind) {
    return kind == ToolKind::Drill || kind == ToolKind::Tap || kind == ToolKind::CentreDrill ||
           kind == ToolKind::StepDrill || kind == ToolKind::Reamer;
}

// Grooving and parting.
inline bool isBlade(ToolKind kind) {
    return kind == ToolKind::Grooving || kind == ToolKind::Parting;
}

struct Tool;
// Tools along the axis of the spindle: on it, boring bars, bars for inside threads and grooves, blades for face
// grooves.
bool standsAlongZ(const Tool& tool);

// How a drill goes over from one diameter to the next.
struct DrillStep {
    double at = 0;      // where it begins, mm behind the point
    double radius = 0;  // of what follows it
    double angle = 0;   // full angle of the cone between, rad; pi: a flat shoulder
};

// What a threading insert makes of the crest.
enum class ThreadProfile : std::uint8_t {
    Partial,  // leaves it alone
    Full,     // a flat beside the profile turns it to size
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
    double edgeWidth = 0;    // A, B, K, L: length of the other edge; 0: as the first
    double noseRadius = 0;
    // Flats tangent to the nose, parallel to Z where the edge behind the nose rises from there, and parallel to X where
    // the entering angle is above 90 degrees.
    double wiperFlat = 0;
    // The flank under the edge: how far down it reaches (thickness of the insert, height of a blade) and how much it
    // draws back, rad. 0: not known.
    double flankHeight = 0;
    double clearanceAngle = 0;
    bool clearanceMeasured = false;  // false: by the letter of the designation, as the insert is, not as it is mounted
    double minBoreRadius = 0;        // of the smallest bore the tool goes into; 0: not known
    double enteringAngle = 0;        // kappa of ISO 3002/5608, between the cutting edge and the feed along z, rad
    int tipNumber = 3;  // imaginary tip position 0–9: 3 outside towards the chuck, 2 bore towards the chuck

    // Grooving and parting: the edge.
    double width = 0;
    double cornerRadius = 0;  // of both corners; with the next one, of the one towards the chuck (face: the axis)
    std::optional<double> secondCornerRadius;
    double frontAngle = 0;  // between front and Z, rad; + where the corner away from the chuck leads, - the other one
    bool face = false;      // the blade stands along Z, for grooves in a face; front and corners as seen from there
    // Of the outer wall of the first cut, where the blade has metal on both sides; 0: not known.
    double faceGrooveMinRadius = 0;
    double faceGrooveMaxRadius = 0;
    double cuttingDepth = 0;  // how deep the blade or the boring bar may go before its holder follows

    // Drill: point on the axis. With steps, the diameter is that in front of them.
    double diameter = 0;
    double pointAngle = 0;  // full angle, rad
    double fluteLength = 0;
    std::vector<DrillStep> drillSteps;

    // Reamer: the chamfer at its front, half angle, rad; and how much it may take, radially.
    double chamferLength = 0;
    double chamferAngle = 0;
    double reamingAllowance = 0;

    // Threading: full angle between the flanks, rad; noseRadius or a flat (width) at its end, cuttingDepth the height
    // of the profile. Tap: diameter, fluteLength. Both: pitch of the profile, mm, 0 where the tool cuts any.
    double threadAngle = 0;
    double pitch = 0;
    ThreadProfile profile = ThreadProfile::Partial;
    double mountedAngle = 0;      // how far the profile is turned in the cutting plane, anticlockwise, rad
    double chamferThreads = 2.5;  // of a tap: threads on its tapered front
    bool inside = false;          // threading: stands out along the axis, its tip points outwards

    // Holder, for the picture and for clearance: shank height (radially for a bar across the turret) and reach.
    double shankSize = 20;
    double overhang = 0;  // along the direction in which the tool stands out of its block
    std::optional<HolderHead> head;
    // Tools on the axis: of the collet chuck in front of the block; 0: none, the shank goes into the block as it is.
    double colletChuckRadius = 0;
    double colletChuckLength = 0;
    std::optional<ToolBlock> block;  // of its own; without one that of the turret, see toolBlockOf()

    // For forces, bending and life; 0: not said.
    enum class Shank : std::uint8_t { Steel, Carbide, Damped, DampedCarbide };
    Shank shank = Shank::Steel;
    std::optional<double> rakeAngle;  // rad, + sharp
    int edges = 0;                    // that cut at a time: drills, reamers; 0: as the kind has it
    double maxForceN = 0;             // that insert and holder stand, in the direction of the cut
    double maxFeed = 0;               // mm per revolution
    double maxDepth = 0;              // of the cut, mm
    double taylorN = 0, taylorC = 0;  // V T^n = C, m/min and min
    int edgesPerInsert = 0;

    Outline cutting;  // tool frame; made by toolOutline()
    // Further convex parts of a tool that is not convex as a whole: step drills, centre drills.
    std::vector<Outline> steps;
    Outline holder;                    // tool frame, empty where the set-up gives too little to know it
    std::vector<Outline> holderSteps;  // further convex parts of it: the collet chuck
    SourceSpan span;                   // where it stands in the set-up file
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

// What an M code may do to what stands round the bar.
enum class MachineAction : std::uint8_t {
    None,
    TailstockAdvance,
    TailstockRetract,
    ChuckOpen,
    ChuckClose,
    SecondSpindleApproach,
    SecondSpindleRetract,
    SecondSpindleGrip,
    SecondSpindleRelease,
    SecondSpindleTurnsAlike,  // at the speed of the first, in step with it
    SecondSpindleStop,
};

// What an M code of this machine does that is none of the trade's own; table [m_codes.M63].
struct MachineCode {
    int number = 0;
    std::string meaning;
    double timeS = 0;                         // how long the control waits for it
    std::optional<SpindleDirection> spindle;  // what the spindle does from then on
    std::optional<bool> coolant;
    MachineAction action = MachineAction::None;
    SourceSpan span;
};

// How near is too near, mm. Of what must not touch, at rapid and at feed; the tool at work against the billet itself
// counts by the second at rapid too, since the cut decides how near it goes.
struct NearMiss {
    double rapidMm = 2;
    double feedMm = 0.5;
};

inline constexpr std::size_t kPlainWorkOffsets = 6;     // G54–G59
inline constexpr std::size_t kFurtherWorkOffsets = 48;  // G54.1 P1–P48
inline constexpr std::size_t kWorkOffsets = kPlainWorkOffsets + kFurtherWorkOffsets;

struct Setup {
    std::string name;  // file name as the user gave it
    Machine machine;
    Chuck chuck;
    std::optional<Turret> turret;  // nothing: disc, blocks and index swings cannot be checked
    ToolBlock toolBlock;           // of all tools that have none of their own; z and width count, r is by the tool
    std::optional<Tailstock> tailstock;
    std::optional<SecondSpindle> secondSpindle;
    std::optional<SteadyRest> steadyRest;
    std::vector<ExtraBody> extraBodies;
    NearMiss nearMiss;
    Stock stock;
    Material material;
    Overrides overrides;
    WantedPart wanted;
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

// Text of a file that a set-up names, by its name as written, beside the set-up; nothing if it cannot be had.
using ReadSetupFile = std::function<std::optional<std::string>(std::string_view path)>;

// Reads a set-up from TOML text. Never throws for what the text says: unknown keys, wrong types, negative sizes and
// contradictions are findings with line, column and remedy, and a safe value is taken so that the rest can be read;
// such a finding is of severity Stop, so no trial with it is clear. Machine and tool files that the set-up takes keys
// from are asked of `readFile`; what is wrong in one is found at the key that names it, the message says file and line.
// Without `readFile` no such file can be had. sim/output/setup_files.h gives those beside a file on disk.
Setup readSetup(std::string_view text, std::string name, const ReadSetupFile& readFile = {});

// Of a tool that stands along Z, how far its block reaches past the far side of the shank, mm; common practice for
// what surrounds a bore, no source.
inline constexpr double kBlockRoundShankMm = 15;

// The block of a tool as it counts, frame of the turret: its own; or that of the turret, from the face it is mounted on
// (the rim of the disc, the plate) in to where the tool's overhang begins. Of a tool that stands along Z that is the
// front of the block, and the block reaches kBlockRoundShankMm past the shank towards the axis. Nothing where neither
// is known, and where the tip of an outside tool points away from the axis: what carries such a tool is not said.
std::optional<ToolBlock> toolBlockOf(const Setup& setup, const Tool& tool);

// The cutting outline of a tool in the tool frame (imaginary tip at the origin, z away from the chuck, r outwards),
// from its kind and dimensions. Elements that are not cutting edges are marked so. Of a tool that is not convex, its
// first convex part.
Outline toolOutline(const Tool& tool);

// The further convex parts of such a tool: steps of drills, the crest flat of full thread profiles.
std::vector<Outline> toolSteps(const Tool& tool);

// Holder in the tool frame: a convex outline on the safe side, empty if the dimensions are not given.
Outline holderOutline(const Tool& tool);

// The further convex parts of the holder: the collet chuck of a tool on the axis.
std::vector<Outline> holderSteps(const Tool& tool);

// Fills in what the dimensions of a tool make of it: cutting, steps, holder and its steps.
void giveShape(Tool& tool);

// Radius of the corner of a blade at which its imaginary tip lies.
double gaugedCornerRadius(const Tool& tool);

// Length of the tapered front of a tap, mm.
double tapChamferMm(const Tool& tool);

// Displacement from the nose centre to the imaginary tip for a nose radius of 1, by tip number (common practice, no
// source): 1 (+z,+r) 2 (-z,+r) 3 (-z,-r) 4 (+z,-r) 5 (+z) 6 (+r) 7 (-z) 8 (-r), 0 and 9 none. Asserts 0 <= number <= 9.
Point tipFromNoseCentre(int tipNumber);

// It works in a bore: a threading insert that is set so, any other whose tip points away from the axis.
bool cutsInside(const Tool& tool);

}  // namespace firstoff
