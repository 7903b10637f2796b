// SPDX-License-Identifier: GPL-3.0-or-later
// What `check` says that plans take is what they take: parts a tenth of a millimetre to either side of the figure.
#include <random>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/forming/checks/check.h>

#include "../one_vee.h"
#include "plan_support.h"

namespace tinwright::test {

namespace {

constexpr double kWithin_mm = 0.1;

struct Sheet {
    double thickness_mm, radius_mm, k;
};

Part partOf(const Sheet& sheet, const std::string& flanges) {
    return partFrom(fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"part","sheet":{{"material":"mild-steel","thickness":{}}},)"
        R"("allowance":{{"rule":"k-factor","k":{}}},"inside_radius":{},"measured":"flat",)"
        R"("base":{{"name":"web","width":150,"depth":70}},"flanges":[{}]}})",
        sheet.thickness_mm, sheet.k, sheet.radius_mm, flanges));
}

/// An angle whose leg is that long from the end of the bend on.
Part angleOf(const Sheet& sheet, double flat_mm, double angle_deg) {
    return partOf(sheet,
                  fmt::format(R"({{"name":"leg","on":"web.front","length":{:.6f},"angle":{}}})", flat_mm, angle_deg));
}

/// A Z with that much flat in its step.
Part zedOf(const Sheet& sheet, double flat_mm, double flange_mm) {
    return partOf(sheet, fmt::format(R"({{"name":"step","on":"web.front","length":{:.6f}}},)"
                                     R"({{"name":"flange","on":"step.far","length":{},"direction":"down"}})",
                                     flat_mm, flange_mm));
}

/// How much longer what a figure of a check is about would have to be; the test fails when there is none.
double lack_mm(const Part& part, const Shop& shop, const BrakeInSetup& brake, const std::string& id,
               const std::string& figure) {
    for (const Finding& finding : brakeFindings(partOnBrake(part, shop, brake), nullptr, shop, brake)) {
        if (finding.id != id) continue;
        for (const Figure& number : finding.figures) {
            if (number.name == figure) return *number.limit - number.value;
        }
    }
    FAIL("no figure " << figure << " of " << id);
    return 0;
}

bool goes(const Part& part, const Shop& shop) {
    const BrakeResult result = planVerified(part, shop, 0, 1);
    INFO(wordsOf(part, shop, result.brake, result.reasons));
    CHECK(result.verdict != Verdict::kUndecided);
    return result.verdict == Verdict::kFeasible;
}

Shop pressOf(double opening_mm, double vee_deg, double shoulder_mm, double overbend_deg) {
    return shopFrom(fmt::format(
        R"({{"format":"tinwright-shop/1","units":"mm","name":"one V","brakes":[{{"machine":"press-brake","name":"press",)"
        R"("length":600,"force_kn":400,"open_height":250,"stroke":150,)"
        R"("ram":[[-45,0],[45,0],[45,600],[-45,600]],"bed":[[-12,0],[-12,-500],[12,-500],[12,0]],)"
        R"("punches":[{{"id":"P","height":90,"tip_radius":0.5,"tip_angle_deg":60,"body_width":12,"width":200,"count":2}}],)"
        R"("dies":[{{"id":"D","height":60,"angle_deg":{},"opening":{},"shoulder_radius":{},"body_width":{},"width":200,"count":2}}]}}],)"
        R"("overbend":{{"default_deg":{}}}}})",
        vee_deg, opening_mm, shoulder_mm, opening_mm + 4 * shoulder_mm + 14, overbend_deg));
}

Shop leafOf(double face_mm, double nose_mm, double setback_mm, double overbend_deg) {
    return shopFrom(fmt::format(
        R"({{"format":"tinwright-shop/1","units":"mm","name":"leaf","brakes":[{{"name":"leaf","length":1000,)"
        R"("max_leaf_angle_deg":135,"leaf_faces":[{{"name":"narrow","reach":{},"thickness":10}},)"
        R"({{"name":"full","reach":40,"thickness":12}}],"nose_radius":{},"setback":{},"clamp":"loose-bars","overhang":"both",)"
        R"("bed":[[0,0],[0,-60],[110,-60],[110,0]],)"
        R"("each_bar":{{"clamp_depth":60,"height":25,"nose_angle_deg":45}},"bars":[{{"id":"B","width":160}}]}}],)"
        R"("overbend":{{"default_deg":{}}}}})",
        face_mm, nose_mm, setback_mm, overbend_deg));
}

}  // namespace

