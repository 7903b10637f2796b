// SPDX-License-Identifier: GPL-3.0-or-later
// Bends that an order asks to make in one stroke: why they cannot be, and of a long line any of them that can.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include "plan_support.h"

namespace tinwright::test {

namespace {

using Catch::Matchers::Contains;

std::string tab(const std::string& name, const std::string& on, double from_left_mm, const std::string& more = "") {
    return fmt::format(R"({{"name":"{}","on":"{}","length":30,"from_left":{},"width":40{}}})", name, on, from_left_mm,
                       more);
}

Part plate(const std::string& flanges) {
    return partFrom(fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"plate","sheet":{{"material":"mild-steel","thickness":1}},)"
        R"("allowance":{{"rule":"k-factor","k":0.44}},"inside_radius":1,"measured":"flat",)"
        R"("base":{{"name":"floor","width":500,"depth":150}},"flanges":[{}]}})",
        flanges));
}

TryResult inOneStroke(const Part& part, const std::vector<std::string>& names, BendMask formed = 0) {
    std::vector<BendId> bends;
    for (const std::string& name : names) bends.push_back(bendNamed(part, name));
    const Shop& shop = shippedShop();
    return tryOrder(part, shop, brakeNamed(shop, "M100"), {bends}, formed);
}

std::string whyNot(const Part& part, const TryResult& result) {
    REQUIRE(result.verdict == Verdict::kInfeasible);
    const std::vector<Reason>& reasons = result.steps.front().reasons;
    REQUIRE(reasons.size() == 1);
    CHECK(reasons.front().code == ReasonCode::kNotOneStroke);
    return wordsOf(part, shippedShop(), result.brake, reasons);
}

}  // namespace

TEST_CASE("Why bends do not go in one stroke is told: other angles, a hem, not on one line") {
    const Part part =
        plate(tab("a", "floor.front", 20) + "," + tab("b", "floor.front", 120, R"(,"angle":45)") + "," +
              R"({"name":"rim","on":"floor.front","length":10,"from_left":220,"width":40,"hem":{"gap":0}},)" +
              R"({"name":"tear","on":"floor.front","length":10,"from_left":320,"width":40,"hem":{"gap":1}},)" +
              tab("back", "floor.back", 20));
    CHECK_THAT(whyNot(part, inOneStroke(part, {"a", "b"})),
               Contains("a + b in one stroke: one stroke bends by one angle, a is bent by 90° and b by 45°"));
    CHECK_THAT(whyNot(part, inOneStroke(part, {"rim", "a"})), Contains("rim is a hem and a is not"));
    CHECK_THAT(whyNot(part, inOneStroke(part, {"rim", "tear"})), Contains("hems are closed together to one gap"));
    CHECK_THAT(whyNot(part, inOneStroke(part, {"a", "back"})), Contains("a and back do not lie on one line"));
}

// A sheet like an S: it lies behind the line of one bend and, further along, in front of the same line at another. The
// strip of a bend is 90° round 1 mm + 0.44 x 1 mm, 2.262 mm, so much do the edges stand apart for both to lie on one
// line.
TEST_CASE("Bends of one line do not go in one stroke where one panel would be held and moved at once") {
    const Part part = partFrom(
        R"({"format":"tinwright-part/1","units":"mm","name":"S","sheet":{"material":"mild-steel","thickness":1},)"
        R"("allowance":{"rule":"k-factor","k":0.44},"inside_radius":1,"measured":"flat",)"
        R"("base":{"name":"sheet","outline":[{"x":0,"y":-60},{"x":130,"y":-60},{"x":130,"y":50,"edge":"before"},{"x":300,"y":50},)"
        R"({"x":300,"y":160},{"x":90,"y":160},{"x":90,"y":47.738053,"edge":"behind"},{"x":0,"y":47.738053}]},)"
        R"("flanges":[{"name":"one","on":"sheet.before","length":30,"from_left":40,"width":80},)"
        R"({"name":"other","on":"sheet.behind","length":30,"from_left":20,"width":40}]})");
    CHECK_THAT(whyNot(part, inOneStroke(part, {"one", "other"})),
               Contains("sheet would have to be held for one and to move for other at once"));
}

TEST_CASE("Of a long line any bends are looked at in one stroke, and not only neighbours") {
    std::string tabs;
    for (int i = 0; i < 7; ++i) tabs += (i == 0 ? "" : ",") + tab(fmt::format("t{}", i), "floor.front", 10 + 70 * i);
    const Part part = plate(tabs);
    const TryResult result = inOneStroke(part, {"t0", "t3", "t6"});  // seven on the line: the search lists runs alone
    REQUIRE(result.verdict == Verdict::kInfeasible);
    CHECK_THAT(wordsOf(part, shippedShop(), result.brake, result.steps.front().reasons),
               Contains("t1 sticks out past the nose line beside the bend"));
}

}  // namespace tinwright::test
