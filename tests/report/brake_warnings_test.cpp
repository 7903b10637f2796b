// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <tinwright/report/brake_warnings.h>

#include "sample.h"

using namespace tinwright;

TEST_CASE("a bend over the brake's rating is warned of, one within it is not") {
    const Part part = sample::channel();  // 1.5 mm, bends 100 long
    LeafBrake brake = sample::shop().brakes[0];
    brake.ratings = {{"mild-steel", 1.6, 1250}};
    CHECK(brakeWarnings(part, brake).empty());
    brake.ratings = {{"mild-steel", 1.6, 99}, {"mild-steel", 1.2, 1250}};
    const auto warnings = brakeWarnings(part, brake);
    REQUIRE(warnings.size() == 1);
    CHECK(warnings[0] ==
          "bench magnet: over its rating for 1.5 mm mild-steel: front-bend (100 mm long) and back-bend (100 mm long)");
}

TEST_CASE("no rating, or none for this material, is said") {
    const Part part = sample::channel();
    LeafBrake brake = sample::shop().brakes[0];
    CHECK(brakeWarnings(part, brake).size() == 1);
    brake.ratings = {{"aluminium", 2.0, 1250}};
    CHECK(brakeWarnings(part, brake) ==
          std::vector<std::string>{"bench magnet: not rated for mild-steel; see the machine's manual"});
}

TEST_CASE("figures that nobody has measured are named") {
    LeafBrake brake = sample::shop().brakes[0];
    brake.ratings = {{"mild-steel", 1.6, 1250}};
    brake.uncertain = {"/opening", "/bars/B30/height", "/bars/B60/height"};
    const auto warnings = brakeWarnings(sample::channel(), brake);
    REQUIRE(warnings.size() == 1);
    CHECK(warnings[0].find(", in opening and bars: ") != std::string::npos);
}
