// SPDX-License-Identifier: GPL-3.0-or-later
// The program checks its input by its readers alone; the published schemas are for editors. Here each is held to the
// other: a schema accepts every file that is shipped, and of files with one thing spoilt no schema refuses what a
// reader lets through, nor lets through a type or a field that a reader does not know.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <set>

#include <nlohmann/json.hpp>

#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/materials_io.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/io/shop/strips_io.h>

#include "dxf/bends_file.h"
#include "schema_check.h"

namespace fs = std::filesystem;
using namespace tinwright;
using nlohmann::json;

namespace {

const std::string kRoot = TINWRIGHT_SOURCE_DIR "/";

std::string textOf(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    REQUIRE(file);
    return {std::istreambuf_iterator<char>(file), {}};
}

/// Every JSON file in a folder, and in those within it, whose "format" is this.
std::vector<std::string> filesOf(const std::vector<std::string>& folders, const std::string& format) {
    std::vector<std::string> found;
    for (const std::string& folder : folders) {
        for (const auto& entry : fs::recursive_directory_iterator(kRoot + folder)) {
            if (entry.path().extension() != ".json") continue;
            const json document = json::parse(textOf(entry.path().string()));
            if (document.is_object() && document.value("format", "") == format) found.push_back(entry.path().string());
        }
    }
    std::sort(found.begin(), found.end());
    return found;
}

/// Files of the tooling folder, but for one of them that stands here.
OpenReference toolingWith(const std::string& name, const std::string& text) {
    return [=](const ReferringFile&, const std::string& reference) -> Result<ReferencedFile> {
        const std::string asked = reference.substr(reference.find(':') + 1);
        return ReferencedFile{asked, asked, asked == name ? text : textOf(kRoot + "tooling/" + asked)};
    };
}

/// The first shipped brake that takes a file of the tooling folder in: itself, or one that names it.
std::string brakeWith(const std::string& name) {
    for (const std::string& path : filesOf({"tooling"}, "tinwright-tooling/1")) {
        const json document = json::parse(textOf(path));
        const std::string brake = fs::path(path).filename().string();
        if (document["kind"] == "brake" &&
            (brake == name || document.dump().find("\"" + name + "\"") != std::string::npos))
            return brake;
    }
    return "";
}

/// What reading a text as this file ends with.
using Read = std::function<Issues(const std::string& path, const std::string& text)>;

struct Format {
    std::string schema;
    std::vector<std::string> files;
    Read read;
};

template <class Value>
Issues issuesOf(const Result<Value>& result) {
    return result ? Issues{} : result.issues();
}

std::vector<Format> formats() {
    const std::vector<std::string> folders{"examples", "tests/program/data"};
    return {{"part", filesOf(folders, "tinwright-part/1"),
             [](const std::string& path, const std::string& text) { return issuesOf(readRecipe(text, path)); }},
            {"shop", filesOf(folders, "tinwright-shop/1"),
             [](const std::string& path, const std::string& text) {
                 return issuesOf(readShopText(text, path, toolingWith("", "")));
             }},
            {"tooling", filesOf({"tooling"}, "tinwright-tooling/1"),
             [](const std::string& path, const std::string& text) {
                 const std::string name = fs::path(path).filename().string();
                 const json shop{{"format", "tinwright-shop/1"},
                                 {"units", "mm"},
                                 {"brakes", {{{"tooling", "tooling:" + brakeWith(name)}}}}};
                 return issuesOf(readShopText(shop.dump(), "shop.json", toolingWith(name, text)));
             }},
            {"materials", filesOf({"tooling"}, "tinwright-materials/1"),
             [](const std::string& path, const std::string& text) { return issuesOf(readMaterialsText(text, path)); }},
            {"bends", filesOf({"tests/dxf/foreign"}, "tinwright-bends/1"),
             [](const std::string& path, const std::string& text) { return issuesOf(readBendsFile(text, path)); }},
            {"strips", filesOf({"tests/schema"}, "tinwright-strips/1"),
             [](const std::string& path, const std::string& text) { return issuesOf(readStrips(text, path)); }}};
}

std::string wordsOf(const Issues& issues) {
    std::string text;
    for (const Issue& issue : issues) text += toText(issue) + "\n";
    return text;
}

/// Every place of a document, the whole first.
void placesOf(const json& value, const json::json_pointer& at, std::vector<json::json_pointer>& places) {
    places.push_back(at);
    if (value.is_object())
        for (const auto& [key, inside] : value.items()) placesOf(inside, at / key, places);
    if (value.is_array())
        for (std::size_t i = 0; i < value.size(); ++i) placesOf(value[i], at / i, places);
}

/// A place whatever the number of the list's item, of what kind: a list of a hundred bars is spoilt in one of them.
std::string kindOf(const json& document, const json::json_pointer& at) {
    std::string kind = document.value("kind", "");
    for (json::json_pointer place = at; !place.empty(); place = place.parent_pointer())
        kind += document.at(place.parent_pointer()).is_array() ? "/*" : "/" + place.back();
    return kind + " " + document.at(at).type_name();
}

/// One thing spoilt, and whether a schema must see it.
struct Spoilt {
    std::string how;
    json document;
    bool schema_sees = false;
};

std::vector<Spoilt> spoilt(const json& document, const json::json_pointer& at) {
    std::vector<Spoilt> all;
    const auto with = [&](const char* how, json value, bool schema_sees) {
        all.push_back({std::string(how) + " at " + at.to_string(), document, schema_sees});
        all.back().document[at] = std::move(value);
    };
    const json& value = document.at(at);
    with("true", true, !value.is_boolean());
    with("null", nullptr, true);
    if (value.is_number()) with("a number below all", -1e9, false);
    if (value.is_string()) with("no text", "", false);
    if (value.is_array()) with("an empty list", json::array(), false);
    if (value.is_object()) {
        json more = value;
        more["of_no_meaning"] = 1;
        with("a field more", more, at.empty() || at.back() != "by_material_deg");  // there the names are the user's
    }
    if (!at.empty() && document.at(at.parent_pointer()).is_object()) {
        all.push_back({"nothing at " + at.to_string(), document, false});
        all.back().document.at(at.parent_pointer()).erase(at.back());
    }
    return all;
}

}  // namespace