TEST_CASE("The least flange that check tells for a V is the least that plans take, to a tenth of a millimetre") {
    const unsigned seed = 22016;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    const auto pick = [&](std::initializer_list<double> values) {
        return *(values.begin() + static_cast<std::ptrdiff_t>(random() % values.size()));
    };
    for (int i = 0; i < 16; ++i) {
        const double opening_mm = pick({6, 8, 10, 12, 16, 20}), thickness_mm = opening_mm / pick({6, 7, 8, 10});
        const double angle_deg = pick({45, 60, 90, 90, 90, 110}), overbend_deg = pick({0, 2, 3});
        const Shop shop = pressOf(opening_mm, angle_deg > 90 ? 60 : 80, pick({0.5, 1, 2}), overbend_deg);
        CAPTURE(opening_mm, thickness_mm, angle_deg, overbend_deg);
        const Sheet sheet{thickness_mm, 0.16 * opening_mm, pick({0.33, 0.44, 0.5})};
        const double short_mm = 0.5;
        const Part small = angleOf(sheet, short_mm, angle_deg);
        const BrakeInSetup brake = inUse(small, shop.brakes[0]);
        const double least_mm = short_mm + lack_mm(small, shop, brake, "flange.vee", "planned_flange_mm");
        CHECK(goes(angleOf(sheet, least_mm + kWithin_mm, angle_deg), shop));
        CHECK_FALSE(goes(angleOf(sheet, least_mm - kWithin_mm, angle_deg), shop));
    }
}

TEST_CASE("The least step of a Z that check tells on a leaf brake is the least that plans take") {
    const unsigned seed = 22017;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    const auto pick = [&](std::initializer_list<double> values) {
        return *(values.begin() + static_cast<std::ptrdiff_t>(random() % values.size()));
    };
    for (int i = 0; i < 12; ++i) {
        const double thickness_mm = pick({0.8, 1, 1.5, 2}), nose_mm = pick({0.5, 1, 1.5, 2, 3});
        const double face_mm = pick({10, 12, 16, 25}), setback_mm = pick({1, 1, 1.5, 2.5}) * thickness_mm;
        const double overbend_deg = pick({0, 2, 4});
        CAPTURE(thickness_mm, nose_mm, face_mm, setback_mm, overbend_deg);
        const Shop shop = leafOf(face_mm, nose_mm, setback_mm, overbend_deg);
        const Sheet sheet{thickness_mm, nose_mm, pick({0.33, 0.44, 0.5})};
        const double small_mm = 5;
        const Part small = zedOf(sheet, small_mm, 30);
        const double least_mm =
            small_mm + lack_mm(small, shop, inUse(small, shop.brakes[0]), "bend.near-bend", "planned_step_mm");
        CHECK(goes(zedOf(sheet, least_mm + kWithin_mm, 30), shop));
        CHECK_FALSE(goes(zedOf(sheet, least_mm - kWithin_mm, 30), shop));
    }
}

TEST_CASE("The least step of a Z that check tells on a press brake is the least that plans take") {
    const unsigned seed = 22018;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    const auto pick = [&](std::initializer_list<double> values) {
        return *(values.begin() + static_cast<std::ptrdiff_t>(random() % values.size()));
    };
    for (int i = 0; i < 12; ++i) {
        const double opening_mm = pick({6, 8, 10, 12, 16}), thickness_mm = opening_mm / pick({6, 8, 10});
        const double overbend_deg = pick({0, 2, 3});
        CAPTURE(opening_mm, thickness_mm, overbend_deg);
        const Shop shop = pressOf(opening_mm, 80, pick({0.5, 1, 2}), overbend_deg);
        const Sheet sheet{thickness_mm, 0.16 * opening_mm, 0.44};
        const double small_mm = 0.3 * opening_mm;
        const Part small = zedOf(sheet, small_mm, 20);
        const double least_mm =
            small_mm + lack_mm(small, shop, inUse(small, shop.brakes[0]), "bend.vee", "planned_room_mm");
        CHECK(goes(zedOf(sheet, least_mm + kWithin_mm, 20), shop));
        CHECK_FALSE(goes(zedOf(sheet, least_mm - kWithin_mm, 20), shop));
    }
}

}  // namespace tinwright::test
