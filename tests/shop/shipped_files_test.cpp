// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include <nlohmann/json.hpp>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/io/shop/shop_io.h>

#include "reading.h"

namespace fs = std::filesystem;
using namespace tinwright;

namespace {

std::vector<std::string> filesNamed(const fs::path& folder, const std::string& ending) {
    std::vector<std::string> found;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        const std::string path = entry.path().string();
        if (path.size() > ending.size() && path.compare(path.size() - ending.size(), ending.size(), ending) == 0)
            found.push_back(path);
    }
    std::sort(found.begin(), found.end());
    return found;
}

nlohmann::json documentOf(const std::string& path) {
    std::ifstream file(path);
    return nlohmann::json::parse(file);
}

// A shop with nothing but this brake of the tooling folder.
Result<Shop> shopOf(const std::string& tooling_name) {
    const std::string text =
        R"({"format": "tinwright-shop/1", "units": "mm", "brakes": [{"tooling": "tooling:)" + tooling_name + "\"}]}";
    return test::readWithTooling(text);
}

const Brake& only(const Result<Shop>& shop) {
    INFO(test::textOf(shop.issues()));
    REQUIRE(shop.ok());
    REQUIRE(shop.value().brakes.size() == 1);
    return shop.value().brakes[0];
}

}  // namespace

TEST_CASE("every shipped brake of tooling/ reads, and says what nobody has measured") {
    int brakes = 0;
    for (const std::string& path : filesNamed(TINWRIGHT_SOURCE_DIR "/tooling", ".json")) {
        const nlohmann::json document = documentOf(path);
        if (document.value("kind", "") != "brake") continue;
        INFO(path);
        const Result<Shop> shop = shopOf(fs::path(path).filename().string());
        CHECK_FALSE(only(shop).uncertain.empty());
        ++brakes;
    }
    CHECK(brakes == 9);
}

TEST_CASE("every set of bars, punches or dies of tooling/ is used by a shipped brake") {
    std::string all;
    for (const std::string& path : filesNamed(TINWRIGHT_SOURCE_DIR "/tooling", ".json")) all += documentOf(path).dump();
    for (const std::string& path : filesNamed(TINWRIGHT_SOURCE_DIR "/tooling", ".json")) {
        if (!documentOf(path).contains("kind") || documentOf(path)["kind"] == "brake") continue;
        INFO(path);
        CHECK(all.find("\"set\":\"" + fs::path(path).filename().string() + "\"") != std::string::npos);
    }
}

TEST_CASE("every example shop reads") {
    const std::vector<std::string> shops = filesNamed(TINWRIGHT_SOURCE_DIR "/examples", "shop.json");
    CHECK(shops.size() >= 4);
    for (const std::string& path : shops) {
        INFO(path);
        const Result<Shop> shop = readShop(path);
        INFO(test::textOf(shop.issues()));
        CHECK(shop.ok());
    }
}

TEST_CASE("the magnetic folder: loose bars 25 high, 100 deep or 50, nothing above, open at both ends") {
    const Result<Shop> deep = shopOf("magnetic-folder.json");
    const Brake& brake = only(deep);
    CHECK(brake.leaf().clamp == ClampKind::kLooseBars);
    CHECK_FALSE(brake.leaf().beam);
    CHECK(brake.overhang_left);
    CHECK(brake.overhang_right);
    CHECK(brake.leaf().pieces_out_in_place);
    CHECK(inSetup(brake, 1.5).setback_mm() == 1.5);
    REQUIRE(brake.leaf().bars.size() == 7);
    CHECK(brake.leaf().bars[0].id == "B30");
    CHECK(brake.leaf().bars[0].clamp_depth_mm == 100);
    CHECK(brake.leaf().bars[0].height_mm == 25);
    CHECK(std::count(brake.uncertain.begin(), brake.uncertain.end(), "/bars/*/height") == 1);
    const Result<Shop> narrow = shopOf("magnetic-folder-narrow-bars.json");
    CHECK(only(narrow).name == "magnetic-folder-narrow-bars");
    CHECK(only(narrow).leaf().bars[0].clamp_depth_mm == 50);
    CHECK(only(narrow).length_mm == brake.length_mm);
}

