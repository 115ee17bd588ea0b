// Bodies that the set-up names as mesh files, read from beside it.
#pragma once

#include <filesystem>

#include "sim/setup/setup.h"

namespace firstoff {

// The set-up with the triangles of every such body in place. In the file x is across, towards the turret, z along the
// spindle axis and y completes them: (x, y, z) of the file is (r, y, z) of the body's frame, after the file's figures
// have been taken in its unit, turned about z by ExtraBody::turnZ from x towards y, and shifted to where its origin
// stands.
//
// What fails is a finding of the set-up at the body, severity Stop and not proven, never an exception but for want of
// memory; the body then has no triangles. `setupFile` may be empty for a set-up that was never saved: then no file can
// be found. Does nothing, and loads no reader, where the set-up names no mesh.
Setup withBodies(Setup setup, const std::filesystem::path& setupFile);

}  // namespace firstoff
