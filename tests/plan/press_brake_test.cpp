// SPDX-License-Identifier: GPL-3.0-or-later
// Single folds on the shipped press brake, as far as the fold engine knows it: classic shapes with known answers.
#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <tinwright/fold/fold_engine.h>
#include <tinwright/io/shop_io.h>

#include "plan_support.h"

namespace tinwright::test {

namespace {

// The shipped press brake in its V of 12, with straight punches alone or with goosenecks alone.
Shop pressShop(const std::string& punches) {
    const Result<Shop> read = readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/plan/data/press-" + punches + ".json");
    INFO((read ? std::string() : toText(read.issues().front())));
    REQUIRE(read);
    Shop shop = read.value();
    for (const Vee& vee : veesOf(shop.brakes[0])) {
        if (vee.opening_mm == 12) {
            shop.brakes[0] = inVee(shop.brakes[0], vee, 0.16 * vee.opening_mm);
            return shop;
        }
    }
    FAIL("no V of 12");
    return shop;
}

// A channel: base `web` wide with two legs, 200 long, 1.5 mild steel.
Part channel(double web_mm, double left_mm, double right_mm) {
    return partFrom(fmt::format(R"({{"format":"tinwright-part/1","units":"mm","name":"channel","sheet":{{"material":"mild-steel","thickness":1.5}},)"
                                R"("allowance":{{"rule":"k-factor","k":0.42}},"inside_radius":1.92,"measured":"outside",)"
                                R"("base":{{"name":"web","width":200,"depth":{}}},"flanges":[)"
                                R"({{"name":"left","on":"web.front","length":{}}},{{"name":"right","on":"web.back","length":{}}}]}})",
                                web_mm, left_mm, right_mm));
}

StrokeAnswer fold(const Part& part, const Shop& shop, const std::vector<std::string>& formed, const std::string& bend, std::string* code = nullptr) {
    FoldEngine engine(part, shop, shop.brakes[0]);
    BendMask state = 0;
    for (const std::string& name : formed) state |= bit(bendNamed(part, name));
    StrokeAnswer best = StrokeAnswer::kImpossible;
    for (const int hold : {0, 1}) {
        const StrokeResult result = engine.check(state, {{bendNamed(part, bend)}, hold, true});
        if (code != nullptr) *code += result.code + " ";
        if (result.answer == StrokeAnswer::kPossible) return result.answer;
        if (result.answer == StrokeAnswer::kUndecided) best = result.answer;
    }
    return best;
}

}  // namespace

TEST_CASE("a press brake folds a flat sheet, and a shallow channel with any punch") {
    for (const char* punches : {"straight", "gooseneck"}) {
        CAPTURE(punches);
        const Shop shop = pressShop(punches);
        const Part part = channel(80, 20, 20);
        std::string codes;
        const StrokeAnswer first = fold(part, shop, {}, "left", &codes);
        const StrokeAnswer second = fold(part, shop, {"left"}, "right", &codes);
        CAPTURE(codes);
        CHECK(first == StrokeAnswer::kPossible);
        CHECK(second == StrokeAnswer::kPossible);
    }
}

// Common practice: the first leg of a deep narrow channel runs into a straight punch; a gooseneck lets it in.
TEST_CASE("a channel deeper than a straight punch allows goes with a gooseneck") {
    const Part part = channel(50, 45, 45);
    std::string codes;
    const StrokeAnswer straight = fold(part, pressShop("straight"), {"left"}, "right", &codes);
    const StrokeAnswer gooseneck = fold(part, pressShop("gooseneck"), {"left"}, "right", &codes);
    CAPTURE(codes);
    CHECK(straight == StrokeAnswer::kImpossible);
    CHECK(gooseneck == StrokeAnswer::kPossible);
}

// The published least flange of a V of 12 is 8.5 mm (check-values.md, air-bend chart): 0.6 mm to either side of it.
TEST_CASE("a flange must reach past the shoulders of the V until it is bent") {
    const Shop shop = pressShop("straight");
    CHECK(fold(channel(80, 9.1, 40), shop, {}, "left") == StrokeAnswer::kPossible);
    std::string codes;
    CHECK(fold(channel(80, 7.9, 40), shop, {}, "left", &codes) == StrokeAnswer::kImpossible);
    CHECK(codes == "no-land no-land ");
}

}  // namespace tinwright::test
