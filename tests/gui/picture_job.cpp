#include "tests/gui/picture_job.h"

#include <filesystem>
#include <utility>

#include "sim/base/units.h"
#include "sim/output/blank_files.h"
#include "sim/output/setup_files.h"
#include "sim/output/whole_file.h"
#include "tests/support/shop.h"

namespace firstoff::gui {

namespace {

constexpr const char* kProgram = R"(%
O0042 (SPIGOT)
N1 (FACE AND ROUGH)
G28 U0 W0
G50 S2500
T0101
G96 S200 M03
G00 X54. Z0.
G01 X-1.6 F0.2
G00 X54. Z2.
G71 U2. R0.5
G71 P10 Q20 U0.5 W0.1 F0.3
N10 G00 X16.
G01 Z0. F0.15
X20. Z-2.
Z-22.
X28. W-0.
X32. Z-38.
Z-46. R4.
X46. C1.
Z-64.
N20 X52.
G28 U0 W0
N2 (FINISH)
T0303
G96 S260 M03
G00 X54. Z2.
G70 P10 Q20
G28 U0 W0
N3 (GROOVE)
T0505
G97 S900 M03
G00 X30. Z-22.
G01 X17. F0.08
G04 X0.5
G00 X60.
G28 U0 W0
N4 (DRILL)
T0202
G97 S800 M03
G00 X0. Z3.
G01 Z-30. F0.15
G00 Z5.
G28 U0 W0
N5 (PART OFF)
T0707
G97 S700 M03
G00 X56. Z-64.
G01 X13. F0.1
X-0.4
G00 X60.
G28 U0 W0
M30
%
)";

}  // namespace

std::shared_ptr<const Trial> cutFor(Program program, firstoff::Setup setup) {
    auto trial = std::make_shared<Trial>();
    trial->program = std::move(program);
    trial->setup = std::move(setup);
    trial->toolpath = interpret(trial->program, trial->setup);
    trial->timeline = layOut(trial->toolpath, trial->setup);
    trial->stock = StockHistory::cut(trial->timeline, trial->toolpath, trial->setup);
    return trial;
}

std::shared_ptr<const Trial> pictureJob(bool tailstock) {
    firstoff::Setup setup = shop::barStock(50, 90, 1);
    setup.machine.stations = 12;
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addDrill(setup, 2, 10);
    shop::addTurningTool(setup, 3, 'D', 0.4, 93);
    shop::addBoringBar(setup, 4, 'C', 0.4);
    shop::addGroovingTool(setup, 5, 3, 0.2);
    shop::addPartingTool(setup, 7, 3, 0.2);
    shop::addTurningTool(setup, 9, 'V', 0.4, 93);
    shop::addTurningTool(setup, 11, 'W', 0.8);
    if (tailstock) {
        Tailstock centre;
        centre.quillRadius = 35;
        centre.quillLength = 140;
        centre.centreAngle = radians(60);
        centre.centreRadius = 14;
        centre.tipZ = setup.stock.frontZ - 4;
        centre.advanced = true;
        setup.tailstock = centre;
    }
    return cutFor(readProgram(kProgram, "spigot.nc"), std::move(setup));
}

std::shared_ptr<const Trial> demoJob(const std::string& name) {
    const std::filesystem::path base = std::filesystem::path(FIRSTOFF_SOURCE_DIR) / "assets/jobs" / name;
    const std::string program = base.string() + ".nc", setup = base.string() + ".toml";
    ReadyBlank ready = readBlank(readSetup(readWholeFile(setup), setup, setupFilesBeside(setup)), setup);
    TrialOptions options;
    options.previous = std::move(ready.previous);
    return runTrial(readProgram(readWholeFile(program), program), std::move(ready.setup), options);
}

}  // namespace firstoff::gui
