// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <fstream>

#include <nlohmann/json.hpp>

#include <tinwright/base/words.h>
#include <tinwright/io/json/json_cursor.h>
#include <tinwright/io/json/json_reading.h>

#include "recipes.h"

using namespace tinwright;

namespace {
Issue onlyIssue(std::string_view text, const JsonLimits& limits = {}) {
    const auto document = parseJson(text, "f.json", limits);
    REQUIRE_FALSE(document.ok());
    REQUIRE(document.issues().size() == 1);
    return document.issues()[0];
}
}  // namespace

TEST_CASE("syntax errors name line and column") {
    const Issue issue = onlyIssue("{\n  \"a\": 1,\n  \"b\": @\n}");
    CHECK(issue.code == "json.syntax");
    CHECK(issue.place == "line 3, column 8");
    CHECK(issue.found == "'@'");
    CHECK(onlyIssue("").code == "json.syntax");
    CHECK(onlyIssue("{\"a\": [1, 2").found == "the end of the file");
    CHECK(onlyIssue("{\"a\": NaN}").code == "json.syntax");
    CHECK(onlyIssue("{} {}").code == "json.syntax");
    CHECK(onlyIssue("{\"a\": \"\xff\"}").code == "json.syntax");
    CHECK(onlyIssue(std::string("{\0}", 3)).code == "json.syntax");
}

TEST_CASE("limits of size, depth and number of values") {
    CHECK(onlyIssue(std::string(100, '['), {.bytes = 1000, .depth = 32, .values = 1000}).code == "json.too-deep");
    CHECK(onlyIssue(std::string(3'000'000, '[')).code == "json.too-deep");
    CHECK(onlyIssue("[1,2,3,4]", {.bytes = 1000, .depth = 4, .values = 3}).code == "json.too-many");
    CHECK(onlyIssue("[1,2,3,4]", {.bytes = 5, .depth = 4, .values = 100}).code == "file.too-large");
    CHECK(onlyIssue("{\"a\": 1e999}").code == "json.number");
    CHECK(parseJson("[[[[1]]]]", "f", {.bytes = 1000, .depth = 4, .values = 100}).ok());
}

TEST_CASE("a field said twice is reported with its place, all of them") {
    const auto document = parseJson(R"({"a": 1, "b": {"c/d": 1, "c/d": 2}, "a": [{"x": 1, "x": 2}]})", "f");
    REQUIRE(document.issues().size() == 3);
    CHECK(document.issues()[0].place == "/b/c~1d");
    CHECK(document.issues()[1].place == "/a");
    CHECK(document.issues()[2].place == "/a/0/x");
}

TEST_CASE("what was built is what the text says") {
    const std::string text = R"({"a": [1, -2.5, true, null, "x\u00e9"], "b": {"c": {}}, "d": []})";
    CHECK(parseJson(text, "f").value() == nlohmann::json::parse(text));
}

TEST_CASE("files that are not there, or folders") {
    CHECK(readTextFile("/nonexistent/part.json").issues()[0].code == "file.unreadable");
    CHECK(readTextFile("/").issues()[0].code == "file.unreadable");
}

TEST_CASE("slips of the keyboard get a hint") {
    CHECK(nearestWord("thicknes", {"material", "thickness"}) == "thickness");
    CHECK(nearestWord("zzzz", {"material", "thickness"}).empty());
}
