// SPDX-License-Identifier: GPL-3.0-or-later
// What is told of a bend that no bars cover: of the bars that would do, whatever the order in which a shop file has
// bars and leaf faces.
#include <catch2/catch.hpp>

#include <algorithm>

#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/shop_io.h>

#include "../one_vee.h"
#include "plan_support.h"

namespace tinwright::test {

namespace {

struct Pod {
    Part part = readPartFile(TINWRIGHT_SOURCE_DIR "/examples/roaster-pod/part.json").value();
    Shop shop = readShop(TINWRIGHT_SOURCE_DIR "/examples/roaster-pod/shop.json").value();

    [[nodiscard]] std::string sentence() const {
        const BrakeInSetup brake = inUse(part, shop.brakes[0]);
        FoldEngine engine(part, shop, brake);
        const BendMask formed = bit(bendNamed(part, "side_right")) | bit(bendNamed(part, "side_left"));
        return wordsOf(part, shop, brake, engine.explain(formed, {bit(bendNamed(part, "side_front")), Side::kChild}));
    }
};

/// Too wide to stand between the walls, though with more room there: its lower corners clear their fillets.
Bar relieved(Bar like) {
    like.id = "relieved";
    like.width_mm = 300;
    like.count = 1;
    like.end_relief_mm = 6;
    like.end_relief_height_mm = 8;
    return like;
}

/// A wall with a lip that hangs down in front: a leaf that reaches far meets it, a narrow one does not.
const char* const kHangingLip =
    R"({"format":"tinwright-part/1","units":"mm","name":"lip","sheet":{"material":"mild-steel","thickness":1.5},)"
    R"("allowance":{"rule":"k-factor","k":0.44},"inside_radius":1,"measured":"outside",)"
    R"("base":{"name":"floor","width":200,"depth":80},"flanges":[{"name":"wall","on":"floor.front","length":40},)"
    R"({"name":"lip","on":"wall.far","length":15,"direction":"down"}]})";

}  // namespace

TEST_CASE("the free room that is told is that of the section with most, by name, wherever the shop file has it") {
    Pod pod;
    const std::vector<Bar> drawn = pod.shop.brakes[0].leaf().bars;
    std::vector<Bar>& bars = pod.shop.brakes[0].leaf().bars;
    const std::string alone = pod.sentence();
    REQUIRE_THAT(alone, Catch::Contains("covers 71.8 mm of bend where 72.5 mm are free"));
    bars.push_back(relieved(drawn.front()));
    const std::string last = pod.sentence();
    std::rotate(bars.begin(), bars.end() - 1, bars.end());
    const std::string first = pod.sentence();
    CHECK(first == last);
    CHECK_THAT(first, Catch::Contains("bars like relieved") && Catch::Contains("are free"));
    std::reverse(bars.begin(), bars.end());
    CHECK(pod.sentence() == first);
}

TEST_CASE("a leaf face that meets the part is no reason while another passes it") {
    const Part part = partFrom(kHangingLip);
    Pod pod;
    LeafBrake& brake = pod.shop.brakes[0].leaf();
    std::erase_if(brake.bars, [](const Bar& bar) { return bar.width_mm >= 60; });
    for (Bar& bar : brake.bars) bar.count = 1;
    brake.leaf_faces = {{"wide", 80, 20}, {"narrow", 20, 20}};
    const auto told = [&] {
        const BrakeInSetup in_use = inUse(part, pod.shop.brakes[0]);
        FoldEngine engine(part, pod.shop, in_use);
        return wordsOf(part, pod.shop, in_use,
                       engine.explain(bit(bendNamed(part, "lip")), {bit(bendNamed(part, "wall")), Side::kParent}));
    };
    const std::string first = told();
    CHECK_THAT(first, Catch::Contains("no combination of the bars covers 200.0 mm"));
    std::reverse(brake.leaf_faces.begin(), brake.leaf_faces.end());
    CHECK(told() == first);
    brake.leaf_faces = {{"wide", 80, 20}};
    CHECK_THAT(told(), Catch::Contains("lip hits the leaf"));
}

}  // namespace tinwright::test
