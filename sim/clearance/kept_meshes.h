// Meshes made ready for measuring, kept from one trial to the next: after an edit of the program the same files stand
// in the machine, and laying a tree over 100,000 triangles takes longer than all the rest.
#pragma once

#include <memory>

#include "sim/clearance/body_tree.h"

namespace firstoff {

// What was kept for the very same triangles (every corner equal), or null. `corners`: a mesh of which only the corners
// are laid out. For any number of threads at once.
std::shared_ptr<const BodyShape::Data> keptMesh(const BodyShape::Data& corners);

// The least recently asked for go when all together take more than kMostKeptBytes.
void keepMesh(const std::shared_ptr<const BodyShape::Data>& mesh);
inline constexpr std::size_t kMostKeptBytes = std::size_t{256} << 20;

}  // namespace firstoff
