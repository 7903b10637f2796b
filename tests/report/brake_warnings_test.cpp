// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <tinwright/report/words/brake_warnings.h>

#include "sample.h"

using namespace tinwright;

TEST_CASE("figures that nobody has measured are named") {
    Brake brake = sample::shop().brakes[0];
    CHECK(brakeWarnings(brake).empty());
    brake.uncertain = {"/opening", "/bars/B30/height", "/bars/B60/height"};
    const auto warnings = brakeWarnings(brake);
    REQUIRE(warnings.size() == 1);
    CHECK(warnings[0].find(", in opening and bars: ") != std::string::npos);
}
