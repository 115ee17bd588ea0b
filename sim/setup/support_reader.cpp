#include "sim/setup/support_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/setup/chuck_reader.h"
#include "sim/setup/table_reading.h"

namespace firstoff {

namespace {

constexpr double kAlikeMm = 0.01;  // written sizes that mean the same

class TailstockReading {
public:
    TailstockReading(const SetupTable& table, std::vector<Finding>& findings) : from_{table, findings} {}

    Tailstock run() {
        t_.quillRadius = from_.number("quill_diameter_mm") / 2;
        t_.quillLength = from_.number("quill_length_mm");
        t_.centreAngle = radians(from_.number("centre_angle_deg"));
        t_.centreRadius = from_.number("centre_diameter_mm") / 2;
        t_.tipZ = from_.number("centre_z_from_chuck_face_mm");
        t_.tipSpan = from_.spanOf("centre_z_from_chuck_face_mm");
        t_.advanced = from_.flag("advanced");
        if (from_.says("advanced_z_from_chuck_face_mm")) t_.advancedZ = from_.number("advanced_z_from_chuck_face_mm");
        if (from_.says("parked_z_from_chuck_face_mm")) t_.parkedZ = from_.number("parked_z_from_chuck_face_mm");
        checkPlaces();
        readCentre();
        t_.castingRadius = from_.number("casting_diameter_mm") / 2;
        t_.castingLength = from_.number("casting_length_mm");
        both("casting_diameter_mm", "casting_length_mm", tr("The casting has no length."),
             tr("The casting has no diameter."), t_.castingRadius, t_.castingLength);
        constexpr double kNPerKn = 1000;
        t_.forceN = kNPerKn * from_.number("force_kn");
        return t_;
    }

private:
    void checkPlaces() {
        if (t_.advancedZ && t_.parkedZ && *t_.advancedZ >= *t_.parkedZ) {
            from_.stop("setup-tailstock-places", "advanced_z_from_chuck_face_mm",
                       say("Advanced, the centre would stand at {:g} mm, behind where it is parked ({:g} mm).",
                           *t_.advancedZ, *t_.parkedZ),
                       tr("Z counts away from the chuck: the parked place has the larger figure."));
            t_.advancedZ.reset();
            t_.parkedZ.reset();
        }
        const std::optional<double>& meant = t_.advanced ? t_.advancedZ : t_.parkedZ;
        if (!meant || !from_.says("centre_z_from_chuck_face_mm") || std::abs(*meant - t_.tipZ) <= kAlikeMm) return;
        from_.stop(
            "setup-tailstock-places", t_.advanced ? "advanced_z_from_chuck_face_mm" : "parked_z_from_chuck_face_mm",
            t_.advanced
                ? say("At the start the centre is in the work at {:g} mm, but M codes take it to {:g} mm for that.",
                      t_.tipZ, *meant)
                : say("At the start the centre is parked at {:g} mm, but M codes take it to {:g} mm for that.", t_.tipZ,
                      *meant),
            tr("Write one place in both keys, or correct advanced."));
    }

    void readCentre() {
        const double cone = t_.centreRadius / std::tan(t_.centreAngle / 2);
        t_.centreLength = from_.number("centre_length_mm");
        if (from_.says("centre_length_mm") && t_.centreLength < cone) {
            from_.stop("setup-centre", "centre_length_mm",
                       say("The centre is {:g} mm long out of the quill; its point alone is {:.3f} mm.",
                           t_.centreLength, cone),
                       tr("Measure from the point to the quill."));
            t_.centreLength = 0;
        }
        t_.live = from_.text("centre") != "dead";
        t_.housingRadius = from_.number("housing_diameter_mm") / 2;
        t_.housingLength = from_.number("housing_length_mm");
        both("housing_diameter_mm", "housing_length_mm", tr("The bearing housing has no length."),
             tr("The bearing housing has no diameter."), t_.housingRadius, t_.housingLength);
        if (t_.housingRadius <= 0) return;
        std::string wrong;
        if (!t_.live) {
            wrong = tr("A dead centre has no bearing housing.");
        } else if (t_.housingRadius < t_.centreRadius) {
            wrong = say("The bearing housing ({:g} mm) is thinner than the centre ({:g} mm).", 2 * t_.housingRadius,
                        2 * t_.centreRadius);
        } else if (t_.centreLength > 0 && t_.housingLength > t_.centreLength - cone + kAlikeMm) {
            wrong =
                say("A bearing housing of {:g} mm leaves no room for the point ({:.3f} mm) of a centre that "
                    "stands {:g} mm out of the quill.",
                    t_.housingLength, cone, t_.centreLength);
        } else {
            return;
        }
        from_.stop("setup-centre", "housing_diameter_mm", wrong,
                   tr("Look at the centre and correct the wrong figure."));
        t_.housingRadius = t_.housingLength = 0;
    }

