// Closed meshes as level sets, for programs that work on volumes.
#pragma once

#include <filesystem>
#include <vector>

#include "sim/output/solid_files.h"

namespace firstoff {

// Throws std::runtime_error, naming a size that does, if voxels of this size would not fit into memory.
void checkGridSize(const std::vector<SolidBody>& bodies, double voxelMm);

// An OpenVDB file with a grid a body: distance from the surface, mm, negative within the metal, three voxels to either
// side. Grids are named after the bodies and carry the metadata length_unit = "mm" and voxel_size_mm. Throws
// std::runtime_error if it cannot be written. The only source that knows OpenVDB.
void writePartGrid(const std::vector<SolidBody>& bodies, double voxelMm, const std::filesystem::path& path);

}  // namespace firstoff