TEST_CASE("the finger brakes: toe and shank under a beam, frames at the ends") {
    const Result<Shop> metric = shopOf("finger-brake-mm.json");
    const Brake& brake = only(metric);
    CHECK(brake.leaf().clamp == ClampKind::kOnBeam);
    CHECK(brake.leaf().beam);
    CHECK(brake.leaf().opening_mm == 40);
    CHECK_FALSE(brake.overhang_left);
    CHECK_FALSE(brake.overhang_right);
    CHECK(brake.leaf().bars.size() == 11);
    for (const Bar& bar : brake.leaf().bars) CHECK(bar.height_mm == brake.leaf().beam->height_mm);
    const Result<Shop> inch = shopOf("finger-brake-in.json");
    CHECK(only(inch).length_mm == Approx(48 * 25.4).epsilon(1e-12));
    CHECK(only(inch).leaf().bars[1].width_mm == Approx(1.25 * 25.4).epsilon(1e-12));
    CHECK(only(inch).leaf().beam->height_mm == Approx(4 * 25.4).epsilon(1e-12));
}

TEST_CASE("the plain leaf brake: one bar of full length") {
    const Result<Shop> shop = shopOf("plain-leaf-brake.json");
    REQUIRE(only(shop).leaf().bars.size() == 1);
    CHECK(only(shop).leaf().bars[0].count == 1);
    CHECK(only(shop).leaf().bars[0].width_mm == only(shop).length_mm);
    CHECK_FALSE(only(shop).leaf().pieces_out_in_place);
}

TEST_CASE(
    "the press brake: straight punches and goosenecks over dies of seven openings, side frames behind the throat") {
    const Result<Shop> metric = shopOf("press-brake.json");
    const Brake& brake = only(metric);
    REQUIRE(brake.isPress());
    CHECK(brake.press().throat_mm == 200);
    CHECK(brake.press().frames_left_mm == 150);
    CHECK(brake.press().frames_right_mm == 1350);
    CHECK(brake.press().open_height_mm == 230);  // the adapter is off it
    CHECK(brake.press().punches.size() == 18);
    CHECK(std::count_if(brake.press().punches.begin(), brake.press().punches.end(),
                        [](const Punch& punch) { return punch.horn.has_value(); }) == 4);
    const std::vector<Vee> vees = veesOf(brake);
    REQUIRE(vees.size() == 7);
    CHECK(vees.front().opening_mm == 6);
    CHECK(vees.back().opening_mm == 25);
    CHECK(std::count(brake.uncertain.begin(), brake.uncertain.end(), "/dies/*/height") == 1);
    const Result<Shop> inch = shopOf("press-brake-in.json");
    CHECK(only(inch).length_mm == Approx(60 * 25.4).epsilon(1e-12));
    CHECK(only(inch).press().frames_right_mm == Approx(60 * 25.4 - 150));
    CHECK(veesOf(only(inch)).size() == 5);
}

TEST_CASE("the schemas of shop and tooling files describe a brake alike") {
    const nlohmann::json shop = documentOf(TINWRIGHT_SOURCE_DIR "/src/io/schema/shop.schema.json");
    const nlohmann::json tooling = documentOf(TINWRIGHT_SOURCE_DIR "/src/io/schema/tooling.schema.json");
    nlohmann::json of_tooling = tooling.at("properties");
    for (const char* header : {"format", "units", "kind"}) of_tooling.erase(header);
    CHECK(of_tooling == shop.at("definitions").at("brake").at("properties"));
    for (const auto& [name, definition] : tooling.at("definitions").items())
        CHECK(definition == shop.at("definitions").at(name));
}

TEST_CASE("the complete example of SHOP_FORMAT.md reads") {
    std::ifstream file(TINWRIGHT_SOURCE_DIR "/src/io/SHOP_FORMAT.md");
    const std::string page{std::istreambuf_iterator<char>(file), {}};
    const std::size_t from = page.find("```json\n");
    REQUIRE(from != std::string::npos);
    const std::size_t begin = from + 8;
    const Result<Shop> shop = test::readWithTooling(page.substr(begin, page.find("```", begin) - begin));
    INFO(test::textOf(shop.issues()));
    REQUIRE(shop.ok());
    REQUIRE(shop.value().brakes.size() == 3);
    CHECK(shop.value().brakes[0].leaf().opening_mm == 42);
    CHECK(shop.value().brakes[0].leaf().bars.size() == 4);
    CHECK(shop.value().brakes[1].leaf().bars[1].count == 2);
    REQUIRE(shop.value().brakes[2].isPress());
    CHECK(shop.value().brakes[2].press().throat_mm == 180);
}
