#include <algorithm>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/setup/blank_check.h"
#include "sim/setup/body_reader.h"
#include "sim/setup/chuck_reader.h"
#include "sim/setup/drive_reader.h"
#include "sim/setup/material_reader.h"
#include "sim/setup/setup.h"
#include "sim/setup/setup_check.h"
#include "sim/setup/setup_document.h"
#include "sim/setup/setup_keys.h"
#include "sim/setup/setup_library.h"
#include "sim/setup/stock_reader.h"
#include "sim/setup/support_reader.h"
#include "sim/setup/table_reading.h"
#include "sim/setup/tool_block.h"
#include "sim/setup/tool_reader.h"
#include "sim/setup/turret_reader.h"
#include "sim/setup/wanted_part_reader.h"

namespace firstoff {

namespace {

class SetupReading {
public:
    SetupReading(std::string_view text, std::string name, const ReadSetupFile& readFile)
        : document_(readSetupDocument(text)) {
        readable_ = document_.findings.empty();
        if (readable_) library_.take(document_, readFile);
        setup_.name = std::move(name);
        setup_.findings = document_.findings;
    }

    Setup run() {
        if (readable_) {
            for (Finding& finding : checkAgainstKeys(document_)) setup_.findings.push_back(std::move(finding));
        }
        readMachine();
        readTurret();
        setup_.chuck = readChuck(table("chuck"), setup_.findings);
        readSupports();
        setup_.stock = readStock(table("stock"), setup_.chuck.jawLength, setup_.findings);
        setup_.material =
            readMaterial(setup_.stock.material, spanOf(table("stock"), "material"), table("material"), setup_.findings);
        checkInsideGrip(table("chuck"));
        readDrawing();
        for (const SetupTable& table : document_.tables) readRepeated(table);
        if (readable_) checkMachine();
        checkBlankInChuck(setup_);
        std::stable_sort(setup_.tools.begin(), setup_.tools.end(),
                         [](const Tool& a, const Tool& b) { return a.station < b.station; });
        std::stable_sort(setup_.offsets.begin(), setup_.offsets.end(),
                         [](const Offset& a, const Offset& b) { return a.number < b.number; });
        std::stable_sort(setup_.machineCodes.begin(), setup_.machineCodes.end(),
                         [](const MachineCode& a, const MachineCode& b) { return a.number < b.number; });
        std::stable_sort(setup_.overrides.holds.begin(), setup_.overrides.holds.end(),
                         [](const auto& a, const auto& b) { return a.line < b.line; });
        tellLibraryInSetup();
        sortByPlace(setup_.findings);
        return std::move(setup_);
    }

private:
    const SetupTable& table(std::string_view name) {
        for (const SetupTable& t : document_.tables) {
            if (t.name == name) return t;
        }
        missing_.name = name;  // every key of it falls back to its safe value
        return missing_;
    }

    void stop(std::string_view code, SourceSpan span, std::string message, std::string remedy) {
        setup_.findings.push_back(setupStop(code, span, std::move(message), std::move(remedy)));
    }

    static Range rangeIn(const SetupTable& table, std::string_view key, Range fallback) {
        const SetupEntry* entry = table.usable(key);
        return entry ? Range{entry->value.list[0], entry->value.list[1]} : fallback;
    }

    static std::string textIn(const SetupTable& table, std::string_view key) {
        const SetupEntry* entry = table.usable(key);
        return entry ? entry->value.text : std::string();
    }

    static bool flagIn(const SetupTable& table, std::string_view key, bool fallback) {
        const SetupEntry* entry = table.usable(key);
        return entry ? entry->value.flag : fallback;
    }

    // A bit for each level: bit 1 for level 1, which is also what `true` says.
    static std::uint16_t levelsIn(const SetupTable& table, std::string_view key) {
        const SetupEntry* entry = table.usable(key);
        if (entry == nullptr) return 0;
        if (entry->value.form == SetupValue::Form::Flag) return entry->value.flag ? 1u << 1 : 0;
        unsigned levels = 0;
        for (double level : entry->value.list) {
            if (level >= 1 && level <= 9) levels |= 1u << static_cast<unsigned>(level);
        }
        return static_cast<std::uint16_t>(levels);
    }

