// The control at work: goes through the blocks of a program and turns them into moves.
//
// Order within a block (NISTIR 6556 sec. 3.8, table 8): units and feed mode, F, S, T, spindle, coolant, dwell,
// nose-radius compensation, work offset, reference return, cycle or movement, and last of all what stops the program.
// Where words stand in the block makes no difference.
//
// The parts: control.cpp the way through the blocks, control_modes.cpp feed, speed and what else is modal,
// control_tool.cpp tool calls and compensation, control_motion.cpp movement, control_threads.cpp threads,
// control_threading_cycles.cpp threads as cycles and tapping, control_drawing.cpp corners and lines by
// their angle, control_coordinates.cpp datums, offset entry and reference positions, control_cycles.cpp profiles and
// G70, control_roughing.cpp G71 to G73, control_passes.cpp the movement codes that are cycles, control_drilling.cpp the
// drilling cycles among them, control_pecks.cpp G74 and G75, control_spindle_axis.cpp C words,
// control_machine_codes.cpp M codes of the set-up, control_macro.cpp macro statements, control_variables.cpp and
// control_offset_variables.cpp what their variables mean, control_calls.cpp subprograms and macro calls.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/control/arc.h"
#include "sim/control/block_words.h"
#include "sim/control/call_arguments.h"
#include "sim/control/cycle_move.h"
#include "sim/control/drill_cycle.h"
#include "sim/control/expression_values.h"
#include "sim/control/groove_pecks.h"
#include "sim/control/loops.h"
#include "sim/control/path_recorder.h"
#include "sim/control/pattern_repeat.h"
#include "sim/control/profile_search.h"
#include "sim/control/program_texts.h"
#include "sim/control/remarks.h"
#include "sim/control/roughing.h"
#include "sim/control/single_pass.h"
#include "sim/control/threading_cycle.h"
#include "sim/control/toolpath.h"
#include "sim/control/variables.h"
#include "sim/program/program.h"
#include "sim/setup/setup.h"

namespace firstoff {

class Control final : private VariableReader {
public:
    Control(const Program& program, const Setup& setup, Toolpath& out);

    void run();

private:
    // The codes of a block by what they order; null where there is none.
    struct Orders {
        std::array<const Code*, kCodeGroups> byGroup{};
        bool unknown = false;  // a code that is not understood: words left over are its own
        bool unknownG = false;

        const Code*& operator[](CodeGroup group) { return byGroup[static_cast<std::size_t>(group)]; }
        const Code* operator[](CodeGroup group) const { return byGroup[static_cast<std::size_t>(group)]; }
        bool has(CodeGroup group, Order order) const {
            const Code* code = (*this)[group];
            return code != nullptr && code->order == order;
        }
    };

    // What the single-pass cycles (G90, G92, G94) keep from block to block. Work coordinates, X as a radius.
    struct SinglePassFigures {
        std::optional<double> endR, endZ;
        double taper = 0;  // R
    };

    // What the drilling cycles keep until they end.
    struct DrillFigures {
        struct Level {
            double mm = 0;
            bool absolute = false;  // a Z in work coordinates; else a distance, from the level before
        };
        std::optional<Level> depth;    // Z, or W from the retract point
        std::optional<Level> retract;  // R, from the initial level
        double peck = 0;               // Q, mm; 0 in one go
        double dwellS = 0;             // P
    };

    // The spindle as an axis.
    struct SpindleAxis {
        enum class Interpolation : std::uint8_t { None, Polar, Cylindrical };
        Interpolation interpolation = Interpolation::None;
        bool engaged = false;  // C moves it, until M03, M04 or another tool
        double angle = 0;      // rad
        double length = 0;     // C of polar interpolation, mm
    };

