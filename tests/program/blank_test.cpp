// SPDX-License-Identifier: GPL-3.0-or-later
// Blanks out and in again through the program.
#include <catch2/catch.hpp>

#include <cmath>
#include <regex>
#include <sstream>

#include <nlohmann/json.hpp>

#include "checks.h"

using namespace tinwright::program_test;

namespace {

struct Example {
    const char* folder;
    const char* part;
};

constexpr Example kExamples[] = {{"roaster-pod", "part.json"},
                                 {"roaster-pod", "part-suited.json"},
                                 {"tray-lips", "part.json"},
                                 {"hat-channel", "part.json"},
                                 {"deep-housing", "part.json"}};

std::string exampleFile(const char* folder, const std::string& name) {
    return projectFile("examples/" + std::string(folder) + "/" + name);
}

nlohmann::json planOf(const std::string& part, const std::string& shop) {
    const Outcome outcome = runProgram({"plan", part, "--shop", shop, "--json", "-"});
    INFO(outcome.err);
    REQUIRE(outcome.code <= 1);
    return nlohmann::json::parse(outcome.out);
}

/// Starts of the lines on a layer of a DXF file.
std::vector<std::pair<double, double>> startsOn(const std::string& dxf, const std::string& layer) {
    std::vector<std::pair<double, double>> starts;
    const std::regex line("LINE\n +8\n" + layer + "\n +10\n(.*)\n +20\n(.*)\n");
    for (std::sregex_iterator it(dxf.begin(), dxf.end(), line), end; it != end; ++it)
        starts.push_back({std::stod((*it)[1]), std::stod((*it)[2])});
    return starts;
}

}  // namespace

TEST_CASE("every example, written as DXF and read back, plans the same") {
    for (const Example& example : kExamples) {
        const ScratchFolder scratch;
        const std::string part = exampleFile(example.folder, example.part),
                          shop = exampleFile(example.folder, "shop.json");
        INFO(part);
        const Outcome written =
            runProgram({"blank", part, "-o", scratch.file("back.dxf"), "--bends-out", scratch.file("back.bends.json")});
        INFO(written.err);
        REQUIRE(written.code == 0);
        CHECK(scratch.entries() == 2);
        const nlohmann::json a = planOf(part, shop), b = planOf(scratch.file("back.dxf"), shop);
        REQUIRE(a.at("brakes").size() == b.at("brakes").size());
        for (std::size_t i = 0; i < a.at("brakes").size(); ++i) {
            const auto& p = a["brakes"][i];
            const auto& q = b["brakes"][i];
            CHECK(p.at("verdict") == q.at("verdict"));
            CHECK(p.at("orders_feasible") == q.at("orders_feasible"));
            REQUIRE(p.at("plans").size() == q.at("plans").size());
            if (p["plans"].empty()) continue;
            CHECK(p["plans"][0].at("cost_s") == q["plans"][0].at("cost_s"));
            CHECK(p["plans"][0].at("folds").size() == q["plans"][0].at("folds").size());
        }
    }
}

TEST_CASE("with a shop the nicks stand where the plan's sight lines are") {
    const ScratchFolder scratch;
    const std::string part = exampleFile("hat-channel", "part.json"), shop = exampleFile("hat-channel", "shop.json");
    const Outcome written = runProgram({"blank", part, "-o", scratch.file("hat.dxf"), "--shop", shop});
    INFO(written.err);
    REQUIRE(written.code == 0);
    CHECK(has(written.out, "sight lines of the best order"));
    const auto nicks = startsOn(contents(scratch.file("hat.dxf")), "MARK");
    const auto edges = startsOn(contents(scratch.file("hat.dxf")), "CUT");
    REQUIRE(nicks.size() == 8);
    CHECK(edges.empty());  // the outline is a polyline
    // The hat's far edges lie at y = -22 - ... of the front foot and the back one; the plan names them.
    const nlohmann::json plan = planOf(part, shop)["brakes"][0]["plans"][0];
    const std::string dxf = contents(scratch.file("hat.dxf"));
    std::smatch low, high;
    REQUIRE(std::regex_search(dxf, low, std::regex("EXTMIN\n +10\n.*\n +20\n(.*)\n")));
    REQUIRE(std::regex_search(dxf, high, std::regex("EXTMAX\n +10\n.*\n +20\n(.*)\n")));
    for (const auto& fold : plan.at("folds")) {
        const bool front = fold.at("sight_from_edge") == "foot_front.far";
        const double sight = front ? std::stod(low[1]) + fold.at("sight_mm").get<double>()
                                   : std::stod(high[1]) - fold.at("sight_mm").get<double>();
        std::size_t there = 0;
        for (const auto& nick : nicks)
            there += std::abs(nick.second - sight) < 2e-3 ? 1 : 0;  // the plan is written to 0.001 mm
        INFO(sight);
        CHECK(there == 2);
    }
}

