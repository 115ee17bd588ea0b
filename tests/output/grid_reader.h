// Reads level sets back from a file with OpenVDB.
#pragma once

#include <string>
#include <vector>

namespace firstoff::shop {

struct ReadGrid {
    std::string name, unit;
    double voxelMm = 0;
    bool isLevelSet = false;
    double volumeMm3 = 0;
};

std::vector<ReadGrid> readGrids(const std::string& path);

}  // namespace firstoff::shop
