#include "tests/output/grid_reader.h"

#include <openvdb/openvdb.h>
#include <openvdb/tools/LevelSetMeasure.h>

namespace firstoff::shop {

std::vector<ReadGrid> readGrids(const std::string& path) {
    openvdb::initialize();
    openvdb::io::File file(path);
    file.open();
    std::vector<ReadGrid> result;
    const openvdb::GridPtrVecPtr grids = file.getGrids();
    for (const openvdb::GridBase::Ptr& base : *grids) {
        const auto grid = openvdb::gridPtrCast<openvdb::FloatGrid>(base);
        ReadGrid read;
        read.name = base->getName();
        read.unit = base->metaValue<std::string>("length_unit");
        read.voxelMm = base->voxelSize().x();
        read.isLevelSet = base->getGridClass() == openvdb::GRID_LEVEL_SET;
        read.volumeMm3 = openvdb::tools::levelSetVolume(*grid);
        result.push_back(read);
    }
    return result;
}

}  // namespace firstoff::shop
