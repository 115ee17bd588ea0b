#include "sim/inspection/gauge_findings.h"

#include <fmt/format.h>

#include <cmath>

#include "sim/base/units.h"

namespace firstoff {

namespace {

using State = GaugedDimension::State;

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
    finding.message = fmt::format("The part was not compared with its drawn outline: {}.", why);
    finding.remedy = remedy;
}

void GaugeFindings::notGauged(const GaugedDimension& g) {
    Finding& finding = add("dimension-not-gauged", g.wanted.span);
    finding.unproven = true;
    finding.message = fmt::format("{} was not gauged: {}.", g.name, g.trouble);
    finding.remedy = "Correct its place or its limits in the set-up, and gauge it on the first part.";
}

void GaugeFindings::outOfLimits(const GaugedDimension& g) {
    const bool angle = g.wanted.kind == WantedDimension::Kind::Taper;
    const auto inUnit = [&](double value) { return angle ? degrees(value) : value; };
    const auto shown = [&](double value) { return fmt::format("{:.3f}{}", inUnit(value), angle ? "°" : ""); };
    const bool small = g.state == State::TooSmall;
    Finding& finding = atCut("size-out-of-limits", g.block, g.cut, g.wanted.span);
    if (!g.places.empty()) finding.place = g.places.front();
    finding.message =
        g.wanted.kind == WantedDimension::Kind::RunOut
            ? fmt::format("{} reads {} mm, {} is let pass.", g.name, shown(g.measured), shown(g.most))
            : fmt::format("{} measures {}{}; its limits are {} and {}: {} too {}.", g.name, shown(g.measured),
                          angle ? "" : " mm", shown(g.least), shown(g.most),
                          shown(small ? g.least - g.measured : g.measured - g.most), small ? "small" : "large");
    finding.remedy = correctionInWords(g);
    if (finding.remedy.empty()) finding.remedy = "Correct the program.";
    const char* unit = angle ? "deg" : "mm";
    finding.values = {{fmt::format("measured_{}", unit), inUnit(g.measured)},
                      {fmt::format("least_{}", unit), inUnit(g.least)},
                      {fmt::format("most_{}", unit), inUnit(g.most)}};
    if (g.correction) finding.values.emplace_back("correction_mm", g.correction->amountMm);
}

void GaugeFindings::deviation(const ContourDeviation& d, Point datum, bool later) {
    const bool left = d.amountMm > 0;
    Finding& finding = atCut(left ? "metal-left" : "metal-missing", d.block, d.cut, wanted_.span);
    finding.place = d.place;
    finding.message =
        fmt::format("Against the drawing up to {:.3f} mm of metal is {}, most near {}; it begins at {} and ends at {}.",
                    std::abs(d.amountMm), left ? "left" : "missing", spoken(d.place - datum), spoken(d.from - datum),
                    spoken(d.to - datum));
    finding.remedy = left ? "Let the tool that finishes this stretch reach it, or correct its path or offset."
                          : "Correct the path, the offset or the shape of the tool that cut here.";
    finding.values = {{"amount_mm", d.amountMm}};
    if (!later || left) return;
    finding.severity = Severity::Note;
    finding.message += " That was cut after the finishing cycle, whose profile does not show whether it is wanted.";
    finding.remedy = "Give what is cut afterwards as dimensions, or the whole part as a DXF drawing.";
}

}  // namespace firstoff
