// SPDX-License-Identifier: GPL-3.0-or-later
// The bench sheet through the program: files written whole, the same bytes each time, the numbers those of the plan.
#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <filesystem>

#include <nlohmann/json.hpp>
#include <pugixml.hpp>

#include "run_program.h"

using namespace tinwright::program_test;

namespace {

struct Example {
    const char* folder;
    const char* part;
    int code;
};
constexpr Example kExamples[] = {{"roaster-pod", "part.json", 1},  {"roaster-pod", "part-suited.json", 0},
                                 {"tray-lips", "part.json", 0},    {"hat-channel", "part.json", 0},
                                 {"deep-housing", "part.json", 0}, {"cooling-tray", "part.json", 0}};

std::vector<std::string> planOf(const Example& example) {
    const std::string folder = projectFile(std::string("examples/") + example.folder + "/");
    return {"plan", folder + example.part, "--shop", folder + "shop.json"};
}

Outcome runWith(const Example& example, const std::vector<std::string>& more) {
    std::vector<std::string> arguments = planOf(example);
    arguments.insert(arguments.end(), more.begin(), more.end());
    Outcome outcome = runProgram(arguments);
    INFO(outcome.err);
    CHECK(outcome.code == example.code);
    return outcome;
}

std::size_t countOf(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++count;
    return count;
}

/// Runs a shell command; its output, or nothing when it failed.
std::string shell(const std::string& command) {
    std::string text;
    FILE* const pipe = popen((command + " 2>/dev/null").c_str(), "r");
    REQUIRE(pipe != nullptr);
    char buffer[4096];
    for (std::size_t got = 0; (got = fread(buffer, 1, sizeof buffer, pipe)) > 0;) text.append(buffer, got);
    return pclose(pipe) == 0 ? text : std::string();
}

/// Every fold's card must stand on one page, and all words inside the page's margins.
void checkPages(const pugi::xml_document& document, std::size_t folds) {
    std::size_t titles = 0;
    for (const pugi::xml_node& page : document.select_node("//doc").node().children("page")) {
        const double width = page.attribute("width").as_double();
        const double height = page.attribute("height").as_double();
        std::size_t begun = 0;
        std::size_t ended = 0;
        std::string before;
        for (const pugi::xml_node& word : page.children("word")) {
            const std::string text = word.text().as_string();
            INFO(text);
            CHECK(word.attribute("xMin").as_double() >= 20);
            CHECK(word.attribute("yMin").as_double() >= 20);
            CHECK(word.attribute("xMax").as_double() <= width - 20);
            CHECK(word.attribute("yMax").as_double() <= height - 20);
            if (before == "Fold" && !text.empty() && std::isdigit(static_cast<unsigned char>(text[0])) != 0 &&
                word.next_sibling().text().as_string() == std::string("of"))
                ++begun;
            if (before == "Way" && text == "out:") ++ended;
            before = text;
        }
        CHECK(begun == ended);
        titles += begun;
    }
    CHECK(titles == folds);
}

}  // namespace

TEST_CASE("sheet: its cards tell the folds of the plan, with the plan's own numbers") {
    for (const Example& example : kExamples) {
        CAPTURE(example.folder, example.part);
        const ScratchFolder scratch;
        runWith(example, {"--sheet", scratch.file("sheet.html"), "--json", scratch.file("plan.json")});
        const std::string page = contents(scratch.file("sheet.html"));
        const auto plan = nlohmann::json::parse(contents(scratch.file("plan.json")));
        for (const auto& brake : plan["brakes"]) {
            CHECK(has(page, brake["name"].get<std::string>()));
            if (brake["plans"].empty()) continue;
            const auto& folds = brake["plans"][0]["folds"];
            for (std::size_t i = 0; i < folds.size(); ++i) {
                CHECK(countOf(page, "Fold " + std::to_string(i + 1) + " of " + std::to_string(folds.size()) + ": " +
                                        folds[i]["bends"][0].get<std::string>()) >= 1);
            }
        }
        CHECK(has(page, "manual, local rules and licensed practice come first"));
    }
}

TEST_CASE("sheet: text and sheet say the same of a fold") {
    const ScratchFolder scratch;
    const Outcome outcome = runWith(kExamples[1], {"--sheet", scratch.file("sheet.html")});
    const std::string page = contents(scratch.file("sheet.html"));
    for (const char* words : {"35.1 mm from edge side_front.far: scribe it there, set it under the nose",
                              "at least 1 mm, side_front to side_right"}) {
        CHECK(has(outcome.out, words));
        CHECK(has(page, words));
    }
    CHECK(has(page, "put in B30 and B45"));
}

