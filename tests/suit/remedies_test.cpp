// SPDX-License-Identifier: GPL-3.0-or-later
// Remedies of each kind on parts made for it; each is made again from its numbers and planned here.
#include <catch2/catch.hpp>

#include <cmath>
#include <cstdlib>
#include <iostream>

#include <tinwright/io/recipe_io.h>
#include <tinwright/io/shop_io.h>
#include <tinwright/sequence/remedies.h>

using namespace tinwright;

namespace {

std::string path(const std::string& inside) { return std::string(TINWRIGHT_SOURCE_DIR) + "/" + inside; }

Shop shopOf(const std::string& inside) {
    Result<Shop> shop = readShop(path(inside));
    REQUIRE(shop.ok());
    return std::move(shop).value();
}

Recipe recipeIn(const std::string& inside) {
    Result<Recipe> recipe = readRecipeFile(path(inside));
    REQUIRE(recipe.ok());
    return std::move(recipe).value();
}

Recipe recipeOf(const std::string& text) {
    Result<Recipe> recipe = readRecipe(text, "part.json");
    REQUIRE(recipe.ok());
    return std::move(recipe).value();
}

Part partOf(const Recipe& recipe) {
    Result<Part> part = develop(recipe);
    REQUIRE(part.ok());
    return std::move(part).value();
}

TweakedPart tweaksOf(const Recipe& recipe, const std::vector<std::string>& names, double reach_mm) {
    TweakedPart tweaks;
    for (const std::string& name : names) {
        Recipe copy = recipe;
        const double value = findDimension(copy, name)->value_mm;
        tweaks.dimensions.push_back({name, value, value - reach_mm, value + reach_mm});
    }
    tweaks.with = [recipe, names](const std::vector<DimensionValue>& values) {
        Recipe changed = recipe;
        for (const DimensionValue& value : values) findDimension(changed, names[value.dimension])->value_mm = value.value_mm;
        return develop(changed);
    };
    return tweaks;
}

void show(const Part& part, const TweakedPart& tweaks, const Shop& shop, std::size_t brake) {
    const BrakeResult drawn = planOnBrake(part, shop, brake, {});
    std::cout << part.name << " on " << shop.brakes[brake].name << ": " << toText(drawn.verdict) << ", work " << planWork(drawn.work) << "\n";
    for (const Reason& reason : drawn.reasons) std::cout << "    " << reason.code << " | " << reason.panel << " | " << reason.body << " | " << reason.words << "\n";
    const Remedies remedies = findRemedies(part, tweaks, shop, brake, drawn, {});
    std::cout << "  plans " << remedies.plans_made << " work " << remedies.work << " cut " << remedies.cut_short << "\n";
    for (const Remedy& r : remedies.list) {
        std::cout << "  kind " << static_cast<int>(r.kind) << " level " << r.result.level() << " clear " << r.result.worst_clearance_mm << " brake " << shop.brakes[r.brake].name;
        for (const auto& d : r.dimensions) std::cout << "; " << tweaks.dimensions[d.dimension].name << " " << d.from_mm << "->" << d.to_mm;
        for (const auto& c : r.corners) std::cout << "; corner " << part.bend(c.bend).name << " end " << static_cast<int>(c.end) << " beside " << part.panel(c.beside).name << " by " << c.by_mm << " weld " << c.weld_mm << " gap " << c.gap_mm;
        for (const auto& b : r.bars) std::cout << "; bar like " << b.like << " " << b.width_mm << "x" << b.depth_mm << "x" << b.height_mm << (b.milled ? " milled" : "");
        if (r.weld) std::cout << "; weld " << part.bend(r.weld->bend).name << " " << r.weld->weld_mm << " piece bends " << r.weld->piece_bends;
        std::cout << "\n";
    }
}

std::string tray(double width_mm, double depth_mm, double wall_mm, double gap_mm) {
    std::string flanges;
    for (const std::string side : {"front", "right", "back", "left"}) {
        flanges += (flanges.empty() ? "" : ",") + (R"({"name":"wall_)" + side + R"(","on":"base.)" + side + R"(","length":)" + std::to_string(wall_mm) + "}");
    }
    std::string corners;
    const char* sides[] = {"front", "right", "back", "left"};
    for (int i = 0; i < 4; ++i) {
        corners += std::string(i > 0 ? "," : "") + R"({"between":["wall_)" + sides[i] + R"(","wall_)" + sides[(i + 1) % 4] + R"("],"type":"open","gap":)" + std::to_string(gap_mm) + "}";
    }
    return R"({"format":"tinwright-part/1","units":"mm","name":"tray","sheet":{"material":"mild-steel","thickness":1.5},"allowance":{"rule":"k-factor","k":0.44},
        "inside_radius":1,"measured":"inside","base":{"name":"base","width":{"value":)" + std::to_string(width_mm) + R"(,"name":"width"},"depth":{"value":)" + std::to_string(depth_mm) +
           R"(,"name":"depth"}},"flanges":[)" + flanges + R"(],"corners":[)" + corners + "]}";
}

}  // namespace

TEST_CASE("explore remedies", "[.]") {
    const Shop pod_shop = shopOf("examples/roaster-pod/shop.json");
    {
        const Recipe pod = recipeIn("examples/roaster-pod/part.json");
        show(partOf(pod), tweaksOf(pod, {"inside_width", "side_height", "tab_length", "tab_width", "corner_gap"}, 18), pod_shop, 0);
    }
    {
        const Recipe deep = recipeIn("examples/deep-housing/part.json");
        const Shop shop = shopOf("examples/deep-housing/shop.json");
        show(partOf(deep), tweaksOf(deep, {"length", "depth", "wall_height", "corner_gap"}, 20), shop, 0);
        show(partOf(deep), tweaksOf(deep, {"length", "depth", "wall_height", "corner_gap"}, 20), shop, 1);
    }
    for (const char* type : {"overlap", "butt"}) {
        std::string text = tray(151, 91, 60, 0.3);
        for (std::size_t at = 0; (at = text.find("\"open\"", at)) != std::string::npos;) {
            text.replace(at, 6, std::string("\"") + type + "\"" + (type[0] == 'o' ? ",\"over\":\"" + text.substr(text.rfind("between", at) + 11, text.find('"', text.rfind("between", at) + 11) - text.rfind("between", at) - 11) + "\"" : ""));
        }
        const Recipe recipe = recipeOf(text);
        show(partOf(recipe), tweaksOf(recipe, {"width", "depth"}, 12), pod_shop, 0);
    }
    for (const double height : {12.0, 13.0, 14.0, 15.0, 16.0}) {
        Recipe pod = recipeIn("examples/roaster-pod/part.json");
        findDimension(pod, "side_height")->value_mm = height;
        pod.cut_outs.clear();
        std::cout << "height " << height << "\n";
        show(partOf(pod), tweaksOf(pod, {"inside_width", "side_height"}, 10), pod_shop, 0);
    }
}
