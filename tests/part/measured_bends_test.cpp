// SPDX-License-Identifier: GPL-3.0-or-later
// Blanks by a shop's own test strips.
#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include "recipes.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

MeasuredBend measured(double t, double r, double angle_deg, double k, const std::string& tool = "",
                      const std::string& material = "dc01") {
    return {material, t, r, Angle::degrees(angle_deg), k, tool, 1, std::nullopt, ""};
}

MeasuredBends tableOf(std::vector<MeasuredBend> bends) { return {std::move(bends), {{"dc01", "mild-steel"}}}; }

double kAt(const MeasuredBends& table, double t, double r, double angle_deg, const std::string& tool = "",
           const std::string& material = "dc01") {
    const auto k = measuredK(table, {material, tool, t, r, Angle::degrees(angle_deg)});
    return k ? k->k : std::nan("");
}

bool reaches(const MeasuredBends& table, double t, double r, double angle_deg, const std::string& tool = "",
             const std::string& material = "dc01") {
    return measuredK(table, {material, tool, t, r, Angle::degrees(angle_deg)}).has_value();
}

AllowanceChoice byTable(MeasuredBends table) {
    AllowanceChoice choice;
    choice.rule = AllowanceRule::kMeasured;
    choice.measured = std::make_shared<const MeasuredBends>(std::move(table));
    return choice;
}

/// The k that a deduction means, by arithmetic of its own: right angles only.
double kOfDeduction(double t, double r, double v) { return ((2 * (r + t) - v) / (std::acos(-1.0) / 2) - r) / t; }

}  // namespace

TEST_CASE("between measured bends k is in proportion, by hand") {
    const MeasuredBends table = tableOf({measured(1, 1, 90, 0.40), measured(2, 1, 90, 0.44), measured(1, 3, 90, 0.46),
                                         measured(2, 3, 90, 0.48), measured(1, 1, 45, 0.30)});
    CHECK(kAt(table, 1, 1, 90) == Approx(0.40));
    CHECK(kAt(table, 1.5, 1, 90) == Approx(0.42));           // thickness
    CHECK(kAt(table, 1, 2, 90) == Approx(0.43));             // radius
    CHECK(kAt(table, 1, 1, 60) == Approx(0.30 + 0.10 / 3));  // angle: 15 of 45 degrees
    CHECK(kAt(table, 1.25, 1.5, 90) == Approx(0.75 * 0.415 + 0.25 * 0.45));
    CHECK(measuredK(table, {"dc01", "", 1.5, 1, Angle::degrees(90)})->source ==
          "2 strips of dc01 between 1 mm, radius 1 mm, 90 degrees and 2 mm, radius 1 mm, 90 degrees");
    CHECK(measuredK(table, {"dc01", "", 1, 1, Angle::degrees(90)})->source ==
          "1 strip of dc01, 1 mm, radius 1 mm, 90 degrees");
}

TEST_CASE("past what was measured there is nothing, but for the slack of a nominal size") {
    const MeasuredBends table = tableOf({measured(1, 1, 90, 0.40), measured(2, 1, 90, 0.44)});
    CHECK(reaches(table, 2.1, 1, 90));
    CHECK_FALSE(reaches(table, 2.11, 1, 90));
    CHECK(reaches(table, 0.95, 1, 90));
    CHECK_FALSE(reaches(table, 0.94, 1, 90));
    CHECK_FALSE(reaches(table, 1.5, 1.06, 90));
    CHECK(reaches(table, 1.5, 1, 91));
    CHECK_FALSE(reaches(table, 1.5, 1, 91.1));
    CHECK_FALSE(reaches(table, 1.5, 1, 45));
    CHECK_FALSE(reaches(tableOf({}), 1, 1, 90));
    CHECK_FALSE(reaches(table, 1, 1, 90, "", "s235"));
}

// Whatever is asked, the answer lies between measured values: a weighted mean cannot leave them.
TEST_CASE("never extrapolated: k stays between the least and the largest that was measured") {
    const unsigned seed = 20261;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    std::uniform_real_distribution<double> t(0.5, 3), r(0, 5), a(10, 150), k(0.3, 0.5);
    int answered = 0;
    for (int round = 0; round < 400; ++round) {
        std::vector<MeasuredBend> bends;
        double least = 1, most = 0, thin = 99, thick = 0;
        for (int i = 0; i < 12; ++i) {
            bends.push_back(
                measured(std::round(t(random)), std::round(r(random)), 45 * std::round(a(random) / 45), k(random)));
            bends.back().angle = std::max(bends.back().angle, Angle::degrees(45));
            least = std::min(least, bends.back().k);
            most = std::max(most, bends.back().k);
            thin = std::min(thin, bends.back().thickness_mm);
            thick = std::max(thick, bends.back().thickness_mm);
        }
        const double at = t(random);
        const double found = kAt(tableOf(bends), at, std::round(r(random)), 90);
        if (std::isnan(found)) continue;
        ++answered;
        CHECK(found >= least - 1e-12);
        CHECK(found <= most + 1e-12);
        CHECK(at >= thin * (1 - kSameSize) - 1e-9);
        CHECK(at <= thick * (1 + kSameSize) + 1e-9);
    }
    CHECK(answered > 20);
}