    static SourceSpan spanOf(const SetupTable& table, std::string_view key) {
        const SetupEntry* entry = table.find(key);
        return entry ? entry->value.span : table.span;
    }

    void readMachine() {
        const SetupTable& t = table("machine");
        Machine& m = setup_.machine;
        m.name = textIn(t, "name");
        m.home = {numberIn(t, "home_z_mm"), numberIn(t, "home_x_mm") / 2};
        const Range x = rangeIn(t, "travel_x_mm", {-2 * m.home.r, 0});
        m.travelR = {x.min / 2, x.max / 2};
        m.travelZ = rangeIn(t, "travel_z_mm", {-m.home.z, 0});
        readOtherReferences(t);
        m.rapidRMmPerMin = numberIn(t, "rapid_x_mm_per_min");
        m.rapidZMmPerMin = numberIn(t, "rapid_z_mm_per_min");
        m.rapidPerAxis = textIn(t, "rapid") != "straight";
        m.rapidPathSaid = t.usable("rapid") != nullptr;
        m.maxFeedMmPerMin = numberIn(t, "max_feed_mm_per_min");
        m.maxRevPerMin = numberIn(t, "max_rev_per_min");
        m.indexTimeS = numberIn(t, "index_time_s");
        m.stations = static_cast<int>(numberIn(t, "stations"));
        m.turretRadius = numberIn(t, "turret_diameter_mm") / 2;
        m.turretThickness = numberIn(t, "turret_thickness_mm");
        m.axes = readAxisDynamics(t, setup_.findings);
        m.spindle = readSpindleDrive(table("spindle"), setup_.findings);
        m.times = readOtherTimes(table("times"));
        setup_.overrides = readOverrides(table("overrides"));
    }

    // In machine coordinates, like the travel.
    void readOtherReferences(const SetupTable& t) {
        constexpr const char* kNames[] = {"second", "third", "fourth"};
        constexpr const char* kOneAxisOnly[] = {later("The second reference position is given for one axis only."),
                                                later("The third reference position is given for one axis only."),
                                                later("The fourth reference position is given for one axis only.")};
        for (std::size_t i = 0; i < std::size(kNames); ++i) {
            const std::string x = fmt::format("{}_reference_x_mm", kNames[i]);
            const std::string z = fmt::format("{}_reference_z_mm", kNames[i]);
            if (t.usable(x) && t.usable(z)) {
                setup_.machine.otherReferences[i] = setup_.machine.home + Point{numberIn(t, z), numberIn(t, x) / 2};
            } else if (t.find(x) || t.find(z)) {
                stop("setup-missing-key", t.span, tr(kOneAxisOnly[i]), say("Write both {} and {}, or neither.", x, z));
            }
        }
    }

    void checkMachine() {
        const SetupTable& t = table("machine");
        const Machine& m = setup_.machine;
        homeWithin(t, "travel_x_mm", 2 * m.travelR.min, 2 * m.travelR.max);
        homeWithin(t, "travel_z_mm", m.travelZ.min, m.travelZ.max);
    }

    void homeWithin(const SetupTable& t, std::string_view key, double min, double max) {
        if (min <= 0 && max >= 0) return;
        stop("setup-home-outside-travel", spanOf(t, key),
             say("Travel runs from {:g} to {:g} and leaves out the reference position, which is 0.", min, max),
             tr("Machine coordinates count from the reference position; towards the chuck and the axis they are "
                "negative."));
    }

    void readTurret() {
        const SetupTable& t = table("turret");
        const bool given = &t != &missing_;
        if (given) {
            setup_.turret = firstoff::readTurret(t, setup_.machine, setup_.findings);
            setup_.toolBlock = readCommonBlock(t, setup_.findings);
        }
        // A gang plate has no disc.
        if (given && setup_.turret->kind == Turret::Kind::Gang) return;
        const SetupTable& machine = table("machine");
        if (&machine == &missing_ || machine.find("turret_diameter_mm") || document_.incomplete) return;
        stop("setup-missing-key", machine.span, tr("[machine] does not say turret_diameter_mm."),
             tr("Add turret_diameter_mm (a number); only a gang plate has no disc."));
    }