// The plain leaf brake's nose has a radius of 1 mm.
TEST_CASE("With a shop the blank is developed for the inside radius that its brake gives, and that is told") {
    const ScratchFolder scratch;
    const std::string shop = exampleFile("hat-channel", "shop.json");
    nlohmann::json recipe = nlohmann::json::parse(contents(exampleFile("hat-channel", "part.json")));
    const auto blankOf = [&](double radius_mm, const std::vector<std::string>& more, const std::string& out) {
        recipe["inside_radius"] = radius_mm;
        std::vector<std::string> words{"blank", scratch.with("part.json", recipe.dump()), "-o", scratch.file(out)};
        words.insert(words.end(), more.begin(), more.end());
        const Outcome written = runProgram(words);
        INFO(written.err);
        REQUIRE(written.code == 0);
        return written.out;
    };
    const std::string sharp = blankOf(1, {"--shop", shop}, "nose.dxf");
    CHECK(has(sharp, "1 mm inside, which the nose of this brake gives"));
    CHECK_FALSE(has(sharp, "as drawn"));
    const std::string round = blankOf(2.5, {"--shop", shop}, "round.dxf");
    CHECK(has(round, "the blank is developed for it, not for 2.5 mm as drawn"));
    CHECK(contents(scratch.file("round.dxf")) == contents(scratch.file("nose.dxf")));
    const std::string marked = blankOf(2.5, {"--shop", shop, "--bend-marks"}, "marked.dxf");
    CHECK(has(marked, "the blank is developed for it, not for 2.5 mm as drawn"));
    const std::string kept = blankOf(2.5, {"--shop", shop, "--drawn-radius"}, "kept.dxf");
    CHECK(has(kept, "the blank is for 2.5 mm as drawn, and the legs come out off"));
    CHECK(contents(scratch.file("kept.dxf")) != contents(scratch.file("nose.dxf")));
    CHECK_FALSE(has(blankOf(2.5, {}, "alone.dxf"), "Radius"));
    // In an air bend it is the V's: 0.16 of its opening.
    const std::string press =
        scratch.with("press.json", R"({"format": "tinwright-shop/1", "units": "mm", "name": "press",
        "brakes": [{"tooling": "tooling:press-brake.json"}]})");
    const std::string pressed = blankOf(5, {"--shop", press, "--bend-marks"}, "pressed.dxf");
    CHECK(std::regex_search(pressed,
                            std::regex("[0-9.]+ mm inside, which a V of [0-9]+ gives \\(press-brake\\): the blank is "
                                       "developed for it, not for 5 mm as drawn")));
}

TEST_CASE("a drawing keeps its blank, whatever radius the brake gives, and that is told") {
    const ScratchFolder scratch;
    nlohmann::json recipe = nlohmann::json::parse(contents(exampleFile("hat-channel", "part.json")));
    recipe["inside_radius"] = 2.5;
    REQUIRE(runProgram({"blank", scratch.with("part.json", recipe.dump()), "-o", scratch.file("a.dxf"), "--bend-lines",
                        "--bends-out", scratch.file("a.bends.json")})
                .code == 0);
    const Outcome again = runProgram({"blank", scratch.file("a.dxf"), "-o", scratch.file("b.dxf"), "--shop",
                                      exampleFile("hat-channel", "shop.json")});
    INFO(again.err);
    CHECK(again.code == 0);
    CHECK(has(again.out, "the blank is for 2.5 mm as drawn, and the legs come out off"));
}