TEST_CASE("materials by any of their names, and bends by the tool they were made with") {
    const MeasuredBends table = tableOf(
        {measured(1, 1, 90, 0.40), measured(1, 1, 90, 0.45, "finger"), measured(1, 1, 90, 0.42, "finger", "s235")});
    CHECK(kAt(table, 1, 1, 90, "", "mild-steel") == Approx(0.40));
    CHECK(kAt(table, 1, 1, 90, "finger", "mild-steel") == Approx(0.45));
    CHECK_FALSE(reaches(table, 1, 1, 90, "press"));
    CHECK(kAt(table, 1, 1, 90, "", "s235") == Approx(0.42));  // one tool only: it is meant
    const MeasuredBends two = tableOf({measured(1, 1, 90, 0.40, "a"), measured(1, 1, 90, 0.45, "b")});
    CHECK_FALSE(reaches(two, 1, 1, 90));  // and of two, neither
}

TEST_CASE("outside the table: an error that says what is measured and what is asked") {
    const AllowanceChoice choice = byTable(tableOf({measured(1, 1, 90, 0.40), measured(2, 1, 90, 0.44)}));
    const auto result = allowanceFor(choice, Angle::degrees(90), 1, 3, "/flanges/0", "mild-steel");
    REQUIRE_FALSE(result.ok());
    const Issue& issue = result.issues().front();
    CHECK(issue.code == "allowance.measured");
    CHECK(issue.place == "/flanges/0");
    CHECK(issue.found == "mild-steel of 3 mm, inside radius 1 mm, 90 degrees");
    CHECK(issue.expected.find("dc01: thickness 1 to 2 mm, inside radius 1 mm, 90 degrees") != std::string::npos);
    const auto unknown = allowanceFor(choice, Angle::degrees(90), 1, 1, "", "brass");
    REQUIRE_FALSE(unknown.ok());
    CHECK(unknown.issues().front().expected.find("measured: dc01") != std::string::npos);
    AllowanceChoice no_shop;
    no_shop.rule = AllowanceRule::kMeasured;
    CHECK(allowanceFor(no_shop, Angle::degrees(90), 1, 1, "", "dc01").issues().front().hint.find("--shop") !=
          std::string::npos);
}

TEST_CASE("a fallback is used only outside the table, and says both numbers") {
    AllowanceChoice choice = byTable(tableOf({measured(1, 1, 90, 0.40)}));
    choice.fallback = AllowanceRule::kKFactor;
    choice.k = 0.5;
    const Allowance inside = allowanceFor(choice, Angle::degrees(90), 1, 1, "", "dc01").value();
    CHECK(inside.rule == AllowanceRule::kMeasured);
    CHECK(inside.rule_value == Approx(0.40));
    CHECK(inside.warning.empty());
    const Allowance outside = allowanceFor(choice, Angle::degrees(90), 1, 2, "", "dc01").value();
    CHECK(outside.rule == AllowanceRule::kKFactor);
    CHECK(outside.allowance_mm == Approx(kFactorAllowance_mm(Angle::degrees(90), 1, 2, 0.5)));
    CHECK(outside.warning.find("strip 3.142 mm") != std::string::npos);    // pi/2 (1 + 0.5 2)
    CHECK(outside.warning.find("make it 2.827 mm") != std::string::npos);  // pi/2 (1 + 0.4 2)
}

// Austrian school text (read): v = 0.5 r + 1.5 t as the shop's own deduction, 50 + 40 + 30 with r = t = 1 needs 116.
TEST_CASE("a school's deduction rule as a measured table: 50 + 40 + 30 takes 116") {
    Recipe recipe = plate(60, 40, 1, 1, Measured::kOutside);
    addFlange(recipe, "a", "base.front", 50);
    addFlange(recipe, "b", "base.back", 30);
    recipe.allowance = byTable(tableOf({measured(1, 1, 90, kOfDeduction(1, 1, 0.5 * 1 + 1.5 * 1))}));
    const auto part = develop(recipe);
    INFO(textOf(part.issues()));
    REQUIRE(part.ok());
    CHECK(blankDepth(part.value()) == Approx(116.0).margin(1e-9));
    CHECK(part.value().bends.front().rule == AllowanceRule::kMeasured);
    CHECK(part.value().bends.front().rule_source == "1 strip of dc01, 1 mm, radius 1 mm, 90 degrees");
    recipe.allowance = {AllowanceRule::kDin6935, 0};
    CHECK(blankDepth(develop(recipe).value()) == Approx(116.163).margin(0.0005));  // by DIN 6935, derived
}

