// SPDX-License-Identifier: GPL-3.0-or-later
// The examples print what they printed when it was last looked at. After a wanted change, run the tests with
// TINWRIGHT_UPDATE_GOLDEN=1 and read the difference before it is committed.
#include <catch2/catch.hpp>

#include "checks.h"

using namespace tinwright::program_test;

namespace {

/// Text and JSON of one plan.
void checkPlan(const std::string& name, const std::string& part, const std::string& shop, int code) {
    const std::vector<std::string> arguments{"plan", part, "--shop", shop};
    std::vector<std::string> with_json(arguments);
    with_json.insert(with_json.end(), {"--json", "-"});
    const Outcome text = runProgram(arguments);
    INFO(text.err);
    CHECK(text.code == code);
    CHECK(longestLine(text.out) <= 100);
    checkGolden(name + ".txt", text.out);
    checkGolden(name + ".json", runProgram(with_json).out);
}

void checkExample(const std::string& name, const std::string& folder_name, const std::string& part, int code) {
    const std::string folder = projectFile("examples/" + folder_name + "/");
    checkPlan(name, folder + part, folder + "shop.json", code);
}

/// What stands between the fences of a page, one for each fenced block.
std::vector<std::string> fencedBlocks(const std::string& page) {
    std::vector<std::string> blocks;
    const std::string fence = "```\n";
    for (std::size_t at = page.find(fence); at != std::string::npos; at = page.find(fence, at)) {
        const std::size_t begin = at + fence.size();
        const std::size_t end = page.find(fence, begin);
        if (end == std::string::npos) break;
        blocks.push_back(page.substr(begin, end - begin));
        at = end + fence.size();
    }
    return blocks;
}

}  // namespace

TEST_CASE("example: the pod as first drawn suits no bars") {
    checkExample("roaster-pod", "roaster-pod", "part.json", 1);
}
TEST_CASE("example: the pod that suits the bars") {
    checkExample("roaster-pod-suited", "roaster-pod", "part-suited.json", 0);
}
TEST_CASE("example: a tray with inward lips") { checkExample("tray-lips", "tray-lips", "part.json", 0); }
TEST_CASE("example: a hat channel") { checkExample("hat-channel", "hat-channel", "part.json", 0); }
TEST_CASE("example: a housing too deep for the finger brake") {
    checkExample("deep-housing", "deep-housing", "part.json", 0);
}

TEST_CASE("example: a tray with hemmed rims") { checkExample("cooling-tray", "cooling-tray", "part.json", 0); }

TEST_CASE("example: a cover whose face is weak beside its window is held by it") {
    checkExample("pump-cover", "pump-cover", "part.json", 0);
}
TEST_CASE("example: a cover that is weak on either side of a bend goes with trouble, and what cures it is told") {
    checkExample("pump-cover-slotted", "pump-cover", "part-slotted.json", 4);
}
TEST_CASE("example: orders side by side") {
    const std::string cover = projectFile("examples/pump-cover/");
    const Outcome text =
        runProgram({"plan", cover + "part.json", "--shop", cover + "shop.json", "--plans", "4", "--compare"});
    CHECK(text.code == 0);
    CHECK(longestLine(text.out) <= 100);
    checkGolden("pump-cover-compare.txt", text.out);
}

TEST_CASE("example: a hat channel on a press brake") {
    checkPlan("press-hat-channel", projectFile("examples/hat-channel/part.json"), dataFile("press-shop.json"), 0);
}
TEST_CASE("example: a housing too deep for the press brake") {
    checkPlan("press-deep-housing", projectFile("examples/deep-housing/part.json"), dataFile("press-shop.json"), 1);
}
TEST_CASE("example: legs first, and then no punch lets the second one by") {
    const Outcome text =
        runProgram({"try", projectFile("examples/hat-channel/part.json"), "--shop", dataFile("press-shop.json"),
                    "--order", "leg_front,leg_back,foot_front,foot_back"});
    CHECK(text.code == 1);
    CHECK(longestLine(text.out) <= 100);
    checkGolden("press-hat-channel-try.txt", text.out);
}
TEST_CASE("example: punches under an inside width") {
    const Outcome text = runProgram({"bars", "74", "--shop", dataFile("press-shop.json")});
    CHECK(text.code == 0);
    CHECK(longestLine(text.out) <= 100);
    checkGolden("press-bars-74.txt", text.out);
}

TEST_CASE("example: what suits the pod to the bars") {
    const std::string pod = projectFile("examples/roaster-pod/");
    checkGolden("roaster-pod-suit.txt", runProgram({"suit", pod + "part.json", "--shop", pod + "shop.json"}).out);
}

TEST_CASE("example: what the README shows is what the program prints") {
    const std::string golden = contents(projectFile("tests/program/golden/roaster-pod-suit.txt")) +
                               contents(projectFile("tests/program/golden/roaster-pod.txt")) +
                               contents(projectFile("tests/program/golden/roaster-pod-suited.txt")) +
                               contents(projectFile("tests/program/golden/press-hat-channel.txt")) +
                               contents(projectFile("tests/program/golden/cooling-tray.txt")) +
                               contents(projectFile("tests/program/golden/pump-cover-compare.txt")) +
                               contents(projectFile("tests/program/golden/pump-cover-slotted.txt")) +
                               contents(projectFile("tests/program/golden/press-deep-housing.txt")) +
                               contents(projectFile("tests/program/golden/screen-three-brakes.txt"));
    std::size_t shown = 0;
    for (const std::string& block : fencedBlocks(contents(projectFile("README.md")))) {
        const auto shows = [&](const char* words) { return has(block, words); };
        if (!shows("FEASIBLE: ") && !shows("WITH TROUBLE") && !shows("Tools moved") && !shows("Fold ") &&
            !shows("inside_width 74") && !shows("Part          ") && !shows("A machine that"))
            continue;
        INFO(block);
        CHECK(has(golden, block));
        ++shown;
    }
    CHECK(shown == 10);
}
