// The part at an instant as a file for other programs.
//
// Lengths are mm, in a frame of the part: Z along the spindle axis, 0 at sectionDatum(), X towards the turret at the
// spindle marker, Y making it right-handed. Pieces that have fallen stand where they were cut off. The same trial gives
// the same bytes.
//
//   .stl  binary; all pieces in one
//   .3mf  an object a piece, 3MF Core Specification 1.2
//   .glb  glTF 2.0, in metres as that standard wants it, a mesh a piece; the colour of the tool at every corner
//   .vdb  a level set a piece, mm
//   .svg  the half-section of one meridian, true to scale, metal hatched
//   .dxf  the same without hatching: closed polylines within the tolerance, a layer a piece, and the axis
//   .csv  the same as points, as sectionTable() has them; `toleranceMm` does not count
#pragma once

#include <filesystem>
#include <optional>
#include <string_view>

#include "sim/trial/trial.h"

namespace firstoff {

enum class PartFileKind : std::uint8_t { Stl, ThreeMf, Glb, Vdb, Svg, Dxf, Csv };

// By the ending of the name, large or small letters.
std::optional<PartFileKind> partFileKind(const std::filesystem::path& path);
std::string_view partFileEndings();  // "stl, 3mf, …", for messages

struct PartFileOptions {
    std::optional<int> piece;    // 0: what is held, 1…: pieces that fell; without: all of them
    double toleranceMm = 0.005;  // greatest distance of the surface in the file from the part
    double voxelMm = 0.1;        // of a level set
    double angle = 0;            // of the meridian of svg and dxf, rad, see sectionAngle() in tables.h
};

// Throws std::runtime_error with a plain message, and leaves nothing behind then, if the file cannot be written or
// there is nothing to write.
void writePartFile(const Trial& trial, double timeS, const std::filesystem::path& path, PartFileKind kind,
                   const PartFileOptions& options = {});

}  // namespace firstoff
