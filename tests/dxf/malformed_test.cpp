// SPDX-License-Identifier: GPL-3.0-or-later
// Each drawing of malformed/ gets exactly the messages that malformed/manifest.json lists for it. Its bends file is the
// one beside it, or shared.bends.json. After a wanted change run with TINWRIGHT_UPDATE_GOLDEN=1 and read the
// difference.
#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include <nlohmann/json.hpp>

#include "drawing_text.h"

namespace fs = std::filesystem;
using namespace tinwright;

namespace {

const std::string kFolder = TINWRIGHT_SOURCE_DIR "/tests/dxf/malformed/";

std::string read(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

std::vector<std::string> messages(const std::string& stem) {
    const std::string own = stem + ".bends.json";
    const std::string bends = fs::exists(kFolder + own) ? own : "shared.bends.json";
    const std::string dxf_text = read(kFolder + stem + ".dxf"), bends_text = read(kFolder + bends);
    const Result<Part> part = readDxfBlankText({dxf_text, stem + ".dxf"}, {bends_text, bends});
    std::vector<std::string> words;
    for (const Issue& issue : part.issues()) {
        CHECK_FALSE(issue.found.empty());
        CHECK_FALSE(issue.expected.empty());
        words.push_back(toText(issue));
    }
    return words;
}

}  // namespace

TEST_CASE("malformed drawings get the messages of the manifest") {
    nlohmann::ordered_json found = nlohmann::ordered_json::object();
    std::vector<std::string> stems;
    for (const auto& entry : fs::directory_iterator(kFolder)) {
        if (entry.path().extension() == ".dxf") stems.push_back(entry.path().stem().string());
    }
    std::sort(stems.begin(), stems.end());
    CHECK(stems.size() > 50);
    for (const std::string& stem : stems) found[stem] = messages(stem);
    if (std::getenv("TINWRIGHT_UPDATE_GOLDEN") != nullptr)
        std::ofstream(kFolder + "manifest.json") << found.dump(2) << "\n";
    const auto listed = nlohmann::ordered_json::parse(read(kFolder + "manifest.json"));
    for (const auto& [stem, words] : listed.items()) {
        INFO(stem);
        CHECK_FALSE(words.empty());
        CHECK(found.value(stem, nlohmann::ordered_json()) == words);
    }
    CHECK(found.size() == listed.size());
}

// Half a drawing must not pass for a whole one.
TEST_CASE("a drawing cut off after any byte is refused") {
    const std::string text = read(TINWRIGHT_SOURCE_DIR "/tests/dxf/foreign/npm-bracket-mm.dxf");
    const std::string bends = read(TINWRIGHT_SOURCE_DIR "/tests/dxf/foreign/npm.bends.json");
    const std::size_t whole = text.rfind("EOF");
    for (std::size_t size = 0; size <= whole; size += 61) {
        CHECK_FALSE(
            readDxfBlankText({std::string_view(text).substr(0, size), "cut.dxf"}, {bends, "cut.bends.json"}).ok());
    }
}

TEST_CASE("files that are not there are named, both at once") {
    const Result<Part> part = readDxfBlank(kFolder + "none.dxf", kFolder + "none.bends.json");
    REQUIRE(part.issues().size() == 2);
    CHECK(part.issues()[0].code == "file.unreadable");
    CHECK(part.issues()[1].hint.find("--bends") != std::string::npos);
}