TEST_CASE("whole bend lines only when asked for, by the face that is their inside") {
    const ScratchFolder scratch;
    const std::string part = exampleFile("roaster-pod", "part.json");
    REQUIRE(runProgram({"blank", part, "-o", scratch.file("a.dxf")}).code == 0);
    REQUIRE(runProgram({"blank", part, "-o", scratch.file("b.dxf"), "--bend-lines"}).code == 0);
    CHECK(startsOn(contents(scratch.file("a.dxf")), "BEND_UP").empty());
    CHECK(startsOn(contents(scratch.file("b.dxf")), "BEND_UP").size() == 4);
    CHECK(startsOn(contents(scratch.file("b.dxf")), "BEND_DOWN").size() == 2);
    REQUIRE(runProgram({"blank", part, "-o", scratch.file("c.svg"), "--bend-lines"}).code == 0);
    const std::string svg = contents(scratch.file("c.svg"));
    for (const char* group : {"id=\"CUT\"", "id=\"DRILL\"", "id=\"MARK\"", "id=\"BEND_UP\"", "id=\"BEND_DOWN\"",
                              "width=\"177.430088mm\"", "<circle ", " A "}) {
        INFO(group);
        CHECK(has(svg, group));
    }
}

TEST_CASE("a drawing that others wrote is planned; notices stand among the warnings") {
    const std::string folder = projectFile("tests/dxf/foreign/");
    const Outcome plan = runProgram({"plan", folder + "gdal-tray-mm.dxf", "--bends", folder + "gdal.bends.json",
                                     "--units", "mm", "--shop", dataFile("shop.json")});
    INFO(plan.out + plan.err);
    CHECK(plan.code == 0);
    CHECK(has(plan.out, "small tray"));
    CHECK(has(plan.out, "by the layer's name"));
    const Outcome tried =
        runProgram({"try", folder + "gdal-tray-mm.dxf", "--bends", folder + "gdal.bends.json", "--units", "mm",
                    "--bend-layer", "BEND", "--shop", dataFile("shop.json"), "--order", "back,b1"});
    CHECK(tried.code == 0);
    CHECK_FALSE(has(tried.out, "by the layer's name"));
}

TEST_CASE("blank: bad input and bad usage write nothing") {
    const ScratchFolder scratch;
    const std::string part = exampleFile("hat-channel", "part.json");
    checkRefused(runProgram({"blank", part}), "--output");
    checkRefused(runProgram({"blank", part, "-o", scratch.file("hat.pdf")}), ".dxf or .svg");
    checkRefused(runProgram({"blank", part, "-o", scratch.file("hat.dxf"), "--brake", "any"}), "--shop");
    checkRefused(runProgram({"blank", part, "-o", scratch.file("hat.dxf"), "--units", "mm"}),
                 "a recipe says all of this itself");
    checkRefused(runProgram({"blank", part, "-o", scratch.file("hat.dxf"), "--units", "furlong"}), "--units");
    checkRefused(runProgram({"blank", scratch.file("none.dxf"), "-o", scratch.file("hat.dxf")}), "none.bends.json");
    checkRefused(runProgram({"blank", part, "-o", scratch.file("no-folder/hat.dxf")}), "no-folder");
    checkRefused(runProgram({"blank", exampleFile("roaster-pod", "part.json"), "-o", scratch.file("pod.dxf"), "--shop",
                             exampleFile("roaster-pod", "shop.json")}),
                 "no order of folds");
    CHECK(scratch.entries() == 0);
}

TEST_CASE("blank: a file that is read is never written over") {
    const ScratchFolder scratch;
    const std::string folder = projectFile("tests/dxf/foreign/");
    const std::string dxf = scratch.with("tray.DXF", contents(folder + "gdal-tray-in.dxf"));
    const std::string bends = scratch.with("tray.bends.json", contents(folder + "gdal.bends.json"));
    CHECK(runProgram({"blank", dxf, "-o", dxf}).code == 2);
    CHECK(runProgram({"blank", dxf, "-o", scratch.file("out.dxf"), "--bends-out", bends}).code == 2);
    CHECK(runProgram({"blank", dxf, "-o", scratch.file("out.dxf"), "--bends-out", scratch.file("out.dxf")}).code == 2);
    CHECK(scratch.entries() == 2);
    CHECK(contents(dxf) == contents(folder + "gdal-tray-in.dxf"));
    CHECK(contents(bends) == contents(folder + "gdal.bends.json"));
}
