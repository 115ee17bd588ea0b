#include "tests/control/case_file.h"

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <sstream>
#include <stdexcept>

#include "sim/base/units.h"
#include "sim/control/toolpath.h"
#include "sim/program/program.h"
#include "tests/support/shop.h"

namespace firstoff::cases {

namespace {

// Figures in the case files are rounded to three decimals.
constexpr double kRounded = 0.0006;

struct ExpectedMove {
    std::string kind;
    std::map<std::string, double> figures;
    std::string compensation;
};

struct ExpectedFinding {
    std::string code;
    std::uint32_t column = 0;  // 0: any
    bool unproven = false;
    bool met = false;
};

struct LineExpectations {
    std::vector<ExpectedMove> moves;
    std::vector<ExpectedFinding> findings;
    std::map<std::string, double> state;
    std::vector<std::string> stops;
    bool noMove = false;
};

struct CaseFile {
    Program program;
    ControlOptions options;
    std::map<std::uint32_t, LineExpectations> lines;  // by line, from 1
};

// One lathe for all cases. Datum G54 on the axis, G55 10 mm nearer to the chuck, G59 not entered, G54.1 P1
// 20 mm nearer, P2 not entered. The second reference position is X-40 Z-50 in machine coordinates, the third not
// entered.
Setup lathe() {
    Setup setup = shop::barStock(60, 100, 0);
    setup.workOffsets[1].z -= 10;
    setup.workOffsetGiven[5] = false;
    setup.workOffsets[6].z -= 20;
    setup.workOffsetGiven[7] = false;
    setup.machine.otherReferences[0] = setup.machine.home + Point{-50, -20};
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addTurningTool(setup, 2, 'D', 0.4, 93);
    shop::addTurningTool(setup, 3, 'C', 0);  // an edge without nose radius
    shop::addBoringBar(setup, 4, 'C', 0.4);
    shop::addGroovingTool(setup, 6, 3, 0.2);
    shop::addDrill(setup, 8, 12);
    shop::addTap(setup, 9, 12, 1.75);
    shop::addThreadingTool(setup, 10);
    shop::addInsideThreadingTool(setup, 11);
    shop::addThreadingTool(setup, 12).pitch = 1.5;  // a full profile, for one pitch
    Offset worn;                                    // offset 11: tool 1 with wear, outside diameters 0.1 larger
    worn.number = 11;
    worn.gauge = setup.toolAt(1)->tip;
    worn.wear = {0.02, 0.05};
    Offset wrongRadius;  // offset 12: tool 1 with the nose radius of another insert
    wrongRadius.number = 12;
    wrongRadius.gauge = setup.toolAt(1)->tip;
    wrongRadius.noseRadius = 0.4;
    Offset wrongTip;  // offset 13: tool 1 with the tip number of a bore
    wrongTip.number = 13;
    wrongTip.gauge = setup.toolAt(1)->tip;
    wrongTip.tipNumber = 2;
    setup.offsets = {worn, wrongRadius, wrongTip};
    setup.machineCodes = {{7, "coolant through the turret", 0, {}, true, {}, {}},
                          {19, "spindle oriented", 1, SpindleDirection::Stopped, {}, {}, {}},
                          {33, "spindle forward with the bar feed", 0.5, SpindleDirection::Forward, {}, {}, {}},
                          {63, "part catcher forward", 2, {}, {}, {}, {}},
                          {64, "part catcher back", 0, {}, {}, {}, {}}};
    return setup;
}

[[noreturn]] void unreadable(const std::string& file, std::uint32_t line, const std::string& text) {
    throw std::runtime_error(fmt::format("{}:{}: cannot read the expectation '{}'", file, line, text));
}

bool isFigure(const std::string& token) {
    return token.size() > 1 && std::string("XZFIKSQ").find(token[0]) != std::string::npos &&
           std::string("+-.0123456789").find(token[1]) != std::string::npos;
}

ExpectedMove readMove(const std::string& kind, std::istringstream& in) {
    ExpectedMove move;
    move.kind = kind;
    for (std::string token; in >> token;) {
        if (isFigure(token)) {
            move.figures[token.substr(0, 1)] = std::stod(token.substr(1));
        } else if (token == "pass" || token == "change") {
            in >> move.figures[token];
        } else if (token == "comp") {
            in >> move.compensation;
        } else {
            throw std::runtime_error("odd figure " + token);
        }
    }
    return move;
}

ExpectedFinding readFinding(std::istringstream& in) {
    ExpectedFinding finding;
    in >> finding.code;
    for (std::string token; in >> token;) {
        if (token == "at") {
            in >> finding.column;
        } else if (token == "unproven") {
            finding.unproven = true;
        } else {
            throw std::runtime_error("odd word " + token);
        }
    }
    return finding;
}

void readExpectation(LineExpectations& line, std::istringstream& in) {
    std::string what;
    in >> what;
    if (what == "finding") {
        line.findings.push_back(readFinding(in));
    } else if (what == "no") {
        line.noMove = true;
    } else if (what == "state") {
        for (std::string name; in >> name;) {
            if (!(in >> line.state[name])) throw std::runtime_error("no value for " + name);
        }
    } else if (what == "stop" || what == "optional-stop" || what == "end") {
        line.stops.push_back(what);
    } else {
        line.moves.push_back(readMove(what, in));
    }
}

void readOption(ControlOptions& options, const std::string& name, std::istringstream& in) {
    if (name == "max-blocks") {
        in >> options.maxBlocks;
    } else if (name == "block-skip") {
        for (int level = 0; in >> level;) options.blockSkipLevels |= static_cast<std::uint16_t>(1u << level);
        if (options.blockSkipLevels == 0) options.blockSkipLevels = 1u << 1;
    } else if (name == "system-b") {
        options.codeSystem = CodeSystem::B;
    } else if (name == "system-c") {
        options.codeSystem = CodeSystem::C;
    } else if (name == "short-pecks") {
        options.peckFullRetract = false;
    } else if (name == "no-optional-stop") {
        options.optionalStop = false;
    } else if (name == "offset-cancel-wear") {
        options.offsetCancel = ControlOptions::OffsetCancel::Wear;
    } else if (name == "offset-cancel-all") {
        options.offsetCancel = ControlOptions::OffsetCancel::All;
    } else if (name == "whole-units") {
        options.wholeNumbers = ControlOptions::WholeNumbers::Units;
    } else if (name == "whole-increments") {
        options.wholeNumbers = ControlOptions::WholeNumbers::Increments;
    } else if (name == "radius-programming") {
        options.radiusProgramming = true;
    } else if (name == "plain-corners") {
        options.plainCorners = true;
    } else if (name == "compensate-in-roughing") {
        options.compensateInRoughing = true;
    } else if (name == "compensation-start-b") {
        options.compensationStart = CompensationStart::B;
    } else {
        throw std::runtime_error("no option " + name);
    }
}

CaseFile readCase(std::string program, const std::string& path) {
    CaseFile file;
    file.program = readProgram(std::move(program), path);
    std::uint32_t block = 0;
    for (const Comment& comment : file.program.comments) {
        while (block + 1 < file.program.blocks.size() && file.program.blocks[block + 1].offset <= comment.offset)
            ++block;
        std::string text = file.program.text.substr(comment.offset + 1, comment.length - 1);
        if (!text.empty() && text.back() == ')') text.pop_back();
        std::istringstream in(text);
        std::string verb;
        in >> verb;
        try {
            if (verb == "expect") readExpectation(file.lines[block + 1], in);
            if (verb == "option") {
                in >> verb;
                readOption(file.options, verb, in);
            }
        } catch (const std::exception&) {
            unreadable(path, block + 1, text);
        }
    }
    if (file.lines.empty()) throw std::runtime_error(path + " expects nothing");
    return file;
}

class Checker {
public:
    Checker(CaseFile file, Setup setup)
        : file_(std::move(file)), setup_(std::move(setup)), path_(interpret(file_.program, setup_)) {}

