// What gauging has to say: sizes out of their limits, metal left and missing, and what could not be gauged.
#pragma once

#include <string>
#include <vector>

#include "sim/inspection/gauged_part.h"

namespace firstoff {

class GaugeFindings {
public:
    GaugeFindings(const Timeline& timeline, const WantedPart& wanted, std::vector<Finding>& out)
        : timeline_(timeline), wanted_(wanted), out_(out) {}

    // Out of its limits, by the path or by what is to be expected, with what to key in; at the block that made it.
    // Within by what is to be expected and not by the path: a note.
    void size(const GaugedPart& part, const GaugedDimension& dimension);
    // Its trouble; at its place in the set-up, not proven.
    void notGauged(const GaugedDimension& dimension);
    // `datum`: of the work frame, lathe frame. `later`: cut after the finishing cycle whose profile is the outline;
    // whether metal is wanted away there the profile does not show, so that is a note.
    void deviation(const ContourDeviation& deviation, Point datum, bool later);
    // The outline as a whole; not proven.
    void notCompared(const std::string& why, const char* remedy);

private:
    void withinByBending(const GaugedDimension& dimension);
    void addFigures(Finding& finding, const GaugedDimension& dimension) const;
    Finding& add(const char* code, const SourceSpan& span);
    Finding& atCut(const char* code, BlockId block, CutId cut, const SourceSpan& otherwise);

    const Timeline& timeline_;
    const WantedPart& wanted_;
    std::vector<Finding>& out_;
};

}  // namespace firstoff
