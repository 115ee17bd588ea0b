#include "sim/control/nose_compensation.h"

#include <gtest/gtest.h>

#include <cmath>
#include <sstream>
#include <string>

#include "sim/base/units.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

using Kind = CompensationIssue::Kind;

// A path as a turner tells it: where it starts and where each block goes to; z and radius. Tags count from 0.
class Contour {
public:
    explicit Contour(Point start) : at_(start) {}
    Contour& to(Point p, MoveKind kind = MoveKind::Feed) { return add(p, {}, kind); }
    Contour& clockwise(Point p, Point centre) { return add(p, centre, MoveKind::ArcClockwise); }
    Contour& anticlockwise(Point p, Point centre) { return add(p, centre, MoveKind::ArcAnticlockwise); }
    const std::vector<PathElement>& elements() const { return elements_; }

private:
    Contour& add(Point p, Point centre, MoveKind kind) {
        elements_.push_back({at_, p, centre, kind, static_cast<std::uint32_t>(elements_.size())});
        at_ = p;
        return *this;
    }
    Point at_;
    std::vector<PathElement> elements_;
};

struct Compensated {
    std::vector<PathElement> path;
    std::vector<CompensationIssue> issues;
};

Compensated run(const Contour& contour, Compensation side, double noseRadius, int tip, bool cancelled = false) {
    Compensated result;
    result.path = compensate(contour.elements(), {side, noseRadius, tip}, cancelled, result.issues);
    return result;
}

// Coordinates up to 100 mm and a handful of operations on them.
constexpr double kRounding = 1e-12;

void expectAt(Point is, Point should, const std::string& what = "") {
    EXPECT_NEAR(is.z, should.z, kRounding) << what << " z";
    EXPECT_NEAR(is.r, should.r, kRounding) << what << " r";
}

void expectEnds(const Compensated& r, const std::vector<Point>& ends) {
    ASSERT_EQ(r.path.size(), ends.size());
    for (std::size_t i = 0; i < ends.size(); ++i)
        expectAt(r.path[i].to, ends[i], "end of stretch " + std::to_string(i));
}

// The imaginary tip touches the lines through it that are parallel to the axes (elementary geometry), so on a cylinder
// the tip keeps the programmed radius and on a face the programmed z, whatever the nose, for every tip that has that
// side.
TEST(NoseCompensation, TipKeepsTheProgrammedSizeOnCylinderAndFaceForEveryTip) {
    struct Row {
        int tip;
        Point onCylinder, onFace;  // how far the tip stands off the programmed line for a nose of 1
    };
    // Cylinder outside towards the chuck: centre 1 above the line. Face outwards-in with the tool right of it: centre
    // at +z.
    const Row rows[] = {{0, {0, 1}, {1, 0}},  {1, {1, 2}, {2, 1}}, {2, {-1, 2}, {0, 1}}, {3, {-1, 0}, {0, -1}},
                        {4, {1, 0}, {2, -1}}, {5, {1, 1}, {2, 0}}, {6, {0, 2}, {1, 1}},  {7, {-1, 1}, {0, 0}},
                        {8, {0, 0}, {1, -1}}, {9, {0, 1}, {1, 0}}};
    for (const Row& row : rows) {
        const double rho = 0.8;
        const Compensated cylinder = run(Contour({5, 20}).to({2, 20}).to({-30, 20}), Compensation::Right, rho, row.tip);
        expectEnds(cylinder, {Point{2, 20} + rho * row.onCylinder, Point{-30, 20} + rho * row.onCylinder});
        const Compensated face = run(Contour({0, 30}).to({0, 25}).to({0, 5}), Compensation::Left, rho, row.tip);
        expectEnds(face, {Point{0, 25} + rho * row.onFace, Point{0, 5} + rho * row.onFace});
    }
}

