// Reads solids back from files: by a general-purpose library (Open Asset Import Library), and STL by hand.
#pragma once

#include <array>
#include <string>
#include <vector>

namespace firstoff::shop {

struct ReadBody {
    std::string name;
    std::vector<std::array<double, 3>> points;  // as the file has them
    std::vector<std::array<std::uint32_t, 3>> triangles;
    std::size_t coloured = 0;  // points that carry a colour
    std::size_t lit = 0;       // points whose normal is of length 1 to a thousandth
    double volume() const;
};

// Throws std::runtime_error with the library's words if it cannot read the file.
std::vector<ReadBody> readSolids(const std::string& path);

// Binary STL as its layout says it; one body, three points a triangle.
ReadBody readStlByHand(const std::string& bytes);

}  // namespace firstoff::shop
