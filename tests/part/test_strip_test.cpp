// SPDX-License-Identifier: GPL-3.0-or-later
// From measured strips to a k-factor: made the other way round, and by hand.
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <random>

#include <tinwright/part/allowance/test_strip.h>

using namespace tinwright;

namespace {

TestStrip strip(double t, double r, double angle_deg, double flat, double a, double b, Face to = Face::kOutside) {
    return {"dc01", "", t, r, Angle::degrees(angle_deg), flat, {a, b}, to, "", ""};
}

/// Legs of a strip whose bend starts `flat_a` from one end, by the geometry of the fold: apex up to 90 degrees, tangent
/// plane past it.
TestStrip bent(double t, double r, double angle_deg, double k, double flat_a, double flat_b, Face to) {
    const double angle = angle_deg * std::numbers::pi / 180;
    const double radius = to == Face::kOutside ? r + t : r;
    const double reach = angle_deg > 90 ? radius : radius * std::tan(angle / 2);
    return strip(t, r, angle_deg, flat_a + flat_b + angle * (r + k * t), flat_a + reach, flat_b + reach, to);
}

}  // namespace

TEST_CASE("a strip by hand: 100 long, legs 51.3 and 51.4") {
    const TestStrip s = strip(1.5, 1.5, 90, 100, 51.3, 51.4);
    CHECK(stripDeduction_mm(s) == Approx(2.7));
    CHECK(stripK(s) == Approx(((6.0 - 2.7) / (std::numbers::pi / 2) - 1.5) / 1.5));  // 0.4006
    CHECK(stripK(strip(1.5, 1.5, 90, 100, 51.3 - 1.5, 51.4 - 1.5, Face::kInside)) == Approx(stripK(s)));
}

// US shop text (read): T 0.050, R 0.032, a deduction of 0.079 is an allowance of 0.085.
TEST_CASE("the shop text's deduction as a strip gives its allowance") {
    const TestStrip s = strip(0.050 * 25.4, 0.032 * 25.4, 90, 2 * 25.4, 1.0395 * 25.4, 1.0395 * 25.4);
    CHECK(stripDeduction_mm(s) / 25.4 == Approx(0.079).margin(1e-9));
    CHECK(kFactorAllowance_mm(Angle::degrees(90), 0.032, 0.050, stripK(s)) == Approx(0.085).margin(0.0005));
}

TEST_CASE("round trip: a k-factor is invented, strips are made by it, and calibrate gives it back") {
    const unsigned seed = 5177;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    std::uniform_real_distribution<double> t(0.5, 6), r(0, 10), a(5, 175), k(0, 1), leg(10, 80);
    for (int round = 0; round < 300; ++round) {
        const double wanted = k(random), thickness = t(random), radius = r(random), angle = a(random);
        std::vector<TestStrip> strips;
        for (int i = 0; i < 3; ++i)
            strips.push_back(bent(thickness, radius, angle, wanted, leg(random), leg(random),
                                  i == 1 ? Face::kInside : Face::kOutside));
        const std::vector<Calibration> found = calibrate(strips);
        REQUIRE(found.size() == 1);
        CHECK(found[0].bend.k == Approx(wanted).margin(1e-9));
        CHECK(found[0].bend.strips == 3);
        CHECK(*found[0].k.deviation < 1e-9);
        const Angle turned = Angle::degrees(angle);
        CHECK(
            found[0].deduction_mm.mean ==
            Approx(bendDeduction_mm(turned, radius, thickness, kFactorAllowance_mm(turned, radius, thickness, wanted)))
                .margin(1e-8));
    }
}

TEST_CASE("mean, least, most and standard deviation of three strips, by hand") {
    // Deductions 2.6, 2.7 and 2.9: mean 2.7333, deviation sqrt((0.1333^2 + 0.0333^2 + 0.1667^2) / 2) = 0.15275.
    const std::vector<Calibration> found =
        calibrate({strip(1.5, 1.5, 90, 100, 51.3, 51.3), strip(1.5, 1.5, 90, 100, 51.3, 51.4),
                   strip(1.5, 1.5, 90, 100, 51.4, 51.5)});
    REQUIRE(found.size() == 1);
    CHECK(found[0].deduction_mm.mean == Approx(2.73333).margin(1e-5));
    CHECK(found[0].deduction_mm.median == Approx(2.7));
    CHECK(found[0].bend.k == Approx(stripK(strip(1.5, 1.5, 90, 100, 51.3, 51.4))));
    CHECK(found[0].deduction_mm.least == Approx(2.6));
    CHECK(found[0].deduction_mm.most == Approx(2.9));
    CHECK(*found[0].deduction_mm.deviation == Approx(0.152753).margin(1e-6));
    CHECK(*found[0].bend.spread_mm == Approx(0.3));
    CHECK(found[0].warnings.empty());  // 0.3 is what three lengths of 0.1 each explain
    CHECK_FALSE(calibrate({strip(1.5, 1.5, 90, 100, 51.3, 51.3)})[0].k.deviation);
}

