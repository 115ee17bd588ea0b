// The table of what words mean: every row can be found, none twice, and all of them read as parts of a sentence.
#include "sim/control/word_roles.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

namespace firstoff {
namespace {

TEST(WordRoles, AreFoundEachOnce) {
    for (const WordRole& role : wordRoles()) {
        EXPECT_EQ(wordRole(role.order, role.block, role.letter), &role) << role.letter << ' ' << role.meaning;
        const std::string meaning = role.meaning;
        ASSERT_FALSE(meaning.empty());
        EXPECT_NE(meaning.back(), '.');
    }
}

// A code whose words are explained is one that the control carries out.
TEST(WordRoles, BelongToCodesThatAreCarriedOut) {
    for (const WordRole& role : wordRoles()) {
        const auto codes = codeTable();
        EXPECT_TRUE(std::any_of(codes.begin(), codes.end(), [&](const CodeEntry& c) {
            return c.order == role.order && c.group != CodeGroup::Unknown;
        })) << role.meaning;
    }
}

TEST(WordRoles, TellTheTwoBlocksOfACycleApart) {
    const auto bits = [](const char* letters) {
        std::uint32_t mask = 0;
        for (; *letters != 0; ++letters) mask |= std::uint32_t{1} << (*letters - 'A');
        return mask;
    };
    EXPECT_EQ(cycleBlockOf(Order::RoughingAlong, bits("GUR")), CycleBlock::First);
    EXPECT_EQ(cycleBlockOf(Order::RoughingAlong, bits("GPQUWF")), CycleBlock::Second);
    EXPECT_EQ(cycleBlockOf(Order::ThreadingCycle, bits("GPQR")), CycleBlock::First);
    EXPECT_EQ(cycleBlockOf(Order::ThreadingCycle, bits("GXZPQF")), CycleBlock::Second);
    EXPECT_EQ(cycleBlockOf(Order::GroovePeck, bits("GR")), CycleBlock::First);
    EXPECT_EQ(cycleBlockOf(Order::Rapid, bits("GXZ")), CycleBlock::Only);
}

}  // namespace
}  // namespace firstoff
