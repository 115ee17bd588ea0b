// What waits while a path is compensated, and what may not stand in it.
#include "sim/control/path_recorder.h"

#include <gtest/gtest.h>

#include <string>

namespace firstoff {
namespace {

struct Recording {
    Program program = readProgram("G42\nZ-10.\nG32 Z-20. F2.\nZ-30.\n", "recording");
    Toolpath path;
    Remarks remarks{program, path.findings};
    PathRecorder recorder{path, remarks, {5, 20}};

    void move(MoveKind kind, Point to, BlockId block) {
        Move move;
        move.kind = kind;
        move.to = to;
        move.block = block;
        recorder.add(move);
    }
    CompensationOrder order(Compensation side = Compensation::Right) {
        CompensationOrder result;
        result.setting = {side, 1, 3};
        result.tipOfTool = 3;
        result.block = 0;
        return result;
    }
};

TEST(PathRecorder, RefusesAThreadUnderCompensationAndGoesOnFromWhereItStands) {
    Recording r;
    r.recorder.startCompensation(r.order());
    r.move(MoveKind::Feed, {2, 10}, 0);
    r.move(MoveKind::Feed, {-10, 10}, 1);
    r.move(MoveKind::Thread, {-20, 10}, 2);
    r.move(MoveKind::Feed, {-30, 10}, 3);
    r.recorder.settle();
    ASSERT_EQ(r.path.moves.size(), 4u);
    EXPECT_EQ(r.path.moves[1].to, (Point{-11, 10}));
    EXPECT_EQ(r.path.moves[2].kind, MoveKind::Thread);
    EXPECT_EQ(r.path.moves[2].from, (Point{-11, 10}));
    EXPECT_EQ(r.path.moves[2].to, (Point{-20, 10}));
    EXPECT_EQ(r.path.moves[3].to, (Point{-30, 10}));
    ASSERT_EQ(r.path.findings.size(), 1u);
    EXPECT_EQ(r.path.findings[0].code, "compensation-left-on");
    EXPECT_EQ(r.path.findings[0].severity, Severity::Stop);
    EXPECT_EQ(r.path.findings[0].span.line, 3u);
}

TEST(PathRecorder, TwoChangesOfSideBeforeAMoveAreNone) {
    Recording r;
    r.recorder.startCompensation(r.order());
    r.move(MoveKind::Feed, {2, 10}, 0);
    r.recorder.changeSide(r.order(Compensation::Left));
    r.recorder.changeSide(r.order(Compensation::Right));
    r.move(MoveKind::Feed, {-10, 10}, 1);
    r.recorder.settle();
    ASSERT_EQ(r.path.moves.size(), 2u);
    EXPECT_EQ(r.path.moves[1].to, (Point{-11, 10}));
    EXPECT_TRUE(r.path.findings.empty());
}

TEST(PathRecorder, ComesOnAgainBehindAMoveBetweenPathsOnTheSideItWas) {
    Recording r;
    r.recorder.startCompensation(r.order());
    r.move(MoveKind::Feed, {2, 10}, 0);
    r.move(MoveKind::Feed, {-10, 10}, 1);
    r.recorder.changeSide(r.order(Compensation::Left));
    r.move(MoveKind::Feed, {0, 10}, 1);
    Move back;
    back.to = {5, 20};
    back.block = 2;
    r.recorder.addBetweenPaths(back);
    EXPECT_TRUE(r.recorder.compensating());
    EXPECT_EQ(r.path.moves.back().to, (Point{5, 20}));
    r.move(MoveKind::Feed, {5, 10}, 3);
    r.recorder.settle();
    // On the left of its way down, with the tip a nose radius back and down.
    EXPECT_EQ(r.path.moves.back().to, (Point{5, 9}));
}

}  // namespace
}  // namespace firstoff