    // What one block leaves behind for the next. Copied when a profile is read ahead and put back afterwards.
    struct Standing {
        ModalState modal;
        Point position;  // turret reference as programmed, lathe frame
        int call = 0;    // index into Toolpath::calls
        bool motionGiven = false;
        bool suspended = false;        // a code that is not understood has taken over the axis words
        bool feedOfOtherMode = false;  // F was given under the other of G98 and G99
        bool exactStop = false;        // G61
        bool feedIsLead = false;       // F in force was given with a thread
        bool feedChecked = false;      // nothing that a feed move depends on changed since it was looked at
        bool speedGiven = false;
        bool datumChecked = false;        // work offset and tool offset were looked at since they changed
        bool incremental = false;         // G91 of code systems B and C
        bool feedOfOtherUnits = false;    // F was given under the other of G20 and G21
        bool speedOfOtherUnits = false;   // S of a surface speed, likewise
        bool cycleLeftOn = false;         // a section ended while a movement code that is a cycle was in force
        bool backToRetractPoint = false;  // G99 of code systems B and C
        SinglePassFigures singlePass;
        DrillFigures drilling;
        SpindleAxis spindleAxis;
    };

    // What the walk through the blocks is doing.
    enum class Reading : std::uint8_t {
        Program,       // carrying out the program
        ProfileShape,  // reading a profile for G71 to G73: only its shape counts
        FinishCut,     // running a profile for G70
    };

    struct Place {
        BlockId block = kNoBlock;
        const Word* word = nullptr;
    };

    // What the first of two G76 blocks says; it stays for the cycles that follow.
    struct ThreadingFigures {
        bool passesGiven = false, leastGiven = false, allowanceGiven = false;
        int finishPasses = 1;
        std::optional<double> pullOutLeads;  // none: that of the set-up
        double angleDeg = 0;
        double leastDepth = 0;
        double allowance = 0;
    };

    // What the passes of one thread must have in common.
    struct ThreadPass {
        std::uint32_t call = 0xffffffffu;
        double lead = 0;
        double startZ = 0;
        double speed = 0;
    };

    // G66 in force.
    struct ModalCall {
        ProgramText text;
        long repeats = 1;
        Variables::Locals locals;
    };

    // A program being run by a call, and where its caller goes on.
    struct CallLevel {
        ProgramText text;
        BlockId call = kNoBlock;
        BlockId resume = kNoBlock;
        BlockId callerFirst = 0;
        BlockId callerEnd = 0;
        BlockId callerShown = kNoBlock;
        std::optional<ModalCall> callerModal;
        long repeatsLeft = 1;
        bool macro = false;  // has local variables of its own
        Variables::Locals arguments;
    };

    struct Profile {
        BlockId first = kNoBlock;
        BlockId last = kNoBlock;
    };

    // What a cycle reads from its profile; work coordinates.
    struct Shape {
        Point start;  // of the cycle
        std::vector<ProfileElement> elements;
        BlockId approach = kNoBlock;  // the first profile block that names an axis
        std::uint32_t approachAxes = 0;
        MoveKind infeed = MoveKind::Rapid;  // how it leads in: at rapid or at feed
        bool leadsInOnArc = false;
        bool namesX() const { return (approachAxes & BlockWords::bits({'X', 'U'})) != 0; }
        bool namesZ() const { return (approachAxes & BlockWords::bits({'Z', 'W'})) != 0; }
    };

    // control.cpp
    void carryOut(BlockId block);
    bool isLeftOut(BlockId block) const;
    void tooManyBlocks(BlockId block);
    void carryOutWords();
    void sortCodes();
    void sortCode(const Code& code, bool isG);
    void checkRepeatedWords();
    void refuseInProfile();
    void reportUnknownCode(const Code& code);
    void reportLeftovers();
    void applyFlow();
    void finish();
    void checkTape();
    void lookForBlocksNotReached();

    // control_modes.cpp
    void applyUnits();
    void applyFeed();
    void applySpeed();
    void applyClamp();
    void changeSpeedMode();
    void applyPathMode();
    void applySpindle();
    void turnSpindle(SpindleDirection direction, const Word& word);
    void dwell();
    void doubtDwellPoint(const Word& word);
    // The number of `letter` if it is above zero; reports it otherwise.
    std::optional<double> positive(char letter, const char* what);
    void checkFeed();
    void checkUnitsOfFeed();
    void checkDatum();
    std::uint32_t modalIndex();

