#include "tests/bench/nearness_scenes.h"

#include <cmath>

#include "sim/base/units.h"
#include "tests/support/tip_path.h"

namespace firstoff::bench {

const std::vector<ConvexPiece>& holderPieces() {
    static const std::vector<ConvexPiece> made = [] {
        std::vector<ConvexPiece> pieces;
        for (int i = 0; i < 9; ++i) {
            pieces.push_back(boxPiece({i * 5.0 - 20, i * 8.0, -10}, {i * 5.0 + 5, i * 8.0 + 20, 10.0 + i}));
        }
        pieces.push_back(cylinderPiece(-10, 40, 30, 100, 0));
        return pieces;
    }();
    return made;
}

std::vector<ConvexPiece> turnedMesh(int wanted, const std::vector<Point>& half) {
    const int rows = static_cast<int>(half.size()), round = wanted / (2 * (rows - 1));
    const auto at = [&](int row, int k) {
        const double turn = 2 * kPi * k / round;
        const Point p = half[static_cast<std::size_t>(row)];
        return SpacePoint{p.z, p.r * std::cos(turn), p.r * std::sin(turn)};
    };
    std::vector<ConvexPiece> triangles;
    for (int row = 0; row + 1 < rows; ++row) {
        for (int k = 0; k < round; ++k) {
            const SpacePoint a = at(row, k), b = at(row, (k + 1) % round), c = at(row + 1, k),
                             d = at(row + 1, (k + 1) % round);
            ConvexPiece triangle;
            if (!(a == b)) {
                triangle.corners = {a, b, d};
                triangles.push_back(triangle);
            }
            if (!(c == d)) {
                triangle.corners = {a, d, c};
                triangles.push_back(triangle);
            }
        }
    }
    return triangles;
}

std::vector<ConvexPiece> chuckMesh(int wanted) {
    std::vector<Point> half{{-80, 0}};
    for (int i = 0; i <= 40; ++i) half.push_back({-80 + 2.0 * i, 82});
    for (int i = 0; i <= 20; ++i) half.push_back({1.5 * i, 60});
    half.push_back({30, 0});
    return turnedMesh(wanted, half);
}

std::vector<Point> startsBeside(double off) {
    shop::Dice dice(3);
    std::vector<Point> starts;
    for (int i = 0; i < 1000; ++i) starts.push_back({50 + off + dice.between(0, 5), dice.between(0, 100)});
    return starts;
}

}  // namespace firstoff::bench
