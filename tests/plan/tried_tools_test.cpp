// SPDX-License-Identifier: GPL-3.0-or-later
// Why a fold does not go where several kinds of tools were tried, or where the machine itself is too short.
#include <algorithm>
#include <fstream>
#include <iterator>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/io/shop/shop_io.h>

#include "../one_vee.h"
#include "plan_support.h"

namespace tinwright::test {

namespace {

// The shipped press brake in its V of 12 with all its punches, straight ones and goosenecks.
Shop pressOfBoth() {
    const OpenReference open = [](const ReferringFile&, const std::string& reference) -> Result<ReferencedFile> {
        const std::string name = reference.substr(reference.find(':') + 1);
        std::ifstream file(std::string(TINWRIGHT_SOURCE_DIR "/tooling/") + name, std::ios::binary);
        return ReferencedFile{name, name, std::string(std::istreambuf_iterator<char>(file), {})};
    };
    const Result<Shop> read =
        readShopText(R"({"format":"tinwright-shop/1","units":"mm","brakes":[{"tooling":"tooling:press-brake.json"}]})",
                     "shop.json", open);
    REQUIRE(read);
    Shop shop = read.value();
    for (const Vee& vee : veesOf(shop.brakes[0])) {
        if (vee.opening_mm != 12) continue;
        shop.brakes[0] = onlyVee(shop.brakes[0], vee);
        return shop;
    }
    FAIL("no V of 12");
    return shop;
}

Part channel(double length_mm, double web_mm, double leg_mm) {
    return partFrom(fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"channel","sheet":{{"material":"mild-steel","thickness":1.5}},)"
        R"("allowance":{{"rule":"k-factor","k":0.42}},"inside_radius":1.92,"measured":"outside",)"
        R"("base":{{"name":"web","width":{},"depth":{}}},"flanges":[)"
        R"({{"name":"left","on":"web.front","length":{}}},{{"name":"right","on":"web.back","length":{}}}]}})",
        length_mm, web_mm, leg_mm, leg_mm));
}

std::string whyNot(const Part& part, const Shop& shop, const char* formed, const char* bend) {
    const BrakeInSetup brake = inUse(part, shop.brakes[0]);
    FoldEngine engine(part, shop, brake);
    const BendMask state = formed != nullptr ? bit(bendNamed(part, formed)) : 0;
    std::string told;
    for (const Side hold : kBothSides) {
        const Stroke stroke{bit(bendNamed(part, bend)), hold};
        if (engine.check(state, stroke).answer == StrokeAnswer::kPossible) return "goes";
        told += wordsOf(part, shop, brake, engine.explain(state, stroke));
    }
    return told;
}

}  // namespace

// Common practice: the first leg of a deep narrow channel runs into a straight punch, a gooseneck lets in more, and a
// still deeper one runs into either.
TEST_CASE("Where a straight punch and a gooseneck were tried the reason is told for each, by its id") {
    Shop shop = pressOfBoth();
    CHECK(whyNot(channel(200, 50, 45), shop, "left", "right") == "goes");
    const std::string told = whyNot(channel(200, 50, 90), shop, "left", "right");
    CHECK_THAT(told, Catch::Contains("with punch S") && Catch::Contains("with punch G") && !Catch::Contains(" 0.0 mm"));
    std::vector<Punch>& punches = shop.brakes[0].press().punches;
    std::reverse(punches.begin(), punches.end());
    CHECK(whyNot(channel(200, 50, 90), shop, "left", "right") == told);  // whatever the order of the shop file
}

TEST_CASE("A machine that is too short for a bend is told so, and nothing else") {
    const Shop shop = pressOfBoth();
    CHECK(whyNot(channel(250, 80, 20), shop, "left", "right") == "goes");
    const std::string told = whyNot(channel(1600, 50, 90), shop, "left", "right");
    CHECK_THAT(told, Catch::Contains("the machine is too short: the bend is 1600 mm long, the machine 1500 mm") &&
                         !Catch::Contains("hits"));
}

}  // namespace tinwright::test