    // control_tool.cpp
    void applyTool();
    void callTool(int station, int offset, const Word& word);
    bool addCall(const ToolCall& call, const Word& word);
    const Offset* offset(int number) const;
    void reportTool(const ToolCall& call, const Word& word);
    Point reckonedTip(int station, int offset, const Tool* tool) const;
    void applyCompensation();
    void startCompensation(Compensation side);
    void cancelCompensation();
    std::optional<CompensationOrder> compensationOrder(Compensation side);
    void checkNoseEntries(const CompensationSetting& setting, const Tool& tool, double noseRadius);
    void leaveCompensation(const char* before, const Word* word);
    void settle();

    // control_motion.cpp
    void applyAxes();
    void stateMotion(const Code& code);
    void move();
    void moveAlong(const Move& move);
    void arcMove(Move move);
    void fullCircle(Move move, const ArcCentre& arc);
    void reportArc(const ArcCentre& arc, bool byRadius, const Word* word);
    void reportAxisTwice();
    void machineMove();
    void feedUntilSkip();
    void lookForPoints();
    void checkPoint(const Word& word);
    bool writesPoints();
    Point target() const;
    Move newMove(MoveKind kind, Point to);
    void add(const Move& move) {
        if (openLine_ && isMovement(move.kind)) dropLine(tr("a move that is no such line follows"));
        recorder_->add(move);
    }
    // Lengths in mm; X and U of the program on radius.
    double lengthOf(const Word& word) const { return unitOf(word) * word.value; }
    double lengthOf(char letter) const { return lengthOf(*words_.word(letter)); }
    double onRadius(const Word& word) const { return lengthOf(word) * (setup_.control.radiusProgramming ? 1.0 : 0.5); }
    double onRadius(char letter) const { return onRadius(*words_.word(letter)); }
    double unitOf(const Word& word) const { return countsIncrements(word) ? scale() * increment() : scale(); }
    bool countsIncrements(const Word& word) const {
        return !word.hasPoint && setup_.control.wholeNumbers == ControlOptions::WholeNumbers::Increments;
    }
    double increment() const { return now_.modal.inches ? 0.0001 : 0.001; }
    double incrementsPerUnit() const { return now_.modal.inches ? 10000 : 1000; }
    // Letters that name an axis: U and W do so in code system A only.
    std::uint32_t axes() const;
    double scale() const { return now_.modal.inches ? kMmPerInch : 1.0; }
    const ToolCall& call() const { return out_.calls[static_cast<std::size_t>(now_.call)]; }
    Point datum() const { return out_.datums[now_.modal.datum]; }
    Point workPosition() const { return now_.position + call().reckoned - datum(); }
    Point turretAt(Point work) const { return work + datum() - call().reckoned; }

    // control_threads.cpp
    void threadMove(Order order);
    bool threads() const;
    std::optional<double> threadLead(const char* what);
    double leadChange(double lead, double way);
    double startAngle(bool chained);
    void checkThreadSpeed(double lead);
    void checkThreadTool(double lead);
    void refuseCorner(const char* where);
    Move threadTo(Point to, const MoveExtra& extra);
    Move cycleThread(const CycleMove& planned, Point to);

    // control_threading_cycles.cpp
    void beginThreading();
    void threadingPassBlock();
    void threadingCycleBlock();
    void readThreadingFigures();
    void readPassesAndAngle();
    std::optional<ThreadingCycle> readThread();
    bool readDepths(ThreadingCycle& cycle);
    std::optional<double> threadDepth(char letter, const char* what);
    void reportFiguresNotGiven();
    void checkThread(const ThreadingCycle& cycle);
    bool checkThreadStart(const ThreadingPass& pass, double crest);
    void tappingBlock();
    std::string codeText(Order order) const;

