// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Fixed instances for the benchmarks.

#include <cstdlib>
#include <string>

#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/shop_io.h>

namespace tinwright::bench {

inline std::string path(const std::string& inside) { return std::string(TINWRIGHT_SOURCE_DIR) + "/" + inside; }

template <class T>
T must(Result<T> result) {
    if (!result) {
        for (const Issue& issue : result.issues()) std::fprintf(stderr, "%s\n", toText(issue).c_str());
        std::abort();
    }
    return std::move(result).value();
}

/// A box 240 x 180 x 60 with a return lip of 12 on each wall and a fixing tab of 10 on each lip: 13 panels, 12 bends.
inline Part enclosure() {
    std::string flanges;
    const char* sides[] = {"front", "right", "back", "left"};
    const auto add = [&](const std::string& name, const std::string& on, double length, const std::string& more) {
        flanges += (flanges.empty() ? "" : ",") + std::string(R"({"name":")") + name + R"(","on":")" + on +
                   R"(","length":)" + std::to_string(length) + more + "}";
    };
    for (const std::string side : sides) add("wall_" + side, "floor." + side, 60, "");
    for (const std::string side : sides)
        add("lip_" + side, "wall_" + side + ".far", 18,
            R"(,"from_left":4,"from_right":4,"left_mitre":45,"right_mitre":45)");
    for (const std::string side : sides)
        add("tab_" + side, "lip_" + side + ".far", 14, R"(,"width":40,"direction":"down")");
    std::string corners;
    for (int i = 0; i < 4; ++i) {
        corners += std::string(i > 0 ? "," : "") + R"({"between":["wall_)" + sides[i] + R"(","wall_)" +
                   sides[(i + 1) % 4] + R"("],"type":"open","gap":4.6})";
    }
    const std::string text =
        R"({"format":"tinwright-part/1","units":"mm","name":"enclosure","sheet":{"material":"mild-steel","thickness":1.5},
        "allowance":{"rule":"k-factor","k":0.44},"inside_radius":1,"measured":"outside",
        "base":{"name":"floor","width":300,"depth":220},"flanges":[)" +
        flanges + R"(],"corners":[)" + corners + "]}";
    Result<Recipe> recipe = readRecipe(text, "enclosure");
    return must(develop(must(std::move(recipe))));
}

inline Shop enclosureShop() { return must(readShop(path("examples/roaster-pod/shop.json"))); }

}  // namespace tinwright::bench
