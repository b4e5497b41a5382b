#include "bench/evidence/place.h"

#include <gtest/gtest.h>

namespace fallaway::evidence {
namespace {

TEST(Place, DescribesItself) {
    EXPECT_EQ(describe({}), "whole instrument");
    Place over_fret;
    over_fret.string = 6;
    over_fret.fret = 12;
    EXPECT_EQ(describe(over_fret), "string 6, fret 12");
    EXPECT_EQ(key_of(over_fret), "s6.f12");
    Place edge;
    edge.fret = 9;
    edge.side = "treble";
    EXPECT_EQ(describe(edge), "fret 9, treble side");
    EXPECT_EQ(key_of(edge), "f9.treble");
    Place open;
    open.string = 2;
    open.fret = 0;
    EXPECT_EQ(describe(open), "string 2, open");
    EXPECT_EQ(key_of(open), "s2.f0");
}

TEST(Place, KeysTellPlacesApart) {
    Place pickup;
    pickup.pickup = "bridge";
    Place position;
    position.switch_position = "bridge";
    Place spot;
    spot.spot = "bridge";
    EXPECT_EQ(key_of({}), "");
    EXPECT_NE(key_of(pickup), key_of(position));
    EXPECT_NE(key_of(pickup), key_of(spot));
    EXPECT_NE(key_of(position), key_of(spot));
}

}  // namespace
}  // namespace fallaway::evidence
