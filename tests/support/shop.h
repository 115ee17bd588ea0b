// A small vocabulary for tests and benchmarks, so that a case reads as shop talk. Dimensions as a turner says them:
// diameters and lengths in mm.
#pragma once

#include <string>
#include <string_view>

#include "sim/setup/setup.h"

namespace firstoff::shop {

// A lathe with a 165 mm chuck, rear turret of 12 stations, and a bar held so that its front face stands at lathe z =
// `frontZ`; datum G54 at `datumZ` (lathe frame). Tools are added with the functions below.
Setup lathe();
// Solid bar (or tube with a bore) of `diameter`, sticking out `stickOut` in front of the jaws, datum `faceProud` behind
// the front face.
Setup barStock(double diameter, double stickOut, double faceProud = 1.0, double bore = 0.0);

Tool& addTurningTool(Setup& setup, int station, char shape, double noseRadius, double enteringAngleDeg = 95);
Tool& addBoringBar(Setup& setup, int station, char shape, double noseRadius, double enteringAngleDeg = 95);
Tool& addGroovingTool(Setup& setup, int station, double width, double cornerRadius);
Tool& addPartingTool(Setup& setup, int station, double width, double cornerRadius);
// A 60° partial profile with a nose of 0.1, gauged at its point.
Tool& addThreadingTool(Setup& setup, int station, double angleDeg = 60);
Tool& addInsideThreadingTool(Setup& setup, int station, double angleDeg = 60);
Tool& addTap(Setup& setup, int station, double diameter, double pitch);
Tool& addDrill(Setup& setup, int station, double diameter, double pointAngleDeg = 118);

// The set-up file of the demo spigot without the drawing of that part, for other programs.
std::string spigotSetupWithoutDrawing();

// Contents of a file of the source tree, e.g. read("assets/jobs/spigot.nc"). Throws std::runtime_error if it is
// missing.
std::string readFile(std::string_view pathInTree);

}  // namespace firstoff::shop
