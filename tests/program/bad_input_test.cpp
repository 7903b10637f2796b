// SPDX-License-Identifier: GPL-3.0-or-later
// Whatever stands in the files or on the command line: a clear complaint, exit code 2, and no output.
#include <catch2/catch.hpp>

#include "checks.h"

using namespace tinwright::program_test;

namespace {

Outcome plan(const std::string& part, const std::string& shop, std::vector<std::string> more = {}) {
    std::vector<std::string> arguments{"plan", part, "--shop", shop};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return runProgram(arguments);
}

const std::string kPart = dataFile("channel.json");
const std::string kShop = dataFile("shop.json");

}  // namespace

TEST_CASE("files that are not there or cannot be read") {
    const ScratchFolder scratch;
    checkRefused(plan(scratch.file("missing.json"), kShop), "missing.json");
    checkRefused(plan(kPart, scratch.file("missing.json")), "missing.json");
    checkRefused(plan(scratch.file(""), kShop), scratch.file(""));
    checkRefused(plan(kPart, scratch.file("")), scratch.file(""));
}

TEST_CASE("both files are complained about at once") {
    const Outcome outcome = plan("no-part.json", "no-shop.json");
    checkRefused(outcome, "no-part.json");
    checkRefused(outcome, "no-shop.json");
}

TEST_CASE("files with any bytes in them") {
    const ScratchFolder scratch;
    std::string bytes;
    for (int i = 0; i < 4096; ++i) bytes += static_cast<char>((i * 167 + 13) % 256);
    const std::vector<std::string> texts{"",
                                         "{",
                                         "[]",
                                         "null",
                                         "\xEF\xBB\xBF{}",
                                         std::string(1, '\0'),
                                         bytes,
                                         std::string(100'000, '['),
                                         "{\"format\": \"tinwright-part/1\"}",
                                         "{\"a\": 1e999}"};
    for (std::size_t i = 0; i < texts.size(); ++i) {
        const std::string file = scratch.with("bad" + std::to_string(i) + ".json", texts[i]);
        INFO(i);
        checkRefused(plan(file, kShop), file);
        checkRefused(plan(kPart, file), file);
    }
}

TEST_CASE("a file over the size limit is refused by its size") {
    const ScratchFolder scratch;
    const std::string file = scratch.with("huge.json", std::string(9u << 20, ' '));
    checkRefused(plan(file, kShop), "huge.json");
}

TEST_CASE("part and shop taken for one another") { checkRefused(plan(kShop, kPart), "shop.json"); }

TEST_CASE("a brake the shop does not have: its brakes are named") {
    const Outcome outcome = plan(kPart, kShop, {"--brake", "magnetic-foldr"});
    checkRefused(outcome, "--brake");
    CHECK(has(outcome.err, "\"magnetic-folder\""));
    CHECK(has(outcome.err, "did you mean \"magnetic-folder\"?"));
}

TEST_CASE("press brakes are planned like other brakes, alone and beside them") {
    const ScratchFolder scratch;
    const auto shopOf = [&](const std::string& brakes) {
        return scratch.with("shop.json",
                            R"({"format": "tinwright-shop/1", "units": "mm", "brakes": [)" + brakes + "]}");
    };
    const Outcome alone = plan(kPart, shopOf(R"({"tooling": "tooling:press-brake.json"})"));
    INFO(alone.err << alone.out);
    CHECK(alone.code == 0);
    CHECK(has(alone.out, "can be folded on press-brake"));
    CHECK(has(alone.out, "at the back"));
    CHECK_FALSE(has(alone.out, "leaf"));
    const Outcome both =
        plan(kPart, shopOf(R"({"tooling": "tooling:press-brake.json"}, {"tooling": "tooling:magnetic-folder.json"})"));
    INFO(both.err << both.out);
    CHECK(both.code == 0);
    CHECK(has(both.out, "press-brake: feasible"));
    CHECK(has(both.out, "magnetic-folder: feasible"));
    CHECK(has(both.out, "leaf as it swings"));
}

TEST_CASE("bends the part does not have, named in --formed and --order") {
    checkRefused(plan(kPart, kShop, {"--formed", "frnt"}), "did you mean front?");
    const auto tried = [](const std::string& order) {
        return runProgram({"try", kPart, "--shop", kShop, "--order", order});
    };
    checkRefused(tried("front,bak"), "did you mean back?");
    checkRefused(tried("front,"), "--order");
    checkRefused(tried(""), "--order");
    checkRefused(tried("front+"), "--order");
    checkRefused(tried("front,front"), "each bend once");
    const Outcome twice = runProgram({"try", kPart, "--shop", kShop, "--formed", "front", "--order", "front,back"});
    checkRefused(twice, "--formed");
}
