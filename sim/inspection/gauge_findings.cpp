#include "sim/inspection/gauge_findings.h"

#include <fmt/format.h>

#include <cmath>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/inspection/correction_words.h"

namespace firstoff {

namespace {

using State = GaugedDimension::State;

// Less is not told.
constexpr double kToldMm = 0.0005;

bool isAngle(const GaugedDimension& g) {
    return g.wanted.kind == WantedDimension::Kind::Taper;
}
double inUnit(const GaugedDimension& g, double value) {
    return isAngle(g) ? degrees(value) : value;
}
std::string shown(const GaugedDimension& g, double value) {
    return fmt::format("{:.3f}{}", inUnit(g, value), isAngle(g) ? "°" : "");
}

std::string spoken(Point work) {
    return fmt::format("X{:.3f} Z{:.3f}", 2 * work.r, work.z);
}

}  // namespace

Finding& GaugeFindings::add(const char* code, const SourceSpan& span) {
    Finding finding;
    finding.severity = Severity::Warning;
    finding.code = code;
    finding.span = span;
    out_.push_back(std::move(finding));
    return out_.back();
}

Finding& GaugeFindings::atCut(const char* code, BlockId block, CutId cut, const SourceSpan& otherwise) {
    SourceSpan span = otherwise;
    if (block != kNoBlock) {
        span = {};
        span.line = block + 1;  // the trial makes it the line of its file
    }
    Finding& finding = add(code, span);
    if (isCutHere(cut) && cut < timeline_.moves.size()) finding.timeS = timeline_.moves[cut].t0;
    return finding;
}

void GaugeFindings::notCompared(const std::string& why, const char* remedy) {
    Finding& finding = add("drawing-not-compared", wanted_.span);
    finding.unproven = true;
    finding.message = say("The part was not compared with its drawn outline: {}.", why);
    finding.remedy = remedy;
}

void GaugeFindings::notGauged(const GaugedDimension& g) {
    Finding& finding = add("dimension-not-gauged", g.wanted.span);
    finding.unproven = true;
    finding.message = say("{} was not gauged: {}.", g.name, g.trouble);
    finding.remedy = tr("Correct its place or its limits in the set-up, and gauge it on the first part.");
}

void GaugeFindings::size(const GaugedPart& part, const GaugedDimension& g) {
    const State byPath = stateOf(g, g.measured);
    if (g.state == State::Within) {
        if (byPath != State::Within) withinByBending(g);
        return;
    }
    const bool bends = std::abs(g.expected() - g.measured) >= (isAngle(g) ? 0 : kToldMm);
    const bool byBending = byPath != g.state;
    const bool small = g.state == State::TooSmall;
    const double beyond = small ? g.least - g.expected() : g.expected() - g.most;
    Finding& finding = atCut(byBending ? "size-out-with-bending" : "size-out-of-limits", g.block, g.cut, g.wanted.span);
    if (!g.places.empty()) finding.place = g.places.front();
    const char* unit = isAngle(g) ? "" : " mm";
    const std::string off = small ? say("{} too small", shown(g, beyond)) : say("{} too large", shown(g, beyond));
    if (g.wanted.kind == WantedDimension::Kind::RunOut) {
        finding.message = say("{} reads {} mm, {} is let pass.", g.name, shown(g, g.measured), shown(g, g.most));
    } else if (byBending) {
        finding.message = say(
            "{} comes to {}{} by the path of the tool, which is within {} and {}; with what part and bar give way it "
            "comes to {}: {}. That is an estimate, rather less than the truth.",
            g.name, shown(g, g.measured), unit, shown(g, g.least), shown(g, g.most), shown(g, g.expected()), off);
    } else {
        finding.message = say("{} measures {}{}{}; its limits are {} and {}: {}.", g.name, shown(g, g.measured), unit,
                              bends ? say(" by the path, {} with bending", shown(g, g.expected())) : "",
                              shown(g, g.least), shown(g, g.most), off);
    }
    finding.remedy = correctionInWords(part, g);
    if (finding.remedy.empty()) finding.remedy = tr("Correct the program.");
    addFigures(finding, g);
}

void GaugeFindings::withinByBending(const GaugedDimension& g) {
    Finding& finding = atCut("size-within-with-bending", g.block, g.cut, g.wanted.span);
    finding.severity = Severity::Note;
    finding.unproven = true;  // an estimate may not make a size good
    if (!g.places.empty()) finding.place = g.places.front();
    finding.message =
        say("{} comes to {}{} by the path of the tool, which is outside {} and {}; with what part and bar give way it "
            "comes to {}, within. That is an estimate.",
            g.name, shown(g, g.measured), isAngle(g) ? "" : " mm", shown(g, g.least), shown(g, g.most),
            shown(g, g.expected()));
    finding.remedy = tr("Gauge it on the first part before the second is cut.");
    addFigures(finding, g);
}

void GaugeFindings::addFigures(Finding& finding, const GaugedDimension& g) const {
    const char* unit = isAngle(g) ? "deg" : "mm";
    finding.values = {{fmt::format("measured_{}", unit), inUnit(g, g.measured)},
                      {fmt::format("least_{}", unit), inUnit(g, g.least)},
                      {fmt::format("most_{}", unit), inUnit(g, g.most)}};
    if (!std::isnan(g.bending)) finding.values.emplace_back(fmt::format("bending_{}", unit), inUnit(g, g.bending));
    if (g.wish) finding.values.emplace_back("wish_mm", g.wish->amountMm);
}

void GaugeFindings::deviation(const ContourDeviation& d, Point datum, bool later) {
    const bool left = d.amountMm > 0;
    Finding& finding = atCut(left ? "metal-left" : "metal-missing", d.block, d.cut, wanted_.span);
    finding.place = d.place;
    finding.message =
        left
            ? say("Against the drawing up to {:.3f} mm of metal is left, most near {}; it begins at {} and ends at {}.",
                  d.amountMm, spoken(d.place - datum), spoken(d.from - datum), spoken(d.to - datum))
            : say("Against the drawing up to {:.3f} mm of metal is missing, most near {}; it begins at {} and ends at "
                  "{}.",
                  std::abs(d.amountMm), spoken(d.place - datum), spoken(d.from - datum), spoken(d.to - datum));
    finding.remedy = left ? tr("Let the tool that finishes this stretch reach it, or correct its path or offset.")
                          : tr("Correct the path, the offset or the shape of the tool that cut here.");
    finding.values = {{"amount_mm", d.amountMm}};
    if (!later || left) return;
    finding.severity = Severity::Note;
    finding.message += tr(" That was cut after the finishing cycle, whose profile does not show whether it is wanted.");
    finding.remedy = tr("Give what is cut afterwards as dimensions, or the whole part as a DXF drawing.");
}

}  // namespace firstoff