TEST_CASE("sheet: the same plan gives the same bytes, drawings as files are those of the page") {
    const ScratchFolder scratch;
    runWith(kExamples[1],
            {"--sheet", scratch.file("a.html"), "--svg", scratch.file("drawings"), "--glb", scratch.file("a.glb")});
    runWith(kExamples[1], {"--sheet", scratch.file("b.html"), "--glb", scratch.file("b.glb"), "--threads", "4"});
    const std::string page = contents(scratch.file("a.html"));
    CHECK(page == contents(scratch.file("b.html")));
    CHECK(contents(scratch.file("a.glb")) == contents(scratch.file("b.glb")));
    std::size_t drawings = 0;
    for (const auto& entry : std::filesystem::directory_iterator(scratch.file("drawings"))) {
        pugi::xml_document document;
        CHECK(document.load_file(entry.path().c_str()));
        CHECK(entry.path().extension() == ".svg");
        ++drawings;
    }
    CHECK(drawings == 2 + 3 * 6);
}

TEST_CASE("sheet: first contacts are drawn when no order works") {
    const ScratchFolder scratch;
    runWith(kExamples[0], {"--svg", scratch.file("drawings"), "--sheet", scratch.file("sheet.html"), "--glb",
                           scratch.file("none.glb")});
    CHECK(has(contents(scratch.file("sheet.html")), "inside_width 74 -&gt; 78 mm (+4); nothing else changes: goes"));
    CHECK(has(contents(scratch.file("sheet.html")), "Together these rule out every order"));
    CHECK(has(contents(scratch.file("drawings/contact-01-above.svg")), "72.5 mm free"));
    CHECK(has(contents(scratch.file("drawings/contact-04-above.svg")), "57.3 mm free"));
    CHECK(std::filesystem::exists(scratch.file("drawings/contact-08-above.svg")));
    CHECK_FALSE(std::filesystem::exists(scratch.file("none.glb")));
}

TEST_CASE("sheet: a place that cannot be written to is bad input, and no text is printed") {
    const ScratchFolder scratch;
    for (const char* option : {"--sheet", "--svg", "--glb"}) {
        std::vector<std::string> arguments = planOf(kExamples[1]);
        arguments.insert(arguments.end(), {option, scratch.with("file", "kept") + "/inside"});
        const Outcome outcome = runProgram(arguments);
        CHECK(outcome.code == 2);
        CHECK(outcome.out.empty());
        CHECK(has(outcome.err, "output.write"));
        CHECK(contents(scratch.file("file")) == "kept");
    }
}

TEST_CASE("sheet: printed on A4 and Letter no card crosses a page and no word the margins") {
    if (shell("command -v chromium").empty() || shell("command -v pdftotext").empty()) {
        WARN("skipped: needs the Debian packages chromium and poppler-utils");
        return;
    }
    for (const Example& example : kExamples) {
        const ScratchFolder scratch;
        runWith(example, {"--sheet", scratch.file("sheet.html"), "--json", scratch.file("plan.json")});
        const std::string page = contents(scratch.file("sheet.html"));
        std::size_t folds = 0;
        const auto plan = nlohmann::json::parse(contents(scratch.file("plan.json")));
        std::size_t reasons = 0;
        for (const auto& brake : plan["brakes"]) {
            folds += brake["plans"].empty() ? 0 : brake["plans"][0]["folds"].size();
            reasons += brake["reasons"].size();
        }
        for (const char* paper : {"A4", "letter"}) {
            CAPTURE(example.folder, example.part, paper);
            std::string sized = page;
            const std::string rule = "@page{margin:10mm";
            REQUIRE(has(sized, rule));
            sized.insert(sized.find(rule) + rule.size(), std::string(";size:") + paper);
            const std::string html = scratch.with("sized.html", sized);
            const std::string pdf = scratch.file("sheet.pdf");
            (void)shell(
                "timeout 60 chromium --headless --no-sandbox --disable-gpu --no-pdf-header-footer --user-data-dir='" +
                scratch.file("profile") + "' --print-to-pdf='" + pdf + "' 'file://" + html + "'");
            REQUIRE(std::filesystem::exists(pdf));
            const std::string words = shell("pdftotext -bbox '" + pdf + "' -");
            pugi::xml_document document;
            REQUIRE(document.load_string(words.c_str()));
            const std::size_t pages = document.select_nodes("//page").size();
            CHECK(pages >= 2);
            CHECK(pages <= 5 + 2 * folds + (reasons + 1) / 2);
            checkPages(document, folds);
            std::filesystem::remove(pdf);
        }
    }
}
