#include "sim/trial/mistake.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <set>
#include <string_view>

#include "sim/base/say.h"
#include "sim/control/codes.h"
#include "sim/setup/offset_page.h"
#include "sim/trial/what_if.h"

namespace firstoff {

namespace {

using Kind = Mistake::Kind;

constexpr double kBelowCentreMm = 0.5;
constexpr double kJawsOutMm = 20;
constexpr double kShortBarMm = 10;
constexpr double kOtherNoseMm[] = {0.4, 0.8, 1.2};  // of the common ones the first that is another

bool isMeasure(char letter) {
    return std::string_view("XZUWRIKF").find(letter) != std::string_view::npos;
}

double otherNose(double nose) {
    for (const double other : kOtherNoseMm) {
        if (std::abs(other - nose) > 0.05) return other;
    }
    return 0;
}

class Listing {
public:
    explicit Listing(const Trial& sound) : t_(sound), program_(sound.program) {}

    std::vector<Mistake> run(std::size_t most) {
        std::set<BlockId> carriedOut;
        for (const Step& step : t_.toolpath.steps) {
            if (program_.isOwn(step.block)) carriedOut.insert(step.block);
        }
        for (const BlockId block : carriedOut) {
            if (all_.size() >= most) break;
            inBlock(block);
        }
        atTools();
        atBar();
        return std::move(all_);
    }

private:
    void inBlock(BlockId id) {
        const Block& block = program_.blocks[id];
        if (block.kind != Block::Kind::Words) return;
        for (const Word* word = program_.begin(block); word != program_.end(block); ++word) {
            if (word->form != Word::Form::Number) continue;
            if (isMeasure(word->letter)) inFigure(id, *word);
            if (word->letter == 'T') inToolCall(id, *word);
            if (word->letter == 'G') inCode(id, *word);
        }
    }

    // A word written as another one; dropped where that is nothing new to the control.
    void rewrite(Kind kind, BlockId block, const Word& word, std::string written) {
        Mistake m;
        m.kind = kind;
        m.block = block;
        m.from = word.offset;
        m.to = word.offset + word.length;
        const std::string before(program_.textOf(word));
        m.told = written.empty() ? say("{} left out", before) : say("{} keyed as {}", before, written);
        m.written = std::move(written);
        all_.push_back(std::move(m));
    }

    void inFigure(BlockId block, const Word& word) {
        const std::string text(program_.textOf(word));
        const std::size_t point = text.find('.');
        if (word.value == 0) return;
        const bool increments = t_.setup.control.wholeNumbers == ControlOptions::WholeNumbers::Increments;
        if (point != std::string::npos && !word.comma) {
            std::string lost = text;
            lost.erase(point, 1);
            // 24. without its point is the same 24 where the control counts whole units.
            const bool another = increments || std::abs(std::strtod(lost.c_str() + 1, nullptr) - word.value) > 1e-9;
            if (another) rewrite(Kind::PointLost, block, word, lost);
            // One place to the left, over a digit.
            if (point >= 2 && text[point - 1] >= '0' && text[point - 1] <= '9' && std::abs(word.value) >= 1) {
                std::string moved = text;
                std::swap(moved[point - 1], moved[point]);
                rewrite(Kind::PointMoved, block, word, moved);
            }
        }
        if (word.letter == 'F' || word.letter == 'R' || word.comma) return;
        const std::size_t minus = text.find('-');
        std::string other = text;
        if (minus != std::string::npos) {
            other.erase(minus, 1);
        } else {
            other = text.substr(0, 1);
            other += '-';
            other += text.substr(1);
        }
        rewrite(Kind::SignLost, block, word, other);
    }

    void inToolCall(BlockId block, const Word& word) {
        const auto call = std::find_if(t_.toolpath.calls.begin(), t_.toolpath.calls.end(),
                                       [&](const ToolCall& c) { return c.block == block; });
        if (call == t_.toolpath.calls.end() || call->offset == 0) return;
        const auto other = std::find_if(t_.toolpath.calls.begin(), t_.toolpath.calls.end(), [&](const ToolCall& c) {
            return c.offset > 0 && c.offset != call->offset && c.toolIndex >= 0;
        });
        if (other == t_.toolpath.calls.end()) return;
        ToolCall wrong = *call;
        wrong.offset = other->offset;
        rewrite(Kind::OtherOffset, block, word, toolWord(wrong));
    }

    void inCode(BlockId id, const Word& word) {
        const CodeEntry* code =
            codeEntry('G', static_cast<int>(std::lround(10 * word.value)), t_.setup.control.codeSystem);
        if (code == nullptr) return;
        if (code->order == Order::CompensationLeft || code->order == Order::CompensationRight) {
            rewrite(Kind::OtherSide, id, word, code->order == Order::CompensationLeft ? "G42" : "G41");
            rewrite(Kind::NoCompensation, id, word, "");
        }
        const Block& block = program_.blocks[id];
        if (code->order != Order::CoordinateSetting) return;
        for (const Word* s = program_.begin(block); s != program_.end(block); ++s) {
            if (s->letter != 'S') continue;
            Mistake m;
            m.kind = Kind::NoClamp;
            m.block = id;
            m.from = std::min(word.offset, s->offset);
            m.to = std::max(word.offset + word.length, s->offset + s->length);
            m.told = say("{} left out", program_.text.substr(m.from, m.to - m.from));
            all_.push_back(std::move(m));
        }
    }