// Published and recomputed shifts of the programme for a taper cut without compensation; with compensation the tip must
// run by just that much off the programmed taper. Last decimal of the rows: 5e-6.
TEST(NoseCompensation, MovesTheTipOnATaperByThePublishedShifts) {
    std::istringstream rows(shop::readFile("tests/reference/nose_compensation_rows.csv"));
    std::string line;
    std::getline(rows, line);
    int count = 0;
    while (std::getline(rows, line)) {
        std::istringstream cells(line);
        std::string name, angle, nose, shiftX, shiftZ, left;
        for (std::string* cell : {&name, &angle, &nose, &shiftX, &shiftZ, &left}) std::getline(cells, *cell, ',');
        if (name != "taper") continue;
        SCOPED_TRACE(line.substr(0, 40));
        ++count;
        const double a = radians(std::stod(angle));
        const Point t{-std::cos(a), std::sin(a)};
        const Point start{0, 10};
        const Compensated r =
            run(Contour({2, 8}).to(start).to(start + 40 * t), Compensation::Right, std::stod(nose), 3);
        const Point shift = r.path[1].to - (start + 40 * t);
        const double normal = dot(shift, {std::sin(a), std::cos(a)});
        EXPECT_NEAR(-normal / std::cos(a), std::stod(shiftX), 5.1e-6);
        EXPECT_NEAR(-normal / std::sin(a), std::stod(shiftZ), 5.1e-6);
        if (!left.empty()) {
            EXPECT_NEAR(-normal, std::stod(left), 5.1e-6);
        }
    }
    EXPECT_EQ(count, 25);
}

// Axial shift r (1 - tan(A/2)); at 45° with r 0.8 it is 0.46863, and 0.33137 normal to the face. Elementary geometry.
TEST(NoseCompensation, ChamferIsReachedFromTheClosedFormula) {
    const double rho = 0.8;
    const double shift = rho * (1 - std::tan(radians(22.5)));
    EXPECT_NEAR(shift, 0.46863, 5e-6);
    // Face to X16, chamfer 2 x 45°, diameter 20 back to Z-20.
    const Compensated r =
        run(Contour({5, 5}).to({0, 5}).to({0, 8}).to({-2, 10}).to({-20, 10}), Compensation::Right, rho, 3);
    EXPECT_TRUE(r.issues.empty());
    expectEnds(r, {{0, 4.2}, {0, 8 - shift}, {-2 - shift, 10}, {-20.8, 10}});
}

// From the tip to where the nose touches a 45° face: 2r(1 - cos a) in diameter, r(1 - sin a) in z.
// Source: carbide-tooling.com, page on nose radius compensation (prints 0.47 and 0.23 for r 0.8).
TEST(NoseCompensation, TouchesAChamferWhereThePublishedOffsetSays) {
    const double rho = 0.8, h = std::sqrt(0.5);
    const Compensated r = run(Contour({2, 8}).to({0, 10}).to({-5, 15}), Compensation::Right, rho, 3);
    const Point touch{-5, 15};
    EXPECT_NEAR(2 * (touch.r - r.path[1].to.r), 2 * rho * (1 - h), kRounding);
    EXPECT_NEAR(touch.z - r.path[1].to.z, rho * (1 - h), kRounding);
    EXPECT_NEAR(2 * rho * (1 - h), 0.47, 0.005);  // last decimal printed
    EXPECT_NEAR(rho * (1 - h), 0.23, 0.005);
}

// Nose centre (tip 0, nose radius 1) at the corner of two lines. Common practice, no source.
TEST(NoseCompensation, CornersTable) {
    struct Row {
        const char* name;
        Compensation side;
        Point before, corner, after;
        std::vector<Point> centres;  // from the end of the first element to the start of the second
    };
    constexpr Compensation left = Compensation::Left, right = Compensation::Right;
    const double h = std::sqrt(0.5);
    const double t = std::tan(radians(22.5));
    const Row rows[] = {
        {"inside 90", right, {0, 10}, {-10, 10}, {-10, 20}, {{-9, 11}}},
        {"inside 45", right, {0, 10}, {-10, 10}, {-20, 20}, {{-10 + t, 11}}},
        {"inside 135", right, {0, 10}, {-10, 10}, {0, 20}, {{-10 + 1 / t, 11}}},
        {"outside 45", right, {10, 0}, {0, 10}, {-10, 10}, {{t, 11}}},
        {"outside 90", right, {0, 0}, {0, 10}, {-10, 10}, {{1, 11}}},
        // More than 90°: each is lengthened by the nose radius, and a straight piece joins them.
        {"outside 135", left, {-10, 0}, {0, 10}, {0, 0}, {{0, 10 + 2 * h}, {1, 11}}},
        {"back on itself", right, {0, 0}, {0, 10}, {0, 0}, {{1, 11}, {-1, 11}}},
        {"straight on", right, {0, 10}, {-10, 10}, {-20, 10}, {{-10, 11}}},
    };
    for (const Row& row : rows) {
        SCOPED_TRACE(row.name);
        const Point startUp = row.before - (row.corner - row.before);
        const Compensated r = run(Contour(startUp).to(row.before).to(row.corner).to(row.after), row.side, 1, 0);
        EXPECT_TRUE(r.issues.empty());
        ASSERT_EQ(r.path.size(), 2 + row.centres.size());
        for (std::size_t i = 0; i < row.centres.size(); ++i) expectAt(r.path[1 + i].to, row.centres[i]);
        EXPECT_EQ(r.path[1].tag, 1u);
        EXPECT_EQ(r.path.back().tag, 2u);
    }
}