    // What is drawn or was tried before may have a bore that is not known yet.
    void checkInsideGrip(const SetupTable& t) {
        const Stock& stock = setup_.stock;
        const bool rolled = stock.outerRadius > 0;
        if (setup_.chuck.grip != Chuck::Grip::Inside || !rolled || stock.boreRadius > 0) return;
        stop("setup-grip", spanOf(t, "grip"), tr("The jaws are said to grip from inside, but the blank has no bore."),
             tr("Write grip = \"outside\", or the bore of the blank."));
    }

    void readSupports() {
        if (const SetupTable& t = table("tailstock"); &t != &missing_) {
            setup_.tailstock = readTailstock(t, setup_.findings);
        }
        if (const SetupTable& t = table("steady_rest"); &t != &missing_) {
            setup_.steadyRest = readSteadyRest(t, setup_.findings);
        }
        const SetupTable& second = table("second_spindle");
        if (&second == &missing_) return;
        const SetupTable& chuck = table("second_spindle.chuck");
        if (&chuck == &missing_ && !document_.incomplete) {
            stop("setup-missing-table", second.span, tr("The second spindle has no table [second_spindle.chuck]."),
                 tr("Add it, with the keys of [chuck]."));
        }
        setup_.secondSpindle = readSecondSpindle(second, chuck, setup_.findings);
    }

    void readRepeated(const SetupTable& t) {
        if (t.name == "tool") return takeTool(t);
        if (t.name == "offset") return takeOffset(t);
        if (t.name == "control") return readControl(t);
        if (t.name == "near_miss") return readNearMiss(t);
        if (t.name == "feed_hold") return takeFeedHold(t);
        if (t.name == "body") return takeBody(t);
        if (t.name == "dimension") return takeDimension(t);
        if (const auto number = machineCodeNumber(t.name)) return takeMachineCode(t, *number);
        if (workOffsetOf(t.name) >= 0) readWorkOffset(t);
    }

    void readDrawing() {
        const SetupTable& t = table("drawing");
        if (&t != &missing_) setup_.wanted = readWantedPart({t, setup_.findings});
    }

    void takeDimension(const SetupTable& t) {
        setup_.wanted.dimensions.push_back(readDimension({t, setup_.findings}, setup_.wanted.grade != 0));
    }

    void readWorkOffset(const SetupTable& t) {
        const auto index = static_cast<std::size_t>(workOffsetOf(t.name));
        const SetupEntry* fromBar = t.usable("z_from_bar_end_mm");
        const SetupEntry* fromChuck = t.usable("z_from_chuck_face_mm");
        const bool wrong = t.find("z_from_bar_end_mm") && t.find("z_from_chuck_face_mm");
        const bool none = !t.find("z_from_bar_end_mm") && !t.find("z_from_chuck_face_mm");
        if (wrong || none) {
            stop("setup-datum", t.span,
                 wrong ? say("[{}] must say where Z0 lies exactly once; it says it twice.", t.name)
                       : say("[{}] must say where Z0 lies exactly once; it says it nowhere.", t.name),
                 tr("Write z_from_bar_end_mm (0: Z0 at the end of the bar, -1: one mm inside it) or "
                    "z_from_chuck_face_mm."));
        }
        if (!fromBar && !fromChuck) return;
        const double z = fromBar ? setup_.stock.frontZ + fromBar->value.number : fromChuck->value.number;
        setup_.workOffsets[index] = {z, numberIn(t, "x_mm") / 2};
        setup_.workOffsetGiven[index] = true;
    }

