#include "tests/support/shop.h"

#include <fstream>
#include <sstream>
#include <stdexcept>

#include "sim/base/units.h"

namespace firstoff::shop {

namespace {

constexpr double kJawLength = 30;

// Included angle at the cutting corner by ISO 1832 shape letter.
double insertAngleDeg(char shape) {
    switch (shape) {
        case 'C':
        case 'W':
            return 80;
        case 'D':
            return 55;
        case 'K':
            return 55;
        case 'S':
            return 90;
        case 'T':
            return 60;
        case 'V':
            return 35;
        case 'R':
            return 0;
        default:
            throw std::runtime_error(std::string("no insert angle for shape ") + shape);
    }
}

Tool& add(Setup& setup, Tool tool) {
    giveShape(tool);
    auto at = setup.tools.begin();
    while (at != setup.tools.end() && at->station < tool.station) ++at;
    return *setup.tools.insert(at, std::move(tool));
}

Tool insertTool(ToolKind kind, int station, char shape, double noseRadius, double enteringAngleDeg) {
    Tool tool;
    tool.station = station;
    tool.kind = kind;
    tool.insertShape = shape;
    tool.insertAngle = radians(insertAngleDeg(shape));
    tool.edgeLength = 12;
    tool.noseRadius = noseRadius;
    tool.enteringAngle = radians(enteringAngleDeg);
    return tool;
}

}  // namespace

Setup lathe() {
    Setup setup;
    setup.name = "test lathe";
    setup.machine.name = "test lathe";
    setup.machine.home = {400, 180};
    setup.machine.travelZ = {-520, 0};
    setup.machine.travelR = {-190, 0};
    setup.machine.rapidZMmPerMin = 24000;
    setup.machine.rapidRMmPerMin = 18000;
    setup.machine.rapidPerAxis = true;
    setup.machine.rapidPathSaid = true;
    setup.machine.maxFeedMmPerMin = 5000;
    setup.machine.maxRevPerMin = 4500;
    setup.machine.indexTimeS = 0.6;
    setup.machine.stations = 12;
    setup.machine.turretRadius = 150;
    setup.machine.turretThickness = 90;
    setup.turret = Turret{};
    setup.turret->indexWay = Turret::IndexWay::Shortest;
    setup.turret->axisR = 192;
    setup.turret->headRadius = 120;
    setup.turret->headLength = 200;
    setup.toolBlock = {{-56, 80}, {}, 60};
    setup.chuck.bodyRadius = 82.5;
    setup.chuck.bodyLength = 80;
    setup.chuck.jaws = 3;
    setup.chuck.jawLength = kJawLength;
    setup.chuck.jawOuterRadius = 80;
    setup.chuck.jawWidth = 30;
    setup.chuck.maxRevPerMin = 4500;
    return setup;
}

Setup barStock(double diameter, double stickOut, double faceProud, double bore) {
    Setup setup = lathe();
    setup.stock.outerRadius = diameter / 2;
    setup.stock.boreRadius = bore / 2;
    setup.stock.frontZ = kJawLength + stickOut;
    setup.stock.backZ = 0;
    setup.stock.material = "test steel";
    setup.workOffsets.fill({setup.stock.frontZ - faceProud, 0});
    setup.workOffsetGiven.fill(true);
    return setup;
}

Tool& addTurningTool(Setup& setup, int station, char shape, double noseRadius, double enteringAngleDeg) {
    Tool tool = insertTool(ToolKind::Turning, station, shape, noseRadius, enteringAngleDeg);
    tool.tipNumber = 3;
    tool.tip = {-60, -60};
    tool.shankSize = 20;
    tool.overhang = 35;
    return add(setup, std::move(tool));
}

Tool& addBoringBar(Setup& setup, int station, char shape, double noseRadius, double enteringAngleDeg) {
    Tool tool = insertTool(ToolKind::Boring, station, shape, noseRadius, enteringAngleDeg);
    tool.edgeLength = 6;
    tool.tipNumber = 2;
    tool.tip = {-140, -20};
    tool.shankSize = 10;
    tool.overhang = 60;
    tool.shank = Tool::Shank::Carbide;  // six times its diameter out
    return add(setup, std::move(tool));
}

Tool& addGroovingTool(Setup& setup, int station, double width, double cornerRadius) {
    Tool tool;
    tool.station = station;
    tool.kind = ToolKind::Grooving;
    tool.width = width;
    tool.cornerRadius = cornerRadius;
    tool.cuttingDepth = 20;
    tool.tipNumber = 3;
    tool.tip = {-60, -60};
    tool.overhang = 40;
    return add(setup, std::move(tool));
}

Tool& addPartingTool(Setup& setup, int station, double width, double cornerRadius) {
    Tool& tool = addGroovingTool(setup, station, width, cornerRadius);
    tool.kind = ToolKind::Parting;
    tool.cuttingDepth = 35;
    tool.overhang = 55;
    giveShape(tool);
    return tool;
}

Tool& addThreadingTool(Setup& setup, int station, double angleDeg) {
    Tool tool;
    tool.station = station;
    tool.kind = ToolKind::Threading;
    tool.threadAngle = radians(angleDeg);
    tool.noseRadius = 0.1;
    tool.cuttingDepth = 3;
    tool.tipNumber = 8;
    tool.tip = {-60, -60};
    tool.shankSize = 20;
    tool.overhang = 35;
    return add(setup, std::move(tool));
}

Tool& addInsideThreadingTool(Setup& setup, int station, double angleDeg) {
    Tool& tool = addThreadingTool(setup, station, angleDeg);
    tool.inside = true;
    tool.tipNumber = 6;
    tool.tip = {-140, -20};
    tool.shankSize = 8;
    tool.overhang = 60;
    tool.cuttingDepth = 2;
    giveShape(tool);
    return tool;
}

Tool& addTap(Setup& setup, int station, double diameter, double pitch) {
    Tool tool;
    tool.station = station;
    tool.kind = ToolKind::Tap;
    tool.diameter = diameter;
    tool.pitch = pitch;
    tool.fluteLength = 40;
    tool.shankSize = 0.7 * diameter;
    tool.overhang = 80;
    tool.tipNumber = 0;
    tool.tip = {-160, 0};
    return add(setup, std::move(tool));
}

Tool& addDrill(Setup& setup, int station, double diameter, double pointAngleDeg) {
    Tool tool;
    tool.station = station;
    tool.kind = ToolKind::Drill;
    tool.diameter = diameter;
    tool.pointAngle = radians(pointAngleDeg);
    tool.fluteLength = 80;
    tool.shankSize = diameter;
    tool.overhang = 100;
    tool.tipNumber = 0;
    tool.tip = {-160, 0};
    return add(setup, std::move(tool));
}

std::string spigotSetupWithoutDrawing() {
    std::string text = readFile("assets/jobs/coupling-spigot.toml");
    const std::size_t drawing = text.find("# The drawing of the part");
    return text.erase(drawing, text.find("# The offset page.") - drawing);
}

std::string readFile(std::string_view pathInTree) {
    const std::string path = std::string(FIRSTOFF_SOURCE_DIR) + "/" + std::string(pathInTree);
    std::ifstream in(path, std::ios::binary);
    if (!in) throw std::runtime_error("cannot read " + path);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

}  // namespace firstoff::shop