// Programme R + r for an outside corner and R - r for an inside one: rule from a public machinist forum, and elementary
// geometry.
TEST(NoseCompensation, ArcsGrowByTheNoseOnTheOutsideAndShrinkByItOnTheInside) {
    const double rho = 0.8;
    // Face outwards, radius 3 on the edge, cylinder to a fillet of 2, face outwards.
    const Contour contour = Contour({2, 2})
                                .to({0, 2})
                                .to({0, 7})
                                .anticlockwise({-3, 10}, {-3, 7})
                                .to({-20, 10})
                                .clockwise({-22, 12}, {-20, 12})
                                .to({-22, 20});
    const Compensated r = run(contour, Compensation::Right, rho, 0);
    EXPECT_TRUE(r.issues.empty());
    ASSERT_EQ(r.path.size(), 6u) << "a tangent joint must add nothing";
    EXPECT_EQ(r.path[2].kind, MoveKind::ArcAnticlockwise);
    EXPECT_NEAR(distance(r.path[2].from, r.path[2].centre), 3 + rho, kRounding);
    EXPECT_NEAR(distance(r.path[2].to, r.path[2].centre), 3 + rho, kRounding);
    EXPECT_EQ(r.path[4].kind, MoveKind::ArcClockwise);
    EXPECT_NEAR(distance(r.path[4].from, r.path[4].centre), 2 - rho, kRounding);
    EXPECT_NEAR(distance(r.path[4].to, r.path[4].centre), 2 - rho, kRounding);
}

// A 30° taper into a tangent fillet, its coordinates rounded to 0.001 mm as a program writes them.
TEST(NoseCompensation, JointsThatAreTangentButForRoundingAddNothing) {
    const auto rounded = [](Point p) { return Point{std::round(p.z * 1000) / 1000, std::round(p.r * 1000) / 1000}; };
    for (const double radius : {0.5, 1.5, 5.0, 40.0}) {
        for (const double degreesUp : {7.0, 30.0, 61.3}) {
            const double a = radians(degreesUp);
            const Point t{-std::cos(a), std::sin(a)};
            const Point p{-10, 12};
            const Point centre = p + radius * leftOf(t);  // convex: bends away from a tool on the right
            const Point end = centre + Point{0, radius};
            const Compensated r = run(Contour({3, 5})
                                          .to(rounded(p - 8 * t))
                                          .to(rounded(p))
                                          .anticlockwise(rounded(end), rounded(centre))
                                          .to(rounded(end + Point{-5, 0})),
                                      Compensation::Right, 0.8, 3);
            EXPECT_TRUE(r.issues.empty());
            EXPECT_EQ(r.path.size(), 4u) << "radius " << radius << " taper " << degreesUp;
        }
    }
}

TEST(NoseCompensation, ArcAtAnOutsideCornerIsLengthenedAlongItsTangent) {
    // Hollow quarter circle up to (-5, 15), then along -z: a turn of 90° at its end.
    const Compensated r =
        run(Contour({5, 10}).to({0, 10}).clockwise({-5, 15}, {0, 15}).to({-20, 15}), Compensation::Right, 1, 0);
    EXPECT_TRUE(r.issues.empty());
    expectEnds(r, {{0, 11}, {-4, 15}, {-4, 16}, {-20, 16}});
    EXPECT_EQ(r.path[2].kind, MoveKind::Feed);
    EXPECT_EQ(r.path[2].tag, 1u);
}