    std::vector<std::string> run() {
        for (auto& [line, expected] : file_.lines) {
            checkMoves(line, expected);
            checkState(line, expected);
            checkStops(line, expected);
        }
        for (const Finding& finding : file_.program.findings) checkFinding(finding);
        for (const Finding& finding : path_.findings) checkFinding(finding);
        for (const auto& [line, expected] : file_.lines) {
            for (const ExpectedFinding& finding : expected.findings) {
                if (!finding.met) fail(line, "no finding " + finding.code);
            }
        }
        checkContinuity();
        return failures_;
    }

private:
    void fail(std::uint32_t line, const std::string& what) {
        failures_.push_back(fmt::format("line {}: {}", line, what));
    }

    std::vector<const Move*> movesOf(std::uint32_t line) const {
        std::vector<const Move*> result;
        for (const Move& move : path_.moves) {
            if (move.block + 1 == line) result.push_back(&move);
        }
        return result;
    }

    MoveExtra extraOf(const Move& move) const {
        return move.extra < path_.extras.size() ? path_.extras[move.extra] : MoveExtra{};
    }

    std::map<std::string, double> figuresOf(const Move& move) const {
        const Point end = move.to + path_.programmedShift(move);
        return {{"X", 2 * end.r},
                {"Z", end.z},
                {"F", move.feed},
                {"I", move.centre.r - move.from.r},
                {"K", move.centre.z - move.from.z},
                {"S", move.seconds},
                {"Q", degrees(extraOf(move).startAngle)},
                {"change", extraOf(move).leadChange},
                {"pass", move.pass}};
    }

    std::string describe(const Move& move) const {
        const auto figures = figuresOf(move);
        return fmt::format("{} X{:.3f} Z{:.3f} F{:.3f} I{:.3f} K{:.3f} S{:.3f} Q{:.3f} pass {}", name(move.kind),
                           figures.at("X"), figures.at("Z"), figures.at("F"), figures.at("I"), figures.at("K"),
                           figures.at("S"), figures.at("Q"), move.pass);
    }

