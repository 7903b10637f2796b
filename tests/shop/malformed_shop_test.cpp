// SPDX-License-Identifier: GPL-3.0-or-later
// Each file of malformed/ must give exactly the issues (code and place) that malformed/manifest.json lists for it.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>

#include <nlohmann/json.hpp>

#include "reading.h"

namespace fs = std::filesystem;
using namespace tinwright;

namespace {

const std::string kFolder = TINWRIGHT_SOURCE_DIR "/tests/shop/malformed";

nlohmann::json manifest() {
    std::ifstream file(kFolder + "/manifest.json");
    return nlohmann::json::parse(file);
}

}  // namespace

TEST_CASE("malformed shop files give the issues of the manifest, all at once") {
    const nlohmann::json listed = manifest();
    for (const auto& [name, expected] : listed.items()) {
        const Result<Shop> shop = readShop(kFolder + "/" + name, {{}});
        INFO(name << "\n" << test::textOf(shop.issues()));
        REQUIRE_FALSE(shop.ok());
        std::multiset<std::string> found;
        for (const Issue& issue : shop.issues()) {
            found.insert(issue.code + " " + issue.place);
            CHECK_FALSE(issue.file.empty());
            CHECK_FALSE(issue.found.empty());
            CHECK_FALSE(issue.expected.empty());
        }
        std::multiset<std::string> wanted;
        for (const auto& item : expected) wanted.insert(item.get<std::string>());
        CHECK(found == wanted);
    }
}

TEST_CASE("every malformed shop file is in the manifest") {
    const nlohmann::json listed = manifest();
    for (const auto& entry : fs::directory_iterator(kFolder)) {
        const std::string name = entry.path().filename().string();
        if (entry.is_regular_file() && name != "manifest.json") CHECK(listed.contains(name));
    }
}