TEST(NoseCompensation, InsideCornerOfLineAndArcIsWhereTheOffsetsMeet) {
    // Along -z into a ball of radius 10 standing in the way: centre where y = 1 meets the circle of 11 about it.
    const Compensated r =
        run(Contour({30, 0}).to({20, 0}).to({10, 0}).anticlockwise({0, 10}, {0, 0}), Compensation::Right, 1, 0);
    EXPECT_TRUE(r.issues.empty());
    expectEnds(r, {{20, 1}, {std::sqrt(120.0), 1}, {0, 11}});
    // Two balls side by side, radius 10, centres 16 apart, meeting at r = 6: nose centre on both circles of 11.
    const Compensated balls =
        run(Contour({20, 0}).to({18, 0}).anticlockwise({0, 6}, {8, 0}).anticlockwise({-18, 0}, {-8, 0}),
            Compensation::Right, 1, 0);
    EXPECT_TRUE(balls.issues.empty());
    ASSERT_EQ(balls.path.size(), 3u);
    expectAt(balls.path[1].to, {0, std::sqrt(121.0 - 64.0)});
}

TEST(NoseCompensation, StartsAndEndsAtTheUncompensatedTip) {
    const Contour contour = Contour({5, 30}).to({2, 10}, MoveKind::Rapid).to({-10, 10}).to({-10, 15}).to({5, 30});
    const Compensated r = run(contour, Compensation::Right, 0.8, 3, true);
    ASSERT_EQ(r.path.size(), 4u);
    EXPECT_EQ(r.path.front().from, (Point{5, 30}));
    EXPECT_EQ(r.path.front().kind, MoveKind::Rapid);
    expectEnds(r, {{1.2, 10}, {-10, 10}, {-10, 14.2}, {5, 30}});
}

TEST(NoseCompensation, StretchesOfNoLengthPassAndAreNoCorners) {
    const Contour contour =
        Contour({5, 10}).to({5, 10}).to({2, 10}).to({2, 10}).to({-10, 10}).to({-10, 10}).to({-10, 20});
    const Compensated r = run(contour, Compensation::Right, 1, 0);
    expectEnds(r, {{5, 10}, {2, 11}, {2, 11}, {-9, 11}, {-9, 11}, {-9, 20}});
    for (std::size_t i = 0; i < r.path.size(); ++i) EXPECT_EQ(r.path[i].tag, i);
}

TEST(NoseCompensation, CancellingWithoutAMoveRunsBackToTheProgrammedPoint) {
    const Compensated r =
        run(Contour({5, 10}).to({2, 10}).to({-10, 10}).to({-10, 10}), Compensation::Right, 1, 0, true);
    expectEnds(r, {{2, 11}, {-10, 11}, {-10, 10}});
}

// Nose radius 1, tip 0: centre paths. Common practice, no source.
TEST(NoseCompensation, StartUpAndCancellingRoundAnOutsideCorner) {
    const auto roundTheCorner = [](const Contour& contour, bool cancelled) {
        Compensated r;
        r.path = compensate(contour.elements(), {Compensation::Right, 1, 0, CompensationStart::B}, cancelled, r.issues);
        EXPECT_TRUE(r.issues.empty());
        return r;
    };
    const double h = std::sqrt(0.5), t = std::tan(radians(22.5));
    expectEnds(roundTheCorner(Contour({0, 0}).to({0, 10}).to({-10, 10}), false), {{1, 11}, {-10, 11}});
    expectEnds(roundTheCorner(Contour({0, 0}).to({0, 10}).to({-10, 20}), false), {{1, 10 + t}, {-10 + h, 20 + h}});
    // An arc is not lengthened: straight from the intersection to where it begins.
    expectEnds(roundTheCorner(Contour({0, 0}).to({0, 10}).clockwise({-5, 15}, {0, 15}), false),
               {{1, 11}, {0, 11}, {-4, 15}});
    // Cancelled by a move down behind a cylinder.
    expectEnds(roundTheCorner(Contour({5, 20}).to({2, 10}).to({-10, 10}).to({-10, 0}), true),
               {{2, 11}, {-11, 11}, {-10, 0}});
    // By one that runs back: on by the radius, and across.
    expectEnds(roundTheCorner(Contour({5, 20}).to({2, 10}).to({-10, 10}).to({0, 0}), true),
               {{2, 11}, {-11, 11}, {-10 - 2 * h, 10}, {0, 0}});
    // Inside corners are as with A.
    expectEnds(roundTheCorner(Contour({5, 20}).to({2, 10}).to({-10, 10}).to({-10, 20}), true),
               {{2, 11}, {-10, 11}, {-10, 20}});
}