// Trade-school worksheet (read): a 50, b 605, r 7, s 3.18, twice v = 0.43 r + 1.48 s = 7.71, L = 639.58.
TEST_CASE("a worksheet's linear rule as a measured table: two bends of 7.71") {
    Recipe recipe = plate(60, 605, 3.18, 7, Measured::kOutside);
    addFlange(recipe, "a", "base.front", 25);
    addFlange(recipe, "b", "base.back", 25);
    recipe.allowance = byTable(tableOf({measured(3.18, 7, 90, kOfDeduction(3.18, 7, 7.71))}));
    const auto part = develop(recipe);
    REQUIRE(part.ok());
    CHECK(blankDepth(part.value()) == Approx(639.58).margin(0.02));
    CHECK(std::ceil(blankDepth(part.value())) == 640);
}

// DIN 6935 supplement 2 (from memory), cells that agree with the formula: a table to interpolate in comes out within
// its rounding.
TEST_CASE("DIN's printed compensations as measured bends, and what lies between them") {
    const MeasuredBends table =
        tableOf({measured(1, 4, 90, kOfDeduction(1, 4, 3.0)), measured(2, 4, 90, kOfDeduction(2, 4, 4.5)),
                 measured(3, 4, 90, kOfDeduction(3, 4, 6.0))});
    const AllowanceChoice choice = byTable(table);
    const auto deduction = [&](double s) {
        return bendDeduction_mm(Angle::degrees(90), 4, s,
                                allowanceFor(choice, Angle::degrees(90), 4, s, "", "dc01").value().allowance_mm);
    };
    CHECK(deduction(1.5) == Approx(3.7).margin(0.11));  // printed, rounded to 0.1, between two that are rounded to 0.1
    CHECK(deduction(2.5) == Approx(5.2).margin(0.11));
}

TEST_CASE(
    "traps: an included angle for a bend angle, DIN's factor for a k-factor, and legs under and over 90 degrees") {
    // r = s = 1, square: DIN's factor is 0.65 about the middle of half the sheet, so it is the k-factor 0.325.
    CHECK(din6935Allowance_mm(Angle::degrees(90), 1, 1) ==
          Approx(kFactorAllowance_mm(Angle::degrees(90), 1, 1, 0.325)).margin(1e-12));
    CHECK(std::abs(din6935Allowance_mm(Angle::degrees(90), 1, 1) -
                   kFactorAllowance_mm(Angle::degrees(90), 1, 1, 0.65)) > 0.4);
    // The leg's end moves from the apex to the tangent plane at 90 degrees, where both agree.
    CHECK(setback_mm(Face::kOutside, Angle::degrees(89.999999), 3, 2) == Approx(5.0).margin(1e-6));
    CHECK(setback_mm(Face::kOutside, Angle::degrees(90.000001), 3, 2) == Approx(5.0).margin(1e-6));
    CHECK(setback_mm(Face::kOutside, Angle::degrees(60), 3, 2) ==
          Approx(5 * std::tan(std::acos(-1.0) / 6)).margin(1e-12));
    CHECK(setback_mm(Face::kOutside, Angle::degrees(120), 3, 2) == Approx(5.0).margin(1e-12));
}

// FAA-H-8083-31 charts (from memory, read off a graph): J-chart at R 0.22, T 0.063, sides 2.00 + 2.00.
TEST_CASE("FAA J-chart, read off a graph (from memory)") {
    const auto flat = [](double angle_deg) {
        const Angle angle = Angle::degrees(angle_deg);
        return 4.0 - bendDeduction_mm(angle, 0.22, 0.063, handbookAllowance_mm(angle, 0.22, 0.063));
    };
    CHECK(flat(90) == Approx(3.83).margin(0.01));
    CHECK(flat(45) == Approx(3.965).margin(0.01));
}

TEST_CASE("the same part in inch and in mm has the same blank, by every rule") {
    const double in = 25.4;
    for (const double angle : {30.0, 90.0, 135.0}) {
        for (int rule = 0; rule < 4; ++rule) {
            Recipe inch = plate(4 * in, 2 * in, 0.06 * in, 0.06 * in, Measured::kOutside);
            Recipe mm = plate(101.6, 50.8, 1.524, 1.524, Measured::kOutside);
            for (auto [recipe, unit] : {std::pair(&inch, in), std::pair(&mm, 25.4)}) {
                addFlange(*recipe, "a", "base.front", 1.25 * unit, angle);
                if (rule < 3) recipe->allowance = {static_cast<AllowanceRule>(rule), 0.42};
            }
            if (rule == 3) {
                inch.allowance = byTable(tableOf({measured(0.06 * in, 0.06 * in, angle, 0.41)}));
                mm.allowance = byTable(tableOf({measured(1.524, 1.524, angle, 0.41)}));
            }
            CHECK(blankDepth(develop(inch).value()) == Approx(blankDepth(develop(mm).value())).margin(1e-9));
        }
    }
}
