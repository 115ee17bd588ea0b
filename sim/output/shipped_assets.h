// Where the files that come with firstoff lie: demo jobs, lessons, examples of machines and tools.
#pragma once

#include <filesystem>

namespace firstoff {

// Looks for `name` ("jobs/coupling-spigot.nc", "lessons") in $FIRSTOFF_ASSETS and nowhere else where that is set;
// otherwise in share/firstoff below the prefix under which the running program lies, then where the assets were
// installed, then in the source tree. Empty if it is in none.
std::filesystem::path shippedAsset(const std::filesystem::path& name);

}  // namespace firstoff