TEST_CASE("strips that differ by more than measuring explains, and k-factors that are unusual or cannot be") {
    const auto warningsOf = [](const std::vector<TestStrip>& strips) { return calibrate(strips).front().warnings; };
    CHECK(warningsOf({strip(1.5, 1.5, 90, 100, 51.3, 51.3), strip(1.5, 1.5, 90, 100, 51.5, 51.5)}).size() == 1);
    const auto unusual = warningsOf({bent(1.5, 1.5, 90, 0.2, 50, 50, Face::kOutside)});
    REQUIRE(unusual.size() == 1);
    CHECK(unusual[0].find("unusual") != std::string::npos);
    const auto impossible = warningsOf({bent(1.5, 1.5, 90, 1.2, 50, 50, Face::kOutside)});
    REQUIRE(impossible.size() == 1);
    CHECK(impossible[0].find("cannot be") != std::string::npos);
    CHECK(warningsOf({bent(1.5, 1.5, 90, 0.25, 50, 50, Face::kOutside)}).empty());
}

// By hand: deductions 2.6, 2.7, 2.8 and a leg misread by 10 mm; the mean is 5.2, the median of four 2.75.
TEST_CASE("A leg that was misread does not move the value of the strips that agree") {
    const std::vector<TestStrip> strips{strip(1.5, 1.5, 90, 100, 51.3, 51.3), strip(1.5, 1.5, 90, 100, 51.3, 61.4),
                                        strip(1.5, 1.5, 90, 100, 51.3, 51.4), strip(1.5, 1.5, 90, 100, 51.4, 51.4)};
    const std::vector<Calibration> found = calibrate(strips);
    REQUIRE(found.size() == 1);
    CHECK(found[0].deduction_mm.mean == Approx(5.2));
    CHECK(found[0].deduction_mm.median == Approx(2.75));
    CHECK(found[0].astray == std::vector<std::size_t>{1});
    CHECK_FALSE(found[0].disagrees);
    REQUIRE(found[0].warnings.size() == 1);
    CHECK(found[0].warnings[0].find("leaves strip 2 aside") != std::string::npos);
}

TEST_CASE("Of two strips that differ, and of two pairs, nobody knows which are right") {
    const TestStrip low = strip(1.5, 1.5, 90, 100, 51.3, 51.3), high = strip(1.5, 1.5, 90, 100, 51.5, 51.5);
    CHECK(calibrate({low, high}).front().disagrees);
    CHECK(calibrate({low, high, low, high}).front().disagrees);
    CHECK_FALSE(calibrate({low, high, low}).front().disagrees);
    CHECK_FALSE(calibrate({low}).front().disagrees);
    CHECK_FALSE(calibrate({low, low}).front().disagrees);
}

// Cold-rolled sheet of 2 mm may be 1.86 to 2.14 mm thick (EN 10131, normal tolerance of wide strip, from memory).
TEST_CASE("Strips of 1.95 and 2.03 mm are of one nominal sheet, in whatever order they were measured") {
    const TestStrip thin = bent(1.95, 2, 90, 0.4, 50, 50, Face::kOutside);
    const TestStrip thick = bent(2.03, 2, 90, 0.42, 50, 50, Face::kOutside);
    const TestStrip thicker = bent(2.11, 2, 90, 0.41, 50, 50, Face::kOutside);
    const TestStrip other = bent(2.5, 2, 90, 0.41, 50, 50, Face::kOutside);
    for (const auto& strips : {std::vector{thin, thick, other}, std::vector{thick, other, thin}}) {
        const std::vector<Calibration> found = calibrate(strips);
        REQUIRE(found.size() == 2);
        CHECK(found[0].bend.strips == 2);
        CHECK(found[0].bend.thickness_mm == Approx(1.99));
    }
    for (const auto& strips : {std::vector{thin, thick, thicker}, std::vector{thin, thicker, thick}}) {
        REQUIRE(calibrate(strips).size() == 1);
        CHECK(calibrate(strips)[0].bend.k == Approx(0.41));
    }
}

TEST_CASE("strips of another sheet, radius, angle or tool are kept apart; angles that differ a little are not") {
    std::vector<TestStrip> strips{
        bent(1.5, 1.5, 90, 0.4, 50, 50, Face::kOutside), bent(1.5, 1.5, 91, 0.4, 50, 50, Face::kOutside),
        bent(2, 1.5, 90, 0.4, 50, 50, Face::kOutside), bent(1.5, 2, 90, 0.4, 50, 50, Face::kOutside),
        bent(1.5, 1.5, 45, 0.4, 50, 50, Face::kOutside)};
    strips.push_back(strips[0]);
    strips.back().tool = "finger";
    const std::vector<Calibration> found = calibrate(strips);
    REQUIRE(found.size() == 5);
    CHECK(found[0].strips == std::vector<std::size_t>{0, 1});
    CHECK(found[0].bend.angle.deg() == Approx(90.5));
    CHECK(*found[0].bend.spread_mm < 1e-9);  // the same k: only the angle differs
}
