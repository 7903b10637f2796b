// SPDX-License-Identifier: GPL-3.0-or-later
// Where the references of a shop file may lead, on a real disk.
#include <catch2/catch.hpp>

#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "reading.h"

namespace fs = std::filesystem;
using namespace tinwright;

namespace {

const char* const kBars = R"({"format": "tinwright-tooling/1", "units": "mm", "kind": "bars",
    "bars": [{"id": "A", "width": 30, "clamp_depth": 60, "height": 25, "nose_angle_deg": 45}]})";

// A folder of its own that goes away again: outside/, shop/, shop/sub/, tools/.
class Disk {
public:
    Disk() : root_(fs::temp_directory_path() / ("tinwright-shop-test-" + std::to_string(::getpid()))) {
        fs::remove_all(root_);
        for (const char* folder : {"outside", "shop/sub", "tools"}) fs::create_directories(root_ / folder);
        write("outside/bars.json", kBars);
        write("shop/sub/bars.json", kBars);
        write("tools/bars.json", kBars);
    }
    ~Disk() { fs::remove_all(root_); }
    Disk(const Disk&) = delete;
    Disk& operator=(const Disk&) = delete;

    void write(const std::string& name, const std::string& text) const {
        std::ofstream(root_ / name, std::ios::binary) << text;
    }
    [[nodiscard]] fs::path at(const std::string& name) const { return root_ / name; }
    [[nodiscard]] Result<Shop> readWith(const std::string& brake) const {
        write("shop/shop.json", R"({"format": "tinwright-shop/1", "units": "mm", "brakes": [)" + brake + "]}");
        return readShop((root_ / "shop/shop.json").string(), {{root_ / "tools"}});
    }
    [[nodiscard]] Result<Shop> readWithSet(const std::string& set) const {
        return readWith(
            R"({"name": "b", "length": 500, "max_leaf_angle_deg": 120, "nose_radius": 1, "clamp": "loose-bars",
            "leaf_faces": [{"name": "full", "reach": 20, "thickness": 10}], "bed": [[0, 0], [0, -50], [90, -50], [90, 0]],
            "bars": [{"set": ")" +
            set + "\"}]}");
    }

private:
    fs::path root_;
};

const std::string kPlace = "/brakes/0/bars/0/set";

}  // namespace

TEST_CASE("references into the shop's folder and into known tooling are followed") {
    const Disk disk;
    for (const char* set : {"sub/bars.json", "./sub/../sub/bars.json", "../shop/sub/bars.json", "../tools/bars.json",
                            "tooling:bars.json"}) {
        const Result<Shop> shop = disk.readWithSet(set);
        INFO(set << "\n" << test::textOf(shop.issues()));
        CHECK(shop.ok());
    }
}

TEST_CASE("references to anywhere else are refused") {
    const Disk disk;
    const std::string absolute = disk.at("shop/sub/bars.json").string();
    for (const std::string& set :
         {std::string("../outside/bars.json"), absolute, std::string("sub/../../outside/bars.json"),
          std::string("tooling:../outside/bars.json"), std::string("tooling:"), std::string("tooling:none.json"),
          std::string("sub"), std::string("no-such.json"), std::string("../../../../../../../../etc/passwd")}) {
        const Result<Shop> shop = disk.readWithSet(set);
        INFO(set);
        REQUIRE_FALSE(shop.ok());
        CHECK(test::has(shop.issues(), "shop.reference", kPlace));
    }
}

TEST_CASE("a link that leads out of the shop's folder is refused") {
    const Disk disk;
    fs::create_symlink(disk.at("outside/bars.json"), disk.at("shop/link.json"));
    fs::create_directory_symlink(disk.at("outside"), disk.at("shop/away"));
    CHECK(test::has(disk.readWithSet("link.json").issues(), "shop.reference", kPlace));
    CHECK(test::has(disk.readWithSet("away/bars.json").issues(), "shop.reference", kPlace));
}

TEST_CASE("a reference inside a tooling file is relative to that file") {
    const Disk disk;
    disk.write("tools/outer.json",
               R"({"format": "tinwright-tooling/1", "units": "mm", "kind": "bars", "bars": [{"set": "bars.json"}]})");
    const Result<Shop> shop = disk.readWithSet("../tools/outer.json");
    INFO(test::textOf(shop.issues()));
    CHECK(shop.ok());
}

TEST_CASE("files that lead back to themselves are told, not followed") {
    const Disk disk;
    disk.write("shop/a.json",
               R"({"format": "tinwright-tooling/1", "units": "mm", "kind": "brake", "tooling": "b.json"})");
    disk.write("shop/b.json",
               R"({"format": "tinwright-tooling/1", "units": "mm", "kind": "brake", "tooling": "./sub/../a.json"})");
    const Result<Shop> brakes = disk.readWith(R"({"tooling": "a.json"})");
    CHECK(test::has(brakes.issues(), "tooling.cycle", "/tooling", disk.at("shop/b.json").string()));
    disk.write("shop/self.json",
               R"({"format": "tinwright-tooling/1", "units": "mm", "kind": "bars", "bars": [{"set": "self.json"}]})");
    CHECK(test::has(disk.readWithSet("self.json").issues(), "tooling.cycle", "/bars/0/set"));
}

TEST_CASE("references do not multiply") {
    // Each file brings in the next one twice: without a limit 2^30 lists.
    std::map<std::string, std::string> files;
    const auto name = [](int i) { return "f" + std::to_string(i); };
    for (int i = 0; i < 30; ++i) {
        const std::string next = "{\"set\": \"" + name(i + 1) + "\"}";
        files[name(i)] =
            R"({"format": "tinwright-tooling/1", "units": "mm", "kind": "bars", "bars": [)" + next + "," + next + "]}";
    }
    const Result<Shop> shop =
        readShopText(R"({"format": "tinwright-shop/1", "units": "mm", "brakes": [{"bars": [{"set": "f0"}]}]})",
                     "shop.json", test::memory(files));
    REQUIRE_FALSE(shop.ok());
    CHECK(test::has(shop.issues(), "tooling.nesting", "/bars/0/set", "f7"));
    CHECK(shop.issues().size() < 200);
}

TEST_CASE("what is wrong with a file that cannot be parsed is said once, beside its own name") {
    const Disk disk;
    disk.write("shop/broken.json", "{\"format\": ");
    const Result<Shop> shop = disk.readWith(R"({"tooling": "broken.json"}, {"tooling": "broken.json"})");
    INFO(test::textOf(shop.issues()));
    CHECK(shop.issues().size() == 3);
    CHECK(shop.issues()[0].code == "json.syntax");
    CHECK(shop.issues()[0].file == disk.at("shop/broken.json").string());
    CHECK(test::has(shop.issues(), "shop.reference", "/brakes/0/tooling"));
    CHECK(test::has(shop.issues(), "shop.reference", "/brakes/1/tooling"));
}
