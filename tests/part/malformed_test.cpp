// SPDX-License-Identifier: GPL-3.0-or-later
// Each file of malformed/ gives exactly the issues (code and place) that malformed/manifest.json lists for it.
#include <catch2/catch.hpp>

#include <fstream>

#include <tinwright/io/recipe/recipe_io.h>

#include "../malformed_corpus.h"
#include "recipes.h"

using namespace tinwright;

TEST_CASE("malformed recipes give the issues of the manifest, all at once") {
    test::checkMalformed(TINWRIGHT_SOURCE_DIR "/tests/part/malformed", [](const std::string& file) {
        const Result<Part> part = readPartFile(file);
        CHECK_FALSE(part.ok());
        for (const Issue& issue : part.issues()) CHECK(issue.file == file);
        return part.issues();
    });
}

// Cut anywhere, an example is a clear syntax error and never a part.
TEST_CASE("an example cut off after any byte is refused") {
    std::ifstream file(TINWRIGHT_SOURCE_DIR "/examples/tray-lips/part.json");
    const std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
    const std::size_t whole = text.find_last_of('}');
    for (std::size_t size = 0; size <= whole; size += 7) {
        const auto recipe = readRecipe(std::string_view(text).substr(0, size), "cut.json");
        REQUIRE_FALSE(recipe.ok());
        CHECK(recipe.issues()[0].code == "json.syntax");
    }
}