// Nose radius 1, tip 0. Common practice, no source.
TEST(NoseCompensation, AChangeOfSideGoesAcrossAtTheSharedPoint) {
    struct Change {
        const char* name;
        Point after;
        double across;  // 0: no issue
        std::vector<Point> ends;
    };
    const Change rows[] = {
        {"back", {0, 10}, 0, {{0, 11}, {-10, 11}, {0, 11}}},
        {"straight on", {-20, 10}, 0, {{0, 11}, {-10, 11}, {-10, 9}, {-20, 9}}},
        {"square", {-10, 20}, std::sqrt(2.0), {{0, 11}, {-10, 11}, {-11, 10}, {-11, 20}}},
    };
    for (const Change& row : rows) {
        SCOPED_TRACE(row.name);
        std::vector<PathElement> elements = Contour({5, 20}).to({0, 10}).to({-10, 10}).to(row.after).elements();
        elements.back().changesSide = true;
        Compensated r;
        r.path = compensate(elements, {Compensation::Right, 1, 0}, false, r.issues);
        expectEnds(r, row.ends);
        ASSERT_EQ(r.issues.size(), row.across > 0 ? 1u : 0u);
        if (row.across == 0) continue;
        EXPECT_EQ(r.issues[0].kind, Kind::SideChange);
        EXPECT_EQ(r.issues[0].tag, 2u);
        EXPECT_NEAR(r.issues[0].amountMm, row.across, kRounding);
    }
}

// In the middle of a fillet of radius a the nose stays (rho - a)(sqrt 2 - 1) off, for a turn of 90° (elementary
// geometry).
TEST(NoseCompensation, SaysWhatStaysInAFilletSmallerThanTheNose) {
    const Compensated r =
        run(Contour({5, 10}).to({2, 10}).to({-9.6, 10}).clockwise({-10, 10.4}, {-9.6, 10.4}).to({-10, 20}),
            Compensation::Right, 1, 3);
    ASSERT_EQ(r.issues.size(), 1u);
    EXPECT_NEAR(r.issues[0].uncutMm, 0.6 * (std::sqrt(2.0) - 1), kRounding);
}

TEST(NoseCompensation, OffOrNothingBetweenOnAndOff) {
    const Contour contour = Contour({5, 10}).to({2, 10}).to({-10, 10});
    expectEnds(run(contour, Compensation::Off, 0.8, 3), {{2, 10}, {-10, 10}});
    expectEnds(run(Contour({5, 10}).to({2, 10}), Compensation::Left, 1, 0, true), {{2, 10}});
    expectEnds(run(Contour({5, 10}).to({2, 10}), Compensation::Right, 1, 0), {{2, 11}});
    expectEnds(run(Contour({5, 10}).to({2, 10}).to({5, 20}), Compensation::Right, 1, 0, true), {{2, 11}, {5, 20}});
    EXPECT_TRUE(run(Contour({5, 10}), Compensation::Right, 0.8, 3, true).path.empty());
}

TEST(NoseCompensation, NoseOfNoRadiusRunsTheProgrammedPath) {
    const Contour contour =
        Contour({5, 2}).to({0, 2}).to({0, 7}).anticlockwise({-3, 10}, {-3, 7}).to({-20, 10}).to({-15, 30});
    const Compensated r = run(contour, Compensation::Right, 0, 3);
    ASSERT_EQ(r.path.size(), contour.elements().size());
    for (std::size_t i = 0; i < r.path.size(); ++i) expectAt(r.path[i].to, contour.elements()[i].to);
}

struct IssueRow {
    const char* name;
    Contour contour;
    bool cancelled;
    Kind kind;
    std::uint32_t tag;
    double amount;
    std::vector<Point> ends;  // of the centre path (tip 0)
};

