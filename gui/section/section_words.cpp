#include "gui/section/section_words.h"

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/base/units.h"

namespace firstoff::gui {

namespace {

double degrees(double rad) {
    return rad * 180 / kPi;
}

}  // namespace

std::string readingInWords(const FeatureReading& reading, Measures measures) {
    const auto value = [&] { return told(measures.length(reading.value)); };
    using Kind = FeatureReading::Kind;
    switch (reading.kind) {
        case Kind::Diameter:
            return say("Ø {}", value());
        case Kind::Position:
            return measures.position(reading.second, reading.value);
        case Kind::LengthAlong:
            return say("along Z {}", value());
        case Kind::DiameterApart:
            return say("on diameter {}", value());
        case Kind::WallApart:
            return say("on radius {}", value());
        case Kind::Distance:
            return say("straight across {}", value());
        case Kind::Square:
            return say("square to it {}", value());
        case Kind::ConeAngle:
            return say("cone {:.3f}° (full angle)", degrees(reading.value));
        case Kind::EdgeAngle:
            return say("{:.3f}° to the axis", degrees(reading.value));
        case Kind::AngleBetween:
            return say("angle between {:.3f}°", degrees(reading.value));
        case Kind::Radius:
            return fmt::format("R {}", value());
    }
    return {};
}

}  // namespace firstoff::gui