    // control_drawing.cpp
    std::optional<CornerWish> cornerWish(const Word*& word);
    const Word* plainCorner() const;
    void openLine();
    Point angleOf(const Word& word);
    void dropLine(const char* why);
    Point endOfLine(Point to);
    bool closeLine(Point to);
    void checkAngle(Point from, Point to, Point direction, BlockId block, const Word& word);

    // control_coordinates.cpp
    void applyWorkOffset();
    std::optional<int> furtherWorkOffset(const Code& code);
    void refreshDatum();
    void coordinateSetting();
    void localShift();
    void checkShift();
    void dataEntry();
    void enterWorkOffset(int kind);
    void enterOffset(bool geometry, int number);
    void enterNose(Offset& entry, bool geometry);
    std::optional<int> entryNumber(int least, int most);
    void entered(double& axis, char absolute, char incremental, bool alongR);
    Offset& offsetToEnter(int number);
    void takeUpOffset(int number, BlockId block, const Word& word);
    void setTip(Offset& entry, BlockId block, double number, const Word& word);
    void referenceReturn();
    std::optional<Point> otherReference();
    void referenceCheck();

    // control_cycles.cpp
    std::optional<Profile> findProfile();
    std::int32_t sequenceNumber(char letter) const;
    enum class MissingBlock : std::uint8_t { NotGiven, NotInProgram, BeforeP, AroundCycle };
    void reportMissing(char letter, MissingBlock why);
    void reportTwice(char letter, BlockId taken);
    std::optional<Shape> shapeOf(const Profile& profile, bool alongX);
    Shape readShape(const Profile& profile, Point start, bool alongX);
    static std::vector<ProfileElement> elementsOf(const std::vector<Move>& moves, BlockId approach, Point toWork,
                                                  bool alongX);
    void finishingBlock();
    void keepWantedProfile(const Profile& profile);
    void returnFromFinishing(Point start);
    void reportOneBlock();
    void jumpOver(const Profile& profile, BlockId callBlock);
    bool endsProgram(BlockId block) const;

    // control_roughing.cpp
    void roughingBlock(bool alongX);
    Point finishAllowance();
    void readRetract();
    std::optional<double> depthOfCut(bool alongX);
    double depthOfOtherCycle(double depth, bool alongX);
    double depthOfD();
    void rough(const Profile& profile, RoughingOrder order);
    bool startsRightWay(const Shape& shape, bool alongX);
    bool startsStraight(const Shape& shape);
    void reportRoughing(const RoughingPlan& plan, const std::vector<ProfileElement>& shape, const RoughingOrder& order);
    void reportTurn(const RoughingPlan& plan, BlockId block, const RoughingOrder& order);
    void reportStart(const RoughingPlan& plan, const RoughingOrder& order);
    void reportAllowance(const CycleFrame& frame, double depth, Point allowance, Point leave);
    void reportAllowanceAboveDepth(const RoughingOrder& order);
    void patternBlock();
    std::optional<int> passCount(char letter);
    void reportNoPasses();
    void repeatPattern(const Profile& profile, PatternOrder order);
    void reportStock(const CycleFrame& frame, double depth, Point stock);

    // control_passes.cpp
    static bool isModalCycle(int motion);  // of ModalState
    void modalCycle();
    std::string cycleName() const;
    void refuseCycleInProfile();
    void beginCycle();
    void noCornerInCycle();
    void noCompensationInCycle();
    void noteCycleLeftOn(const char* where, const Word* word);
    void warnOfCycleLeftOn();
    void singlePassBlock();
    SinglePass readSinglePass(bool stated);
    const Word* taperWord() const;
    void reportCycleWithoutAxes();
    void reportTaper(const SinglePass& pass);
    void reportTaperKept();
    void reportNoCut(const SinglePass& pass);
    void emitCycle(const std::vector<CycleMove>& moves, BlockId callBlock, int motionOfCycle);