    void atTools() {
        std::set<int> told;
        for (const ToolCall& call : t_.toolpath.calls) {
            if (call.toolIndex < 0 || call.offset == 0 || !told.insert(call.toolIndex).second) continue;
            const Tool& tool = t_.setup.tools[static_cast<std::size_t>(call.toolIndex)];
            Mistake m;
            m.station = call.station;
            m.offset = call.offset;
            m.kind = Kind::CentreHeight;
            m.figure = -kBelowCentreMm;
            m.told = say("T{} {} stands {} mm below centre", tool.station, tool.name, kBelowCentreMm);
            all_.push_back(m);
            if (!hasNose(tool)) continue;
            m.kind = Kind::NoseRadius;
            m.figure = otherNose(tool.noseRadius);
            m.told =
                say("offset {}: nose radius {} entered, the insert has {}", call.offset, m.figure, tool.noseRadius);
            all_.push_back(m);
            m.kind = Kind::OtherInsert;
            m.told = say("T{}: an insert of nose radius {} clamped in instead of {}", tool.station, m.figure,
                         tool.noseRadius);
            all_.push_back(m);
            m.kind = Kind::TipNumber;
            m.figure = tool.tipNumber == 3 ? 2 : 3;
            m.told = say("offset {}: tip {:.0f} entered, the tool is tip {}", call.offset, m.figure, tool.tipNumber);
            all_.push_back(m);
        }
    }

    void atBar() {
        Mistake m;
        if (t_.setup.chuck.jawLength > 0) {
            m.kind = Kind::Jaws;
            m.figure = kJawsOutMm;
            m.told = say("the jaws reach {:.0f} mm further out", kJawsOutMm);
            all_.push_back(m);
        }
        if (t_.setup.stock.shape == Stock::Shape::Round) {
            m.kind = Kind::ShortBar;
            m.figure = kShortBarMm;
            m.told = say("the bar sticks out {:.0f} mm less, the datum stays", kShortBarMm);
            all_.push_back(m);
        }
    }

    const Trial& t_;
    const Program& program_;
    std::vector<Mistake> all_;
};

void spoil(Setup& setup, const Mistake& m) {
    switch (m.kind) {
        case Kind::NoseRadius:
            offsetEntry(setup, m.offset).noseRadius = m.figure;
            return;
        case Kind::TipNumber:
            offsetEntry(setup, m.offset).tipNumber = static_cast<int>(m.figure);
            return;
        case Kind::CentreHeight:
        case Kind::OtherInsert: {
            WhatIf whatIf;
            const bool insert = m.kind == Kind::OtherInsert;
            whatIf.edges.push_back({m.station, insert ? m.figure : -1, insert ? 0 : m.figure});
            // What was entered on the offset page stays: nobody told the control.
            if (insert) {
                Offset& entered = offsetEntry(setup, m.offset);
                const Tool* tool = setup.toolAt(m.station);
                if (!entered.noseRadius && tool != nullptr) entered.noseRadius = tool->noseRadius;
            }
            setup = withChanges(std::move(setup), whatIf);
            return;
        }
        case Kind::Jaws:
            setup.chuck.jawLength += m.figure;
            for (Chuck::Step& step : setup.chuck.steps) step.length += m.figure;
            return;
        case Kind::ShortBar:
            setup.stock.frontZ -= m.figure;
            setup.stock.backZ -= m.figure;
            return;
        default:
            return;
    }
}

// All files of the program again, its own with other bytes in one place.
Program rewritten(const Program& sound, const Mistake& m) {
    std::string text(sound.textOfPart(0));
    text.replace(m.from, m.to - m.from, m.written);
    Program program = readProgram(std::move(text), sound.name);
    for (std::size_t part = 1; part < sound.parts.size(); ++part) {
        appendProgram(program, sound.textOfPart(static_cast<std::uint16_t>(part)), sound.parts[part].name,
                      sound.parts[part].number);
    }
    return program;
}

}  // namespace

const char* name(Mistake::Kind kind) {
    switch (kind) {
        case Kind::PointLost:
            return tr("decimal point lost");
        case Kind::PointMoved:
            return tr("decimal point one place off");
        case Kind::SignLost:
            return tr("wrong sign");
        case Kind::OtherOffset:
            return tr("wrong offset");
        case Kind::NoClamp:
            return tr("speed clamp missing");
        case Kind::OtherSide:
            return tr("compensation on the wrong side");
        case Kind::NoCompensation:
            return tr("compensation missing");
        case Kind::NoseRadius:
            return tr("wrong nose radius entered");
        case Kind::TipNumber:
            return tr("wrong tip number entered");
        case Kind::CentreHeight:
            return tr("edge off centre height");
        case Kind::OtherInsert:
            return tr("wrong insert");
        case Kind::Jaws:
            return tr("jaws set too far out");
        case Kind::ShortBar:
            return tr("bar set too far in");
    }
    return "";
}

std::vector<Mistake> possibleMistakes(const Trial& sound, std::size_t most) {
    return Listing(sound).run(most);
}

SpoiltJob withMistake(const Trial& sound, const Mistake& mistake) {
    SpoiltJob job{sound.program, sound.setup};
    if (mistake.block != kNoBlock) {
        job.program = rewritten(sound.program, mistake);
    } else {
        spoil(job.setup, mistake);
    }
    return job;
}

}  // namespace firstoff