    void both(std::string_view across, std::string_view along, const char* noLength, const char* noDiameter,
              double& radius, double& length) {
        const bool wide = from_.says(across), isLong = from_.says(along);
        if (wide == isLong) return;
        from_.stop("setup-missing-key", wide ? across : along, wide ? noLength : noDiameter,
                   say("Write both {} and {}, or neither.", across, along));
        radius = length = 0;
    }

    TableReading from_;
    Tailstock t_;
};

// An angle seen from the tailstock, 0 … 2 pi.
double onceRound(double angle) {
    const double turned = std::fmod(angle, 2 * kPi);
    return turned < 0 ? turned + 2 * kPi : turned;
}

}  // namespace

Tailstock readTailstock(const SetupTable& table, std::vector<Finding>& findings) {
    return TailstockReading(table, findings).run();
}

SecondSpindle readSecondSpindle(const SetupTable& table, const SetupTable& chuck, std::vector<Finding>& findings) {
    const TableReading from{table, findings};
    SecondSpindle s;
    s.span = table.span;
    s.chuck = readChuck(chuck, findings);
    s.approachZ = from.number("approach_z_from_chuck_face_mm");
    s.parkedZ = from.number("parked_z_from_chuck_face_mm");
    s.startZ = from.says("start_z_from_chuck_face_mm") ? from.number("start_z_from_chuck_face_mm") : s.parkedZ;
    s.maxRevPerMin = from.number("max_rev_per_min");
    const bool given = from.says("approach_z_from_chuck_face_mm") && from.says("parked_z_from_chuck_face_mm");
    if (!given) return s;
    if (s.approachZ >= s.parkedZ) {
        from.stop("setup-second-spindle", "approach_z_from_chuck_face_mm",
                  say("To grip, the second spindle would go to {:g} mm, behind where it is parked ({:g} mm).",
                      s.approachZ, s.parkedZ),
                  tr("Z counts away from the first chuck: the parked place has the larger figure."));
        s.approachZ = s.parkedZ;
    } else if (s.startZ < s.approachZ || s.startZ > s.parkedZ) {
        from.stop("setup-second-spindle", "start_z_from_chuck_face_mm",
                  say("The second spindle starts at {:g} mm, which is not between where it grips ({:g} mm) and "
                      "where it is parked ({:g} mm).",
                      s.startZ, s.approachZ, s.parkedZ),
                  tr("Correct start_z_from_chuck_face_mm, or leave it out: then it starts parked."));
        s.startZ = s.parkedZ;
    }
    return s;
}

SteadyRest readSteadyRest(const SetupTable& table, std::vector<Finding>& findings) {
    const TableReading from{table, findings};
    SteadyRest s;
    s.span = table.span;
    s.z = from.number("z_from_chuck_face_mm");
    s.width = from.number("width_mm");
    s.innerRadius = from.number("inner_diameter_mm") / 2;
    s.outerRadius = from.number("outer_diameter_mm") / 2;
    s.rollerRadius = from.number("roller_diameter_mm") / 2;
    s.barRadius = from.number("bar_diameter_mm") / 2;
    s.rollers = static_cast<int>(from.number("rollers"));
    s.openFrom = onceRound(radians(from.number("open_from_deg")));
    s.openTo = onceRound(radians(from.number("open_to_deg")));
    if (from.says("open_from_deg") != from.says("open_to_deg")) {
        from.stop("setup-missing-key", from.says("open_from_deg") ? "open_from_deg" : "open_to_deg",
                  tr("The opening of the steady rest has one end only."),
                  tr("Write both open_from_deg and open_to_deg, or neither for a closed ring."));
        s.openFrom = s.openTo = 0;
    }
    const auto mend = [&](std::string_view key, std::string message) {
        from.stop("setup-steady-rest", key, std::move(message), tr("Measure the steady rest and correct it."));
    };
    if (s.innerRadius >= s.outerRadius) {
        mend("inner_diameter_mm", say("The ring of the steady rest is {:g} mm inside and {:g} mm outside.",
                                      2 * s.innerRadius, 2 * s.outerRadius));
        s.outerRadius = 1.2 * s.innerRadius;
    }
    if (s.barRadius >= s.innerRadius) {
        mend("bar_diameter_mm",
             say("A bar of {:g} mm does not go through a ring of {:g} mm.", 2 * s.barRadius, 2 * s.innerRadius));
        s.innerRadius = 1.1 * s.barRadius;
        s.outerRadius = std::max(s.outerRadius, 1.2 * s.innerRadius);
    } else if (s.barRadius + 2 * s.rollerRadius > s.outerRadius) {
        mend("roller_diameter_mm", say("On a bar of {:g} mm rollers of {:g} mm reach out of the ring ({:g} mm).",
                                       2 * s.barRadius, 2 * s.rollerRadius, 2 * s.outerRadius));
        s.rollerRadius = (s.outerRadius - s.barRadius) / 2;
    }
    return s;
}

}  // namespace firstoff