    // control_pecks.cpp
    void pecksBlock(bool alongX);
    void peckRetractBlock();
    std::optional<GroovePecks> readPecks(bool alongX);
    std::optional<double> stepOf(char increments, char length, const char* what);
    std::optional<double> incrementsOf(char letter, const char* what);
    double countWithPoint(const Word& word);
    double reliefOf(bool severalPlunges);
    void reportTooManyPecks(double peck);
    void reportPecks(const GroovePecks& order, const GroovePeckPlan& plan);

    // control_spindle_axis.cpp
    void applySpindleAxisMode();
    bool movesSpindleAxis() const;
    bool spindleMayBeAxis() const;
    void spindleAxisMove();
    void turnSpindleAxis(double radius);
    void standAndTurn(const MoveExtra& extra, bool feeds);
    std::uint32_t spindleAxisExtra();
    std::uint32_t extraIndex(const MoveExtra& extra);
    void referenceSpindleAxis();
    void reportSpindleAxis(const Word& word);

    // control_machine_codes.cpp
    const MachineCode* machineCode(const Word& word) const;
    void applyMachineCodes();
    void carryOutMachineCode(const MachineCode& code, const Word& word);
    double usualSeconds(const MachineCode& code) const;
    // A dwell in which the M code is carried out; none where it takes no time and moves nothing.
    void waitForMachineCode(double seconds, MachineAction action);
    void checkMachineCodes();

    // control_drilling.cpp
    static bool isDrilling(int motion);  // of ModalState
    void endDrilling();
    void drillingBlock();
    bool readDrilling();
    void turnForHole();
    int readRepeats();
    std::optional<DrillCycle> drillCycle();
    bool checkLevels(const DrillCycle& order);
    std::string retractMeaning() const;
    void reportBesideAxis(const DrillCycle& order);

    // control_macro.cpp
    void carryOutStatement(BlockId block);
    void assign(BlockId block, const Statement& statement);
    void setVariable(BlockId block, const Assignment& assignment, double index, double value);
    bool holds(BlockId block, const Statement& statement);
    void beginLoop(BlockId block, const Statement& statement);
    void endLoop(BlockId block);
    void jump(BlockId block, const Statement& statement);
    void jumpTo(BlockId block, std::int32_t number);
    void goBack(BlockId from, BlockId to);
    bool refuseInProfile(BlockId block, const Statement& statement);
    void halt(BlockId block, Remark remark);
    const Loops& loops();

    // control_calls.cpp
    std::optional<long> repeats();
    const ProgramText* calledProgram(long* repeatsInP);
    void checkCalled(const ProgramText& text, const Word& word);
    void callSubprogram();
    bool callsMacro() const {
        return orders_.has(CodeGroup::OneShot, Order::MacroCall) ||
               orders_.has(CodeGroup::MacroCall, Order::ModalMacroCall);
    }
    void macroBlock();
    void reportArguments(const CallArguments& arguments);
    void callAfterMove();
    void enter(const ProgramText& text, long repeats, const Variables::Locals* arguments);
    void setRange(BlockId first, BlockId end);
    void showCall(BlockId call);
    void programReturn();
    void repeatProgram();
    void leave();
    void endOfCalledText();

    // control_variables.cpp
    double read(std::int32_t index, std::uint32_t offset) override;
    double systemVariable(std::int32_t index, std::uint32_t offset);
    std::optional<double> positionVariable(std::int32_t index, const Word& at);
    std::optional<double> modalVariable(std::int32_t index) const;
    void setSystemVariable(BlockId block, std::int32_t index, double value, const Word& at);
    // control_offset_variables.cpp
    std::optional<double> offsetVariable(std::int32_t index) const;
    bool setOffsetVariable(BlockId block, std::int32_t index, double value, const Word& word);
    void setWorkOffset(int number, bool alongZ, double mm);

    void doubtVariable(const Word& at, const char* code, std::string message, std::string remedy);

    void use(std::uint32_t letters) { used_ |= letters; }
    BlockId block() const { return words_.block(); }

