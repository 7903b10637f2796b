// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes: the reader says what is wrong or gives a recipe; developing that says what is wrong or gives a part
// whose numbers are finite.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include <tinwright/base/contract.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/part/model/pose.h>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace tinwright;
    const auto recipe = readRecipe(std::string_view(reinterpret_cast<const char*>(data), size), "fuzz.json");
    if (!recipe) {
        for (const Issue& issue : recipe.issues())
            TINWRIGHT_REQUIRE(!toText(issue).empty() && !issue.code.empty(), "issues say something");
        return 0;
    }
    const auto part = develop(recipe.value());
    if (!part) return 0;
    for (const Rigid& pose : baseFromPanels(part.value(), allFormed(part.value()))) {
        TINWRIGHT_REQUIRE(pose.matrix().allFinite(), "poses are finite");
    }
    TINWRIGHT_REQUIRE(std::isfinite(area_mm2(part.value().blank)) && area_mm2(part.value().blank) > 0,
                      "a blank has an area");
    return 0;
}
