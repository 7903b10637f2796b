// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include "console/exit_code.h"
#include "run_program.h"

using namespace tinwright;
using namespace tinwright::program_test;

TEST_CASE("help names every command, gives examples and the exit codes") {
    for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
             {"--help"}, {"plan", "--help"}, {"try", "--help"}, {"blank", "--help"}, {"start", "--help"}}) {
        const Outcome outcome = runProgram(arguments);
        INFO(arguments[0]);
        CHECK(outcome.code == 0);
        CHECK(has(outcome.out, "Examples:"));
        CHECK(has(outcome.out, "0 feasible, 1 infeasible, 2 bad input or usage, 3 undecided"));
    }
    const Outcome help = runProgram({"--help"});
    CHECK(has(help.out, "tinwright plan part.json --shop shop.json"));
    CHECK(has(help.out, "tinwright try part.json --shop shop.json --order"));
}

TEST_CASE("help of a command shows every option with its default and range") {
    const Outcome help = runProgram({"plan", "--help"});
    for (const char* option :
         {"--shop", "--brake", "--plans", "--formed", "--json", "--threads", "--time-limit", "--verify", "--log"}) {
        INFO(option);
        CHECK(has(help.out, option));
    }
    CHECK(has(help.out, "1 to 100, default 3"));
}

TEST_CASE("the version is told") {
    const Outcome outcome = runProgram({"--version"});
    CHECK(outcome.code == 0);
    CHECK(has(outcome.out, "tinwright " TINWRIGHT_VERSION));
}

TEST_CASE("bad usage is exit code 2 with a reason and nothing on standard output") {
    const std::string part = dataFile("channel.json");
    const std::string shop = dataFile("shop.json");
    for (const std::vector<std::string>& arguments :
         std::vector<std::vector<std::string>>{{},
                                               {"fold"},
                                               {"plan"},
                                               {"plan", part},
                                               {"plan", part, "--shop", shop, "--bogus"},
                                               {"try", part, "--shop", shop},
                                               {"plan", part, "--shop", shop, "--plans", "0"},
                                               {"plan", part, "--shop", shop, "--plans", "three"},
                                               {"plan", part, "--shop", shop, "--plans", "2.5"},
                                               {"plan", part, "--shop", shop, "--threads", "65"},
                                               {"plan", part, "--shop", shop, "--time-limit", "-1"},
                                               {"plan", part, "--shop", shop, "--time-limit", "nan"},
                                               {"plan", part, "--shop", shop, "--log", "loud"}}) {
        const Outcome outcome = runProgram(arguments);
        INFO((arguments.empty() ? std::string("no arguments") : arguments.back()));
        CHECK(outcome.code == 2);
        CHECK_FALSE(outcome.err.empty());
        CHECK(outcome.out.empty());
    }
}

TEST_CASE("a number out of range says what was found and what was expected") {
    const Outcome outcome =
        runProgram({"plan", dataFile("channel.json"), "--shop", dataFile("shop.json"), "--plans", "101"});
    CHECK(has(outcome.err, "--plans: found \"101\", expected a whole number from 1 to 100"));
}

TEST_CASE("every verdict has its exit code") {
    CHECK(app::exitCode(Verdict::kFeasible) == 0);
    CHECK(app::exitCode(Verdict::kInfeasible) == 1);
    CHECK(app::exitCode(Verdict::kUndecided) == 3);
}
