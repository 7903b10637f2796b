// SPDX-License-Identifier: GPL-3.0-or-later
// Each file of malformed/ gives exactly the issues (code and place) that malformed/manifest.json lists for it.
#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <set>

#include <nlohmann/json.hpp>

#include <tinwright/io/recipe_io.h>

#include "recipes.h"

namespace fs = std::filesystem;
using namespace tinwright;

namespace {

const std::string kFolder = TINWRIGHT_SOURCE_DIR "/tests/part/malformed";

nlohmann::json manifest() {
    std::ifstream file(kFolder + "/manifest.json");
    return nlohmann::json::parse(file);
}

std::multiset<std::string> codesAndPlaces(const Issues& issues) {
    std::multiset<std::string> found;
    for (const Issue& issue : issues) found.insert(issue.code + " " + issue.place);
    return found;
}

}  // namespace

TEST_CASE("malformed recipes give the issues of the manifest, all at once") {
    const nlohmann::json listed = manifest();
    for (const auto& [name, expected] : listed.items()) {
        const Result<Part> part = readPartFile(kFolder + "/" + name);
        INFO(name << "\n" << test::textOf(part.issues()));
        REQUIRE_FALSE(part.ok());
        for (const Issue& issue : part.issues()) {
            CHECK(issue.file == kFolder + "/" + name);
            CHECK_FALSE(issue.found.empty());
            CHECK_FALSE(issue.expected.empty());
        }
        CHECK(codesAndPlaces(part.issues()) == expected.get<std::multiset<std::string>>());
    }
}

TEST_CASE("every malformed recipe is in the manifest") {
    const nlohmann::json listed = manifest();
    for (const auto& entry : fs::directory_iterator(kFolder)) {
        const std::string name = entry.path().filename().string();
        if (name != "manifest.json") CHECK(listed.contains(name));
    }
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
