// Where the columns of a billet stand along the spindle axis.
#pragma once

namespace firstoff {

inline constexpr int kChunkColumns = 64;  // columns that are stored, shared and copied together
inline constexpr int kSlabChunks = 16;    // chunks that one worker cuts on its own

// Column i stands at z0 + (i + 0.5) * pitch. z0 is a whole number of pitches from the lathe's zero, so that round
// coordinates of faces fall on the border between two columns.
struct Grid {
    double z0 = 0;     // mm, lathe frame
    double pitch = 0;  // mm
    int columns = 0;

    double z(int column) const { return z0 + (static_cast<double>(column) + 0.5) * pitch; }
    // Border between `column` - 1 and `column`.
    double border(int column) const { return z0 + static_cast<double>(column) * pitch; }

    int chunks() const { return (columns + kChunkColumns - 1) / kChunkColumns; }
    int slabs() const { return (chunks() + kSlabChunks - 1) / kSlabChunks; }

    // The column whose pitch-wide stretch holds `zMm`; -1 left of the grid, `columns` or `columns` + 1 right of it.
    int columnNear(double zMm) const {
        const double x = (zMm - z0) / pitch;
        if (!(x >= 0)) return -1;
        if (x > static_cast<double>(columns) + 1) return columns + 1;
        return static_cast<int>(x);
    }
};

}  // namespace firstoff