// Nose radius 1, tool on the right.
TEST(NoseCompensation, IssuesTable) {
    const double t = std::tan(radians(22.5));
    const IssueRow rows[] = {
        // The nose leaves its own radius in the corner.
        {"fillet of 0.4",
         Contour({5, 10}).to({2, 10}).to({-9.6, 10}).clockwise({-10, 10.4}, {-9.6, 10.4}).to({-10, 20}),
         false,
         Kind::InsideArcTooSmall,
         2,
         0.6,
         {{2, 11}, {-9, 11}, {-9, 11}, {-9, 20}}},
        {"inside chamfer too small",
         Contour({5, 10}).to({2, 10}).to({-9.5, 10}).to({-10, 10.5}).to({-10, 20}),
         false,
         Kind::NoRoom,
         2,
         2 * t - std::sqrt(0.5),
         {{2, 11}, {-9, 11}, {-9, 11}, {-9, 20}}},
        // Walls 1 apart, nose 2 wide: it cannot touch the bottom. The bottom becomes a straight link.
        {"groove narrower than the nose",
         Contour({5, 20}).to({0, 20}).to({0, 10}).to({-1, 10}).to({-1, 20}).to({-5, 20}),
         false,
         Kind::NoRoom,
         2,
         1,
         {}},
        {"first element too short",
         Contour({5, 10}).to({0, 10}).to({-0.3, 10}).to({-0.3, 20}),
         false,
         Kind::NoRoom,
         1,
         0.7,
         {{0, 11}, {0.7, 10}, {0.7, 20}}},
        {"last element too short",
         Contour({5, 10}).to({0, 10}).to({-10, 10}).to({-10, 10.4}),
         false,
         Kind::NoRoom,
         2,
         0.6,
         {{0, 11}, {-9, 11}, {-9, 10.4}}},
        {"start-up on an arc",
         Contour({5, 10}).anticlockwise({0, 15}, {0, 10}).to({-10, 15}),
         false,
         Kind::StartOnArc,
         0,
         0,
         {{0, 16}, {-10, 16}}},
        {"cancelled on an arc",
         Contour({5, 10}).to({0, 10}).to({-10, 10}).clockwise({-15, 15}, {-10, 15}),
         true,
         Kind::CancelOnArc,
         2,
         0,
         {{0, 11}, {-10, 11}, {-15, 15}}},
    };
    for (const IssueRow& row : rows) {
        SCOPED_TRACE(row.name);
        const Compensated r = run(row.contour, Compensation::Right, 1, 0, row.cancelled);
        ASSERT_EQ(r.issues.size(), 1u);
        EXPECT_EQ(r.issues[0].kind, row.kind);
        EXPECT_EQ(r.issues[0].tag, row.tag);
        EXPECT_NEAR(r.issues[0].amountMm, row.amount, kRounding);
        if (!row.ends.empty()) expectEnds(r, row.ends);
    }
}

// A fillet with the very radius of the nose is cut by standing still, and one that is smaller only by the rounding of
// the program's decimals is taken the same way.
TEST(NoseCompensation, FilletOfTheNoseRadiusIsNoIssue) {
    for (const double radius : {0.8, 0.7995}) {
        const Contour contour = Contour({5, 10})
                                    .to({2, 10})
                                    .to({-10 + radius, 10})
                                    .clockwise({-10, 10 + radius}, {-10 + radius, 10 + radius})
                                    .to({-10, 20});
        const Compensated r = run(contour, Compensation::Right, 0.8, 0);
        EXPECT_TRUE(r.issues.empty());
        expectEnds(r, {{2, 10.8}, {-9.2, 10.8}, {-9.2, 10.8}, {-9.2, 20}});
    }
}

// A hollow quarter of radius 0.5 written as many short lines: all of them are too short, but each by very little where
// there are thousands. None may throw the path about, and the loss may not go unreported.
TEST(NoseCompensation, ManyShortElementsWithoutRoomLeaveTheWallsJoined) {
    for (const int count : {2, 100, 100'000}) {
        Contour contour({5, 10});
        contour.to({2, 10}).to({-9.5, 10});
        for (int i = 1; i <= count; ++i) {
            const double a = kPi / 2 * i / count;
            contour.to({-9.5 - 0.5 * std::sin(a), 10.5 - 0.5 * std::cos(a)});
        }
        contour.to({-10, 20});
        const Compensated r = run(contour, Compensation::Right, 1, 0);
        EXPECT_FALSE(r.issues.empty()) << count;
        for (std::size_t i = 1; i + 1 < r.path.size(); ++i) expectAt(r.path[i].to, {-9, 11});
    }
}

// The nose inside a ring smaller than itself, again in steps that each lack next to nothing.
TEST(NoseCompensation, ARingSmallerThanTheNoseIsReportedHoweverFinelyItIsWritten) {
    Contour contour({2, 0});
    contour.to({0.5, 0});
    const int count = 100'000;
    for (int i = 1; i < count; ++i) {
        const double a = -2 * kPi * i / count;
        contour.to({0.5 * std::cos(a), 0.5 * std::sin(a)});
    }
    const Compensated r = run(contour, Compensation::Right, 1, 0);
    double lost = 0;
    for (const CompensationIssue& issue : r.issues) lost += issue.amountMm;
    // The centre would have to run a ring of radius 0.5 backwards; the first element and the last each have one free
    // end.
    EXPECT_NEAR(lost, kPi, 0.002);
}

}  // namespace
}  // namespace firstoff
