// SPDX-License-Identifier: GPL-3.0-or-later
// Random parts on the shipped brakes: every plan is replayed by the independent verifier.
#include <random>

#include <catch2/catch.hpp>

#include <tinwright/part/edges/section.h>

#include "plan_support.h"

namespace tinwright::test {

namespace {

constexpr unsigned kSeed = 20261;

Section randomSection(std::mt19937& random) {
    const auto real = [&](double lo, double hi) { return std::uniform_real_distribution<double>(lo, hi)(random); };
    Section section;
    const int bends = std::uniform_int_distribution<int>(2, 4)(random);
    for (int i = 0; i <= bends; ++i) section.flats_mm.push_back(std::round(real(10, 90)));
    for (int i = 0; i < bends; ++i) {
        const double angles[] = {90, 90, 90, 60, 45, 120};
        section.angles_deg.push_back(angles[std::uniform_int_distribution<int>(0, 5)(random)] *
                                     (real(0, 1) < 0.7 ? 1 : -1));
    }
    section.thickness_mm = real(0, 1) < 0.5 ? 1.0 : 1.5;
    section.inside_radius_mm = 1;
    section.length_mm = std::round(real(40, 240));
    return section;
}

}  // namespace

TEST_CASE("plans of random sections hold in the independent replay") {
    std::mt19937 random(kSeed);
    const Shop& shop = shippedShop();
    int plans = 0;
    for (int i = 0; i < 60; ++i) {
        const Section section = randomSection(random);
        CAPTURE(kSeed, i, section.flats_mm, section.angles_deg, section.length_mm, section.thickness_mm);
        for (std::size_t brake = 0; brake < shop.brakes.size(); ++brake) {
            plans += static_cast<int>(planVerified(sectionPart(section), shop, brake, 1).plans.size());
        }
    }
    CHECK(plans > 40);
}

TEST_CASE("plans of random trays hold in the independent replay") {
    std::mt19937 random(kSeed + 1);
    const auto real = [&](double lo, double hi) {
        return std::round(std::uniform_real_distribution<double>(lo, hi)(random));
    };
    const Shop& shop = shippedShop();
    int plans = 0;
    for (int i = 0; i < 12; ++i) {
        const double length = real(90, 300);
        const double depth = real(90, 300);
        const double height = real(15, 110);
        const double lip = i % 3 == 0 ? real(9, 12) : 0;
        CAPTURE(kSeed, i, length, depth, height, lip);
        const Part part = partFrom(trayRecipe(length, depth, height, lip));
        for (const char* brake : {"M100", "M50", "B"}) {
            plans += static_cast<int>(planVerified(part, shop, brakeNamed(shop, brake), 1).plans.size());
        }
    }
    CHECK(plans > 5);
}

}  // namespace tinwright::test