    void takeTool(const SetupTable& t) {
        Tool tool = readTool(t, setup_.findings);
        if (tool.station == 0) return;  // missing or wrong, said already
        readToolBlock(t, setup_, tool);
        if (tool.station > setup_.machine.stations) {
            stop("setup-station", spanOf(t, "station"),
                 say("Station {} is asked for, the turret has {}.", tool.station, setup_.machine.stations),
                 tr("Correct the station of the tool or stations of the machine."));
        } else if (const Tool* other = setup_.toolAt(tool.station)) {
            stop("setup-duplicate-station", spanOf(t, "station"),
                 say("Station {} already holds \"{}\" (line {}); \"{}\" was left out.", tool.station, other->name,
                     other->span.line, tool.name),
                 tr("Give each tool a station of its own."));
        } else {
            setup_.tools.push_back(std::move(tool));
        }
    }

    void takeOffset(const SetupTable& t) {
        Offset offset;
        offset.number = static_cast<int>(numberIn(t, "number"));
        if (offset.number == 0) return;  // missing or wrong, said already
        offset.wear = {numberIn(t, "wear_z_mm"), numberIn(t, "wear_x_mm") / 2};
        if (t.find("gauge_x_mm") && t.find("gauge_z_mm")) {
            offset.gauge = Point{numberIn(t, "gauge_z_mm"), numberIn(t, "gauge_x_mm") / 2};
        } else if (t.find("gauge_x_mm") || t.find("gauge_z_mm")) {
            stop("setup-missing-key", t.span, tr("The offset gives the gauge length of one axis only."),
                 tr("Write both gauge_x_mm and gauge_z_mm, or neither (then the tool's true place is taken)."));
        }
        if (t.usable("nose_radius_mm")) offset.noseRadius = numberIn(t, "nose_radius_mm");
        if (t.usable("tip_number")) offset.tipNumber = static_cast<int>(numberIn(t, "tip_number"));
        if (setup_.offset(offset.number)) {
            stop("setup-duplicate-offset", spanOf(t, "number"),
                 say("Offset {} is given twice; the first is taken.", offset.number), tr("Keep one of them."));
        } else {
            setup_.offsets.push_back(offset);
        }
    }

    void takeMachineCode(const SetupTable& t, int number) {
        if (setup_.machineCode(number) != nullptr) {
            return stop("setup-duplicate-m-code", t.span, say("M{:02} is given twice; the first is taken.", number),
                        tr("Keep one of them."));
        }
        MachineCode code;
        code.number = number;
        code.meaning = textIn(t, "meaning");
        code.timeS = numberIn(t, "time_s");
        if (t.usable("spindle")) {
            const std::string spindle = textIn(t, "spindle");
            code.spindle = spindle == "forward"   ? SpindleDirection::Forward
                           : spindle == "reverse" ? SpindleDirection::Reverse
                                                  : SpindleDirection::Stopped;
        }
        if (t.usable("coolant")) code.coolant = textIn(t, "coolant") == "on";
        if (t.usable("does")) code.action = actionNamed(textIn(t, "does"));
        checkAction(t, code.action);
        code.span = t.span;
        setup_.machineCodes.push_back(std::move(code));
    }

    static MachineAction actionNamed(std::string_view does) {
        static constexpr std::pair<std::string_view, MachineAction> kActions[] = {
            {"tailstock-advance", MachineAction::TailstockAdvance},
            {"tailstock-retract", MachineAction::TailstockRetract},
            {"chuck-open", MachineAction::ChuckOpen},
            {"chuck-close", MachineAction::ChuckClose},
            {"second-spindle-approach", MachineAction::SecondSpindleApproach},
            {"second-spindle-retract", MachineAction::SecondSpindleRetract},
            {"second-spindle-grip", MachineAction::SecondSpindleGrip},
            {"second-spindle-release", MachineAction::SecondSpindleRelease},
            {"second-spindle-turns-alike", MachineAction::SecondSpindleTurnsAlike},
            {"second-spindle-stop", MachineAction::SecondSpindleStop}};
        for (const auto& [name, action] : kActions) {
            if (name == does) return action;
        }
        return MachineAction::None;
    }

