#include "sim/setup/chuck_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/setup/table_reading.h"

namespace firstoff {

namespace {

constexpr double kAlikeMm = 0.01;  // written sizes that mean the same

class ChuckReading {
public:
    ChuckReading(const SetupTable& table, std::vector<Finding>& findings) : from_{table, findings} {}

    Chuck run() {
        c_.kind = from_.text("kind") == "collet" ? Chuck::Kind::Collet : Chuck::Kind::Jaws;
        c_.jaw = from_.text("jaw") == "soft"      ? Chuck::Jaw::Soft
                 : from_.text("jaw") == "stepped" ? Chuck::Jaw::Stepped
                                                  : Chuck::Jaw::Hard;
        c_.grip = from_.text("grip") == "inside" ? Chuck::Grip::Inside : Chuck::Grip::Outside;
        c_.bodyRadius = from_.number("body_diameter_mm") / 2;
        c_.bodyLength = from_.number("body_length_mm");
        c_.jaws = static_cast<int>(from_.number("jaws"));
        c_.jawLength = from_.number("jaw_length_mm");
        c_.jawOuterRadius = from_.number("jaw_outer_diameter_mm") / 2;
        c_.jawWidth = from_.number("jaw_width_mm");
        c_.maxRevPerMin = from_.number("max_rev_per_min");
        if (from_.says("through_bore_mm")) c_.throughBoreRadius = from_.number("through_bore_mm") / 2;
        readSteps();
        readGripLength();
        readGripAtSpeed();
        return c_;
    }

private:
    void readSteps() {
        const bool given = from_.table.find("step_diameters_mm") || from_.table.find("step_lengths_mm");
        if (c_.jaw != Chuck::Jaw::Stepped) {
            if (given) {
                from_.stop("setup-jaw-steps", "step_diameters_mm", tr("Steps are given, but the jaws are not stepped."),
                           tr("Write jaw = \"stepped\", or take the steps out."));
            }
            return;
        }
        if (!from_.table.find("step_diameters_mm") || !from_.table.find("step_lengths_mm")) {
            from_.stop("setup-missing-key", "jaw", tr("Stepped jaws do not say their steps."),
                       tr("Add step_diameters_mm and step_lengths_mm, from the face that grips outwards."));
            return;
        }
        const std::vector<double> diameters = from_.list("step_diameters_mm");
        const std::vector<double> lengths = from_.list("step_lengths_mm");
        if (diameters.empty() || lengths.empty()) return;  // objected to already
        const std::string wrong = faultOf(diameters, lengths);
        if (!wrong.empty()) {
            from_.stop(
                "setup-jaw-steps", "step_diameters_mm", wrong,
                tr("Write the steps from the face that grips outwards: diameters that rise, for each how far the "
                   "jaw stands off the chuck out to there, falling; the first is jaw_length_mm, the last ends at "
                   "jaw_outer_diameter_mm."));
            return;
        }
        for (std::size_t i = 0; i < diameters.size(); ++i) c_.steps.push_back({diameters[i] / 2, lengths[i]});
    }

    std::string faultOf(const std::vector<double>& diameters, const std::vector<double>& lengths) const {
        if (diameters.size() != lengths.size()) {
            return say("There are {} diameters of steps and {} lengths.", diameters.size(), lengths.size());
        }
        for (std::size_t i = 1; i < diameters.size(); ++i) {
            if (diameters[i] <= diameters[i - 1]) {
                return say("The step of {:g} mm does not lie outside that of {:g} mm.", diameters[i], diameters[i - 1]);
            }
            if (lengths[i] >= lengths[i - 1]) {
                return say(
                    "The step of {:g} mm stands {:g} mm off the chuck, no less than the one inside it "
                    "({:g} mm).",
                    diameters[i], lengths[i], lengths[i - 1]);
            }
        }
        if (std::abs(lengths.front() - c_.jawLength) > kAlikeMm) {
            return say("The first step stands {:g} mm off the chuck, jaw_length_mm says {:g}.", lengths.front(),
                       c_.jawLength);
        }
        if (std::abs(diameters.back() / 2 - c_.jawOuterRadius) > kAlikeMm) {
            return say("The last step ends at {:g} mm, jaw_outer_diameter_mm says {:g}.", diameters.back(),
                       2 * c_.jawOuterRadius);
        }
        return {};
    }

    // Jaws grip with what stands in front of the chuck; a collet with more, it lies in the spindle's nose.
    void readGripLength() {
        c_.gripLength = from_.number("grip_length_mm");
        const bool collet = c_.kind == Chuck::Kind::Collet;
        const double most = collet ? c_.jawLength + c_.bodyLength : c_.jawLength;
        if (c_.gripLength <= most + kAlikeMm) return;
        from_.stop(
            "setup-grip-length", "grip_length_mm",
            collet ? say("A collet with its chuck {:g} mm long cannot grip over {:g} mm.", most, c_.gripLength)
                   : say("Jaws {:g} mm long cannot grip over {:g} mm.", most, c_.gripLength),
            collet ? tr("Correct grip_length_mm, jaw_length_mm or body_length_mm.")
                   : tr("Correct grip_length_mm (of soft jaws the depth to which they are bored) or jaw_length_mm."));
        c_.gripLength = 0;
    }

    // What the method of chuck_grip.h asks for; each key may be missing, and what lacks is said with the grip.
    void readGripAtSpeed() {
        constexpr double kNPerKn = 1000;
        c_.gripForceN = kNPerKn * from_.number("grip_force_kn");
        c_.jawMassKg = from_.number("jaw_mass_kg");
        c_.jawMassRadius = from_.number("jaw_mass_diameter_mm") / 2;
        if (from_.says("base_jaw_moment_kg_m")) c_.baseJawMomentKgM = from_.number("base_jaw_moment_kg_m");
        c_.friction = from_.number("friction");
        c_.forceSafety = from_.number("force_safety");
        c_.speedSafety = from_.number("speed_safety");
    }

    TableReading from_;
    Chuck c_;
};

}  // namespace

Chuck readChuck(const SetupTable& table, std::vector<Finding>& findings) {
    return ChuckReading(table, findings).run();
}

}  // namespace firstoff