TEST_CASE("every schema accepts the files that are shipped, as the readers do") {
    for (const Format& format : formats()) {
        CHECK_FALSE(format.files.empty());
        for (const std::string& path : format.files) {
            INFO(path);
            CHECK(test::schemaComplaints(json::parse(textOf(path)), format.schema) == "");
            CHECK(wordsOf(format.read(path, textOf(path))) == "");
        }
    }
}

TEST_CASE("what a schema refuses a reader refuses, and what is of a wrong type or unknown is refused by both") {
    int refused = 0;
    for (const Format& format : formats()) {
        std::set<std::string> seen;
        for (const std::string& path : format.files) {
            const json document = json::parse(textOf(path));
            std::vector<json::json_pointer> places;
            placesOf(document, json::json_pointer(), places);
            for (const json::json_pointer& at : places) {
                if (!seen.insert(kindOf(document, at)).second) continue;
                for (const Spoilt& file : spoilt(document, at)) {
                    const std::string complaints = test::schemaComplaints(file.document, format.schema);
                    const Issues issues = format.read(path, file.document.dump());
                    INFO(path << ": " << file.how << "\nschema: " << complaints << "reader: " << wordsOf(issues));
                    if (!complaints.empty()) CHECK_FALSE(issues.empty());
                    if (file.schema_sees) CHECK_FALSE(complaints.empty());
                    if (file.schema_sees) CHECK_FALSE(issues.empty());
                    refused += issues.empty() ? 0 : 1;
                }
            }
        }
    }
    CHECK(refused > 1000);
}
