// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>

#include <tinwright/io/recipe/recipe_io.h>

#include "recipes.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {
struct Example {
    const char* file;
    std::size_t bends;
};
const Example kExamples[] = {{"roaster-pod/part.json", 6},
                             {"roaster-pod/part-suited.json", 6},
                             {"tray-lips/part.json", 8},
                             {"hat-channel/part.json", 4},
                             {"deep-housing/part.json", 4}};
}  // namespace

TEST_CASE("every example part develops without issue or warning") {
    for (const Example& example : kExamples) {
        const auto part = readPartFile(std::string(TINWRIGHT_SOURCE_DIR "/examples/") + example.file);
        INFO(example.file << "\n" << textOf(part.issues()));
        REQUIRE(part.ok());
        CHECK(part.value().bends.size() == example.bends);
        CHECK(part.value().warnings.empty());
        CHECK(isValid(part.value().blank));
    }
}

TEST_CASE("the example in the format's description develops") {
    std::ifstream file(TINWRIGHT_SOURCE_DIR "/src/io/NOTES.md");
    const std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
    const std::size_t start = text.find("```json\n") + 8;
    const auto recipe = readRecipe(text.substr(start, text.find("```", start) - start), "NOTES.md");
    INFO(textOf(recipe.issues()));
    REQUIRE(recipe.ok());
    const auto part = develop(recipe.value());
    INFO(textOf(part.issues()));
    CHECK(part.ok());
}

TEST_CASE("the hat channel's blank is the sum of its flats and strips") {
    const Part part = readPartFile(TINWRIGHT_SOURCE_DIR "/examples/hat-channel/part.json").value();
    const double ba = kFactorAllowance_mm(Angle::degrees(90), 1, 1.5, 0.44);
    CHECK(blankDepth(part) == Approx(20 + 40 + 60 + 40 + 20 + 4 * ba).margin(1e-6));
}

TEST_CASE("a recipe in inches is the same part as one in mm") {
    const char* common =
        R"("format": "tinwright-part/1", "name": "n", "allowance": {"rule": "handbook"}, "measured": "outside")";
    const std::string inch =
        std::string("{\"units\": \"in\", ") + common +
        R"(, "sheet": {"material": "m", "thickness": {"gauge": 16, "system": "steel-msg"}}, "inside_radius": 0.05,
            "base": {"name": "b", "width": 4, "depth": 2}, "flanges": [{"name": "f", "on": "b.front", "length": 1}]})";
    const std::string mm = std::string("{\"units\": \"mm\", ") + common +
                           R"(, "sheet": {"material": "m", "thickness": 1.51892}, "inside_radius": 1.27,
            "base": {"name": "b", "width": 101.6, "depth": 50.8}, "flanges": [{"name": "f", "on": "b.front", "length": 25.4}]})";
    const auto a = readRecipe(inch, "a"), b = readRecipe(mm, "b");
    INFO(textOf(a.issues()) << textOf(b.issues()));
    REQUIRE((a.ok() && b.ok()));
    const Part pa = develop(a.value()).value(), pb = develop(b.value()).value();
    CHECK(pa.bends[0].allowance_mm == Approx(pb.bends[0].allowance_mm).epsilon(1e-12));
    CHECK(area_mm2(pa.blank) == Approx(area_mm2(pb.blank)).margin(1e-3));
}
