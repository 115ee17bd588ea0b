// Rows and sources: tests/reference/inserts_iso1832.csv (makers' charts of ISO 1832, each row names its own).
#include "sim/setup/insert_shapes.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "tests/support/reference_rows.h"

namespace firstoff {
namespace {

using shop::ReferenceRow;
using shop::referenceRows;

std::vector<ReferenceRow> rowsOfKind(const std::string& kind) {
    std::vector<ReferenceRow> rows;
    for (ReferenceRow& row : referenceRows("inserts_iso1832.csv")) {
        if (row.text("kind") == kind) rows.push_back(std::move(row));
    }
    return rows;
}

TEST(InsertShapes, AnglesAreThoseOfTheChart) {
    const auto rows = rowsOfKind("shape");
    ASSERT_EQ(rows.size(), insertShapes().size());
    for (const ReferenceRow& row : rows) {
        const auto shape = insertShape(row.text("code").front());
        ASSERT_TRUE(shape) << row.text("code");
        EXPECT_EQ(shape->angleDeg, row.number("value_1").value_or(0)) << row.text("code");
    }
    EXPECT_FALSE(insertShape('X'));
}

// 0.0006: the rows print edges to 0.001 mm.
TEST(InsertShapes, EdgesFollowFromTheInscribedCircle) {
    int checked = 0;
    for (const ReferenceRow& row : rowsOfKind("size")) {
        const auto edge = row.number("value_2");
        if (!edge) continue;  // trigons: the chart gives none
        const auto shape = insertShape(row.text("code").front());
        ASSERT_TRUE(shape);
        EXPECT_NEAR(edgeLengthMm(*shape, *row.number("value_1")), *edge, 0.0006) << row.text("code");
        ++checked;
    }
    EXPECT_GT(checked, 50);
}

// The rows marked "check" are sizes whose code is not the edge cut to whole mm; sizes with an S are the 3.97 and 4.76
// mm inserts that have a letter code.
TEST(InsertShapes, SizeCodesLeadBackToTheEdge) {
    int checked = 0;
    for (const ReferenceRow& row : rowsOfKind("size")) {
        const std::string code = row.text("code");
        if (row.text("recomputed") == "check" || code[1] == 'S') continue;
        const auto read = readInsertDesignation(code.substr(0, 1) + "NMG" + code.substr(1) + "0408");
        ASSERT_TRUE(read) << code;
        EXPECT_NEAR(read->edgeLengthMm, edgeLengthMm(read->shape, *row.number("value_1")), 1e-12) << code;
        ++checked;
    }
    EXPECT_GT(checked, 50);
}

TEST(InsertShapes, CornerCodesAreTenthsOfAMillimetre) {
    for (const ReferenceRow& row : rowsOfKind("corner_radius")) {
        const auto read = readInsertDesignation("CNMG1204" + row.text("code"));
        ASSERT_TRUE(read) << row.text("code");
        EXPECT_NEAR(read->noseRadiusMm, *row.number("value_1"), 1e-12) << row.text("code");
    }
}

TEST(InsertShapes, WholeDesignationsAreRead) {
    const auto rows = rowsOfKind("example");
    ASSERT_EQ(rows.size(), 10u);
    for (const ReferenceRow& row : rows) {
        const auto read = readInsertDesignation(row.text("code"));
        ASSERT_TRUE(read) << row.text("code");
        EXPECT_EQ(read->shape.angleDeg, row.number("value_1").value_or(0)) << row.text("code");
        const double nose = row.number("value_2").value_or(6);  // RCMT1204M0: 12 mm round, whole millimetres
        EXPECT_NEAR(read->noseRadiusMm, nose, 1e-12) << row.text("code");
    }
}

TEST(InsertShapes, CaseSpacesAndChipBreakerDoNotMatter) {
    const auto read = readInsertDesignation("ccmt 09 t3 04-xy");
    ASSERT_TRUE(read);
    EXPECT_EQ(read->shape.letter, 'C');
    EXPECT_DOUBLE_EQ(read->noseRadiusMm, 0.4);
}

TEST(InsertShapes, WhatIsNoDesignationIsNotRead) {
    for (const char* text :
         {"", "C", "CNMG", "CNMG12", "CNMG990408", "XNMG120408", "CNMG1204ZZ", "12040800CN", "CNMG12 4"}) {
        EXPECT_FALSE(readInsertDesignation(text)) << text;
    }
}

// Elementary geometry: in a square a radius of half the edge is the inscribed circle; in a triangle too.
TEST(InsertShapes, LargestNoseRadiusIsTheInscribedCircle) {
    for (char letter : {'S', 'T', 'C', 'V', 'W'}) {
        const auto shape = *insertShape(letter);
        // In a rhombus or triangle the largest equal roundings meet in the inscribed circle; a trigon likewise.
        EXPECT_NEAR(largestNoseRadiusMm(shape, edgeLengthMm(shape, 12.7)), 6.35, 1e-9) << letter;
    }
}

}  // namespace
}  // namespace firstoff