    const Program& program_;
    const Setup& setup_;
    Toolpath& out_;
    Remarks remarks_;
    PathRecorder mainRecorder_;
    PathRecorder* recorder_;      // the main one, or one that reads a profile
    BlockId first_ = 0;           // the program carried out: its first block,
    BlockId end_;                 // and the first one that is not of it
    std::vector<bool> reached_;   // by block: carried out, or read as part of a profile
    BlockId endedAt_ = kNoBlock;  // the block of the main program in which M30 or M02 ended it
    ProfileSearch search_;
    Variables variables_;
    ExpressionValues values_;
    std::map<BlockId, Loops> loops_;     // of the programs by their first block; made at the first loop or jump
    std::optional<ProgramTexts> texts_;  // made at the first call
    std::vector<CallLevel> levels_;
    std::optional<ModalCall> modalCall_;
    BlockId shownCall_ = kNoBlock;  // of the program's own file, while a program of another file runs
    BlockId levelCall_ = kNoBlock;  // the call that was come back from last
    bool moved_ = false;            // this block gives a movement
    BlockId executing_ = kNoBlock;  // the block being carried out, for what its variables have to say
    std::set<BlockId> jumpsSeen_;   // jumps whose target was looked at for a second block of its number

    Standing now_;
    BlockWords words_;
    Orders orders_;
    std::uint32_t used_ = 0;  // letters of the block that were understood

    BlockId next_ = 0;
    bool ended_ = false;
    bool endless_ = false;
    bool lackOfPointSaid_ = false;
    std::optional<bool> writesPoints_;
    long executed_ = 0;
    BlockId lastWayBackFrom_ = kNoBlock;  // the last jump upwards
    BlockId lastWayBackTo_ = kNoBlock;

    ModalState writtenModal_;
    std::uint32_t modalIndex_ = 0;
    bool modalDirty_ = false;

    // A line by its angle alone, which begins where the control stands and waits for the line that crosses it.
    struct OpenLine {
        BlockId block = kNoBlock;
        const Word* word = nullptr;
        Point direction;
    };
    std::optional<OpenLine> openLine_;
    BlockId lineDroppedIn_ = kNoBlock;  // the block that should have ended a line and could not

    // What stands on the control's offset pages: from the set-up, then as the program enters it.
    std::vector<Offset> offsets_;  // in order of number
    std::array<Point, kWorkOffsets> workOffsets_;
    std::array<bool, kWorkOffsets> workOffsetGiven_;
    Point externalOffset_;  // added to every work offset
    Point localShift_;      // G52
    Point shift_;           // G50 (G92) with axis words
    struct SetCoordinates {
        Place at;
        Point turret;              // where it stood
        bool incremental = false;  // also when one of several was
    };
    SetCoordinates shiftOn_;  // the G50 that set shift_

    Place compensationOn_;      // the G41 or G42 in force
    int spindleAxisSaid_ = -1;  // the tool call for which it was
    Place cycleStated_;         // the movement code that is a cycle and in force
    Place surfaceSpeedOn_;      // the G96 in force
    ThreadingFigures threading_;
    ThreadPass lastThread_;
    double cycleStartAngle_ = 0;            // of the threads of the cycle at hand, rad
    double threadEndAngle_ = 0;             // spindle angle at which the last thread move ended, rad
    BlockId surfaceThreadSaid_ = kNoBlock;  // the G96 about which a thread has complained
    Reading reading_ = Reading::Program;
    bool asProgrammed_ = false;            // the profile is read for its shape on the drawing
    BlockId cancelsInProfile_ = kNoBlock;  // then the block with its G40, if it has one
    BlockId cycleBlock_ = kNoBlock;
    std::uint16_t pass_ = 0;
    double roughingDepth_ = 0;  // U of the first of two G71 blocks, on radius
    double facingDepth_ = 0;    // W of the first of two G72 blocks
    double roughingRetract_;
    Point patternStock_;     // U on radius and W of the first of two G73 blocks
    int patternPasses_ = 0;  // R of it
    double peckRetract_;     // R of the first of two G74 or G75 blocks
};

}  // namespace firstoff
