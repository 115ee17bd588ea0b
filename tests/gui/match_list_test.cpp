#include "gui/match_list.h"

#include <gtest/gtest.h>

namespace firstoff::gui {
namespace {

TEST(MatchList, GathersAllOfALongTextPieceByPiece) {
    std::string text;
    constexpr std::size_t kLines = 1'000'000;
    for (std::size_t i = 0; i < kLines; ++i) text += "G01 X20.\n";
    MatchList matches;
    const TextSearch search({"X20.\n"});
    int frames = 0;
    while (!matches.complete() && frames < 1000) {
        matches.look(text, 1, search);
        ++frames;
    }
    EXPECT_GT(frames, 1);  // no frame waits for all of it
    ASSERT_EQ(matches.places().size(), kLines);
    EXPECT_EQ(matches.numberOf(4), 1u);
    EXPECT_EQ(matches.numberOf(4 + 9 * 41), 42u);
    EXPECT_EQ(matches.numberOf(5), 0u);
    matches.look("X1 X1", 2, TextSearch({"X1"}));
    EXPECT_EQ(matches.places(), (std::vector<std::size_t>{0, 3}));
    EXPECT_TRUE(matches.complete());
}

// A match over the end of one piece is found, and none within another.
TEST(MatchList, CountsAcrossPieces) {
    const std::string text((std::size_t{4} << 20) + 3, 'X');
    MatchList matches;
    const TextSearch search({"XX"});
    while (!matches.complete()) matches.look(text, 1, search);
    EXPECT_EQ(matches.places().size(), text.size() / 2);
}

}  // namespace
}  // namespace firstoff::gui
