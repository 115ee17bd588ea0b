#include "gui/size_words.h"

#include <fmt/format.h>

#include <cmath>

#include "sim/base/say.h"
#include "sim/output/gauge_report.h"
#include "sim/output/tables.h"

namespace firstoff::gui {

namespace {

bool isAngle(const GaugedDimension& d) {
    return d.wanted.kind == WantedDimension::Kind::Taper;
}

}  // namespace

std::string sizeFigure(const GaugedDimension& dimension, double size, Measures measures) {
    if (isAngle(dimension) || std::isnan(size)) return sizeInWords(dimension, size);
    return measures.length(size).value;
}

std::string sizeTold(const GaugedDimension& dimension, double size, Measures measures) {
    if (isAngle(dimension) || std::isnan(size)) return sizeInWords(dimension, size);
    return told(measures.length(size));
}

std::string bendingTold(const GaugedDimension& dimension, Measures measures) {
    const std::string words = bendingInWords(dimension);
    const bool figure = !isAngle(dimension) && !std::isnan(dimension.bending) && words != "0";
    if (!figure) return words;
    if (!measures.inches()) return fmt::format("{} {}", words, measures.unit());
    return fmt::format("{:+.4f} {}", measures.of(dimension.bending), measures.unit());
}

std::string endsTold(const Trial& trial, const GaugedDimension& d, Measures measures) {
    if (endsInWords(trial, d).empty() || !measures.inches()) return endsInWords(trial, d);
    const double datum = sectionDatum(trial).z;
    return say("from {} at Z{} to {} at Z{} along it", sizeFigure(d, d.smallest.size, measures),
               measures.length(d.smallest.place.z - datum).value, sizeFigure(d, d.largest.size, measures),
               measures.length(d.largest.place.z - datum).value);
}

std::string outInWords(const GaugedDimension& d, Measures measures) {
    using State = GaugedDimension::State;
    if (d.state == State::TooSmall) return say("{} too small", sizeTold(d, d.least - d.expected(), measures));
    if (d.state == State::TooLarge) return say("{} too large", sizeTold(d, d.expected() - d.most, measures));
    return {};
}

}  // namespace firstoff::gui
