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

std::string sizeFigure(const GaugedDimension& dimension, double size, Units units) {
    if (isAngle(dimension) || std::isnan(size)) return sizeInWords(dimension, size);
    return length(size, units).value;
}

std::string sizeTold(const GaugedDimension& dimension, double size, Units units) {
    if (isAngle(dimension) || std::isnan(size)) return sizeInWords(dimension, size);
    return told(length(size, units));
}

std::string bendingTold(const GaugedDimension& dimension, Units units) {
    const std::string words = bendingInWords(dimension);
    const bool figure = !isAngle(dimension) && !std::isnan(dimension.bending) && words != "0";
    if (!figure) return words;
    if (units == Units::Millimetres) return fmt::format("{} {}", words, unitOf(units));
    return fmt::format("{:+.4f} {}", inUnits(dimension.bending, units), unitOf(units));
}

std::string endsTold(const Trial& trial, const GaugedDimension& d, Units units) {
    if (endsInWords(trial, d).empty() || units == Units::Millimetres) return endsInWords(trial, d);
    const double datum = sectionDatum(trial).z;
    return say("from {} at Z{} to {} at Z{} along it", sizeFigure(d, d.smallest.size, units),
               length(d.smallest.place.z - datum, units).value, sizeFigure(d, d.largest.size, units),
               length(d.largest.place.z - datum, units).value);
}

std::string outInWords(const GaugedDimension& d, Units units) {
    using State = GaugedDimension::State;
    if (d.state == State::TooSmall) return say("{} too small", sizeTold(d, d.least - d.expected(), units));
    if (d.state == State::TooLarge) return say("{} too large", sizeTold(d, d.expected() - d.most, units));
    return {};
}

}  // namespace firstoff::gui