    void checkAction(const SetupTable& t, MachineAction action) {
        using enum MachineAction;
        const bool tailstock = action == TailstockAdvance || action == TailstockRetract;
        const bool second = action >= SecondSpindleApproach;
        if ((!tailstock || setup_.tailstock) && (!second || setup_.secondSpindle)) return;
        stop("setup-m-code-moves-nothing", spanOf(t, "does"),
             tailstock ? say("[{}] moves the tailstock, but the set-up has none.", t.name)
                       : say("[{}] moves the second spindle, but the set-up has none.", t.name),
             say("Add the table [{}], or take does out.", tailstock ? "tailstock" : "second_spindle"));
    }

    void readNearMiss(const SetupTable& t) { setup_.nearMiss = {numberIn(t, "rapid_mm"), numberIn(t, "feed_mm")}; }

    void takeFeedHold(const SetupTable& t) {
        // A line that is missing or wrong has been said already.
        if (const double line = numberIn(t, "line"); line > 0) {
            setup_.overrides.holds.push_back(
                {static_cast<std::uint32_t>(line), numberIn(t, "seconds"), spanOf(t, "line")});
        }
    }

    void takeBody(const SetupTable& t) {
        if (auto body = readBody(t, setup_)) setup_.extraBodies.push_back(std::move(*body));
    }

    void readControl(const SetupTable& t) {
        ControlOptions& c = setup_.control;
        const std::string system = textIn(t, "code_system");
        c.codeSystem = system == "C" ? CodeSystem::C : system == "B" ? CodeSystem::B : CodeSystem::A;
        c.compensateInRoughing = flagIn(t, "compensate_in_roughing", c.compensateInRoughing);
        c.compensationStart = textIn(t, "compensation_start") == "B" ? CompensationStart::B : CompensationStart::A;
        c.blockSkipLevels = levelsIn(t, "block_skip");
        c.optionalStop = flagIn(t, "optional_stop", c.optionalStop);
        c.arcClosureMm = numberIn(t, "arc_closure_mm");
        c.roughingRetractMm = numberIn(t, "roughing_retract_mm");
        c.peckClearanceMm = numberIn(t, "peck_clearance_mm");
        c.peckFullRetract = flagIn(t, "peck_full_retract", c.peckFullRetract);
        c.plainCorners = textIn(t, "corner_words") == "plain";
        c.threadChamferLeads = numberIn(t, "thread_chamfer_leads");
        if (t.usable("offset_cancel")) {
            c.offsetCancel = textIn(t, "offset_cancel") == "all" ? ControlOptions::OffsetCancel::All
                                                                 : ControlOptions::OffsetCancel::Wear;
        }
        if (t.usable("whole_numbers")) {
            c.wholeNumbers = textIn(t, "whole_numbers") == "increments" ? ControlOptions::WholeNumbers::Increments
                                                                        : ControlOptions::WholeNumbers::Units;
        }
        c.radiusProgramming = textIn(t, "x_programming") == "radius";
        c.maxBlocks = static_cast<long>(numberIn(t, "max_blocks"));
    }

    // Places in machine and tool files become those of the keys that name the files.
    void tellLibraryInSetup() {
        for (Finding& finding : setup_.findings) library_.tellInSetup(finding);
        Setup& s = setup_;
        library_.tellInSetup(s.stock.sizeSpan);
        library_.tellInSetup(s.stock.placeSpan);
        library_.tellInSetup(s.machine.spindle.span);
        library_.tellInSetup(s.material.span);
        if (s.turret) library_.tellInSetup(s.turret->span);
        if (s.tailstock) library_.tellInSetup(s.tailstock->tipSpan);
        if (s.secondSpindle) library_.tellInSetup(s.secondSpindle->span);
        if (s.steadyRest) library_.tellInSetup(s.steadyRest->span);
        for (ExtraBody& body : s.extraBodies) library_.tellInSetup(body.span);
        for (MachineCode& code : s.machineCodes) library_.tellInSetup(code.span);
        for (Tool& tool : s.tools) library_.tellInSetup(tool.span);
    }

    SetupDocument document_;
    SetupLibrary library_;
    SetupTable missing_;
    Setup setup_;
    bool readable_ = false;
};

}  // namespace

Setup readSetup(std::string_view text, std::string name, const ReadSetupFile& readFile) {
    return SetupReading(text, std::move(name), readFile).run();
}

}  // namespace firstoff
