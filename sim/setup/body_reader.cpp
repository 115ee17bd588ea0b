#include "sim/setup/body_reader.h"

#include <fmt/format.h>

#include <algorithm>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/setup/table_reading.h"

namespace firstoff {

namespace {

class BodyReading {
public:
    BodyReading(const SetupTable& table, Setup& setup) : from_{table, setup.findings}, setup_(setup) {}

    std::optional<ExtraBody> run() {
        b_.span = from_.table.span;
        b_.name = from_.text("name");
        b_.kind = from_.text("kind") == "guard"  ? ExtraBody::Kind::Guard
                  : from_.text("kind") == "door" ? ExtraBody::Kind::Door
                                                 : ExtraBody::Kind::Other;
        readCarrier();
        if (!readShape()) return std::nullopt;
        return carried_ ? std::optional(b_) : std::nullopt;
    }

private:
    // A body that is left out must never let a trial come out clear.
    void leftOut(std::string_view key, std::string message, std::string remedy) {
        from_.stop("setup-body", key, std::move(message), std::move(remedy)).unproven = true;
    }

    void readCarrier() {
        const std::string_view on = from_.text("on");
        using Carrier = ExtraBody::Carrier;
        b_.carrier = on == "spindle"          ? Carrier::Spindle
                     : on == "turret-slide"   ? Carrier::TurretSlide
                     : on == "station"        ? Carrier::Station
                     : on == "tailstock"      ? Carrier::Tailstock
                     : on == "second-spindle" ? Carrier::SecondSpindle
                                              : Carrier::Bed;
        carried_ = !from_.table.find("on") || from_.says("on");
        if (b_.carrier == Carrier::Station) return readStation();
        if (from_.table.find("station")) {
            from_.stop("setup-body", "station", tr("A station is given, but the body is not carried by a station."),
                       tr("Write on = \"station\", or take station out."));
        }
        const bool tailstock = b_.carrier == Carrier::Tailstock && !setup_.tailstock;
        const bool second = b_.carrier == Carrier::SecondSpindle && !setup_.secondSpindle;
        if (!tailstock && !second) return;
        leftOut(
            "on",
            tailstock
                ? say("The body \"{}\" is carried by a tailstock, but the set-up has none; it was left out.", b_.name)
                : say("The body \"{}\" is carried by a second spindle, but the set-up has none; it was left out.",
                      b_.name),
            say("Add the table [{}], or correct on.", tailstock ? "tailstock" : "second_spindle"));
        carried_ = false;
    }

    void readStation() {
        b_.station = static_cast<int>(from_.number("station"));
        if (from_.table.find("station") && !from_.says("station")) {  // objected to already
            carried_ = false;
        } else if (b_.station == 0) {
            leftOut("on", say("The body \"{}\" does not say which station carries it.", b_.name), tr("Add station."));
            carried_ = false;
        } else if (b_.station > setup_.machine.stations) {
            leftOut("station",
                    say("The body \"{}\" is carried by station {}, the turret has {}; it was left out.", b_.name,
                        b_.station, setup_.machine.stations),
                    tr("Correct station of the body or stations of the machine."));
            carried_ = false;
        } else if (!setup_.turret) {
            leftOut("on",
                    say("The body \"{}\" is carried by a station, but the set-up has no table [turret].", b_.name),
                    tr("Add [turret], or write on = \"turret-slide\" if it does not index."));
            carried_ = false;
        }
    }

    bool readShape() {
        static constexpr std::string_view kBox[] = {"z_mm", "x_mm", "y_mm"};
        static constexpr std::string_view kMesh[] = {"unit", "at_z_mm", "at_x_mm", "at_y_mm", "turn_deg"};
        const auto given = [&](std::string_view key) { return from_.table.find(key) != nullptr; };
        const auto box = std::count_if(std::begin(kBox), std::end(kBox), given);
        const bool mesh = given("file");
        if (mesh == (box > 0)) {
            leftOut(mesh ? "file" : "name",
                    mesh ? say("The body \"{}\" has both the sizes of a box and a file.", b_.name)
                         : say("The body \"{}\" has no shape: neither a box nor a file.", b_.name),
                    tr("Write z_mm, x_mm and y_mm for a box, or file for a mesh."));
            return false;
        }
        if (mesh) return readMesh();
        for (std::string_view key : kMesh) {
            if (given(key)) {
                from_.stop("setup-body", key, say("{} says nothing about a box.", key),
                           tr("Take it out; a box stands where its ranges say."));
            }
        }
        if (box < 3) {
            leftOut("name", say("The box \"{}\" does not say all of z_mm, x_mm and y_mm.", b_.name),
                    tr("Write the three ranges."));
            return false;
        }
        b_.z = from_.range("z_mm");
        b_.r = from_.radii("x_mm");
        b_.y = from_.range("y_mm");
        return std::all_of(std::begin(kBox), std::end(kBox), [&](std::string_view key) { return from_.says(key); });
    }

    bool readMesh() {
        b_.file = from_.text("file");
        b_.span = from_.spanOf("file");  // where what is wrong with the file is told
        b_.unit = from_.text("unit");
        b_.atZ = from_.number("at_z_mm");
        b_.atR = from_.number("at_x_mm") / 2;
        b_.atY = from_.number("at_y_mm");
        b_.turnZ = radians(from_.number("turn_deg"));
        if (!from_.says("file")) return false;  // objected to already
        if (!b_.file.empty()) return true;
        leftOut("file", say("The body \"{}\" names no file.", b_.name), tr("Write the name of a mesh file."));
        return false;
    }

    TableReading from_;
    Setup& setup_;
    ExtraBody b_;
    bool carried_ = true;
};

}  // namespace

std::optional<ExtraBody> readBody(const SetupTable& table, Setup& setup) {
    return BodyReading(table, setup).run();
}

}  // namespace firstoff