    void checkMoves(std::uint32_t line, const LineExpectations& expected) {
        if (expected.moves.empty() && !expected.noMove) return;
        const auto moves = movesOf(line);
        if (moves.size() != expected.moves.size()) {
            std::string all;
            for (const Move* move : moves) all += "\n    " + describe(*move);
            fail(line, fmt::format("{} moves where {} were expected{}", moves.size(), expected.moves.size(), all));
            return;
        }
        for (std::size_t i = 0; i < moves.size(); ++i) checkMove(line, *moves[i], expected.moves[i]);
    }

    void checkMove(std::uint32_t line, const Move& move, const ExpectedMove& expected) {
        bool same = expected.kind == name(move.kind);
        const auto figures = figuresOf(move);
        for (const auto& [letter, value] : expected.figures) same &= std::abs(figures.at(letter) - value) < kRounded;
        static const char* const kSides[] = {"off", "left", "right"};
        const char* side = kSides[static_cast<int>(move.compensation)];
        if (!expected.compensation.empty()) same &= expected.compensation == side;
        if (!same) {
            std::string wanted = expected.kind;
            for (const auto& [letter, value] : expected.figures) wanted += fmt::format(" {}{}", letter, value);
            fail(line, fmt::format("expected {} {}\n    found    {} {}", wanted, expected.compensation, describe(move),
                                   side));
        }
    }

    void checkState(std::uint32_t line, const LineExpectations& expected) {
        if (expected.state.empty()) return;
        const auto moves = movesOf(line);
        if (moves.empty()) return fail(line, "no move, so no state");
        const ModalState& modal = path_.modals.at(moves.back()->modal);
        const double turning = modal.spindle == SpindleDirection::Forward   ? 1
                               : modal.spindle == SpindleDirection::Reverse ? -1
                                                                            : 0;
        const std::map<std::string, double> state = {{"feed-per-rev", modal.feedPerRev},
                                                     {"feed", modal.feed},
                                                     {"surface-speed", modal.constantSurfaceSpeed},
                                                     {"speed", modal.speed},
                                                     {"clamp", modal.clampRevPerMin},
                                                     {"spindle", turning},
                                                     {"coolant", modal.coolant},
                                                     {"work-offset", modal.workOffset + 54},
                                                     {"inches", modal.inches}};
        for (const auto& [key, value] : expected.state) {
            const auto found = state.find(key);
            if (found == state.end()) throw std::runtime_error("no state " + key);
            if (std::abs(found->second - value) > kRounded) {
                fail(line, fmt::format("{} is {}, expected {}", key, found->second, value));
            }
        }
    }

    void checkStops(std::uint32_t line, const LineExpectations& expected) {
        static const char* const kNames[] = {"stop", "optional-stop", "end"};
        std::vector<std::string> found;
        for (const ProgramStop& stop : path_.stops) {
            if (stop.block + 1 == line) found.emplace_back(kNames[static_cast<int>(stop.kind)]);
        }
        if (!expected.stops.empty() && found != expected.stops) fail(line, "stops differ");
    }

    void checkFinding(const Finding& finding) {
        auto& expected = file_.lines[finding.span.line].findings;
        for (ExpectedFinding& e : expected) {
            if (e.met || e.code != finding.code) continue;
            e.met = true;
            if (e.column != 0 && e.column != finding.span.column) {
                fail(finding.span.line,
                     fmt::format("{} is at column {}, not {}", e.code, finding.span.column, e.column));
            }
            if (e.unproven != finding.unproven) {
                fail(finding.span.line, fmt::format("{} is {}unproven", e.code, finding.unproven ? "" : "not "));
            }
            if (finding.remedy.empty()) fail(finding.span.line, e.code + " has no remedy");
            return;
        }
        fail(finding.span.line, fmt::format("unexpected finding {}: {}", finding.code, finding.message));
    }

    // Whatever the program: each move begins where the one before it ended, to the bit.
    void checkContinuity() {
        Point at = setup_.machine.home;
        for (const Move& move : path_.moves) {
            if (distance(move.from, at) > 1e-9) fail(move.block + 1, "a move begins where none ended");
            at = move.to;
        }
    }

    CaseFile file_;
    Setup setup_;
    Toolpath path_;
    std::vector<std::string> failures_;
};

}  // namespace

std::vector<std::string> check(const std::string& pathInTree) {
    CaseFile file = readCase(shop::readFile(pathInTree), pathInTree);
    Setup setup = lathe();
    setup.control = file.options;
    return Checker(std::move(file), std::move(setup)).run();
}

std::vector<std::string> listed() {
    std::istringstream list(shop::readFile("tests/cases/list.txt"));
    std::vector<std::string> names;
    for (std::string name; std::getline(list, name);) names.push_back(name);
    return names;
}

Toolpath carryOut(const std::string& text) {
    const CaseFile file = readCase(text, "changed case");
    Setup setup = lathe();
    setup.control = file.options;
    return interpret(file.program, setup);
}

}  // namespace firstoff::cases
