#include "gui/scene/surface_look.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/gui/picture_job.h"

namespace firstoff::gui {
namespace {

// Slopes of grooves of pitch f under a nose r run evenly between ±f/2r: sampled, not by the formula.
TEST(SurfaceLook, FacetsAreThoseOfTheGrooves) {
    for (const auto& [f, r] : {std::pair(0.1, 0.8), std::pair(0.3, 0.8), std::pair(0.25, 0.4)}) {
        constexpr int kSamples = 10000;
        double squares = 0;
        for (int i = 0; i < kSamples; ++i) {
            const double x = ((i + 0.5) / kSamples - 0.5) * f;
            squares += x / r * (x / r);
        }
        const double width = std::sqrt(2 * squares / kSamples);
        const double beside = std::hypot(width, 0.05);                    // a cut is a little rough beside its marks
        EXPECT_NEAR(lookOf(f, r).facets, beside, 1e-6) << f << ' ' << r;  // of the sampling
        EXPECT_EQ(lookOf(f, r).layMm, f);
    }
}

TEST(SurfaceLook, FinerFeedAndLargerNoseShineMore) {
    EXPECT_GT(finenessOf(lookOf(0.08, 0.8).facets), finenessOf(lookOf(0.30, 0.8).facets));
    EXPECT_GT(finenessOf(lookOf(0.15, 1.2).facets), finenessOf(lookOf(0.15, 0.4).facets));
    EXPECT_EQ(finenessOf(kFinestFacets), 255);
    EXPECT_EQ(finenessOf(kCoarsestFacets), 180);
    EXPECT_EQ(finenessOf(5), 180);
}

TEST(SurfaceLook, MetalGoesByGroupAndName) {
    struct Row {
        const char *name, *group;
        Metal metal;
    };
    for (const Row& row :
         {Row{"C45", "P", Metal::Steel}, Row{"", "", Metal::Steel}, Row{"X5CrNi18-10", "M", Metal::Stainless},
          Row{"EN-GJL-250", "K", Metal::CastIron}, Row{"CuZn39Pb3", "N", Metal::Brass},
          Row{"wrought aluminium alloy", "N", Metal::Aluminium}, Row{"AlSi cast, up to 12 % Si", "", Metal::Aluminium},
          Row{"electrolytic copper", "N", Metal::Copper}, Row{"Ti6Al4V", "S", Metal::Titanium}}) {
        Material material;
        material.name = row.name;
        material.group = row.group;
        EXPECT_EQ(metalOf(material), row.metal) << row.name;
    }
}

// Of the spigot of picture_job.h: roughed with 0.3 mm under a nose of 0.8, finished with 0.15 under 0.4, grooved.
TEST(SurfaceLook, TellsTheFeedOfEveryMove) {
    const auto trial = pictureJob();
    bool roughed = false, grooved = false;
    for (std::uint32_t i = 0; i < trial->timeline.moves.size(); ++i) {
        const Move& move = trial->toolpath.moves[trial->timeline.moves[i].move];
        if (move.kind != MoveKind::Feed) continue;
        const int station = trial->toolpath.calls[move.call].station;
        const CutLook look = lookOfCut(*trial, i);
        if (station == 1 && move.pass > 0) {
            EXPECT_EQ(look.layMm, 0.3);
            roughed = true;
        }
        if (station == 5) {
            EXPECT_EQ(look.layMm, 0);  // a straight edge leaves no marks of a nose
            grooved = true;
        }
    }
    EXPECT_TRUE(roughed && grooved);
    EXPECT_EQ(lookOfCut(*trial, 0xffffffffu).layMm, 0);
}

}  // namespace
}  // namespace firstoff::gui
