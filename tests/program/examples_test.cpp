// SPDX-License-Identifier: GPL-3.0-or-later
// The examples print what they printed when it was last looked at. After a wanted change, run the tests with
// TINWRIGHT_UPDATE_GOLDEN=1 and read the difference before it is committed.
#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "run_program.h"

using namespace tinwright::program_test;

namespace {

struct Example {
    const char* name;
    const char* folder;
    const char* part;
    int code;
};

const Example kExamples[] = {{"roaster-pod", "roaster-pod", "part.json", 1},
                             {"roaster-pod-suited", "roaster-pod", "part-suited.json", 0},
                             {"tray-lips", "tray-lips", "part.json", 0},
                             {"hat-channel", "hat-channel", "part.json", 0},
                             {"deep-housing", "deep-housing", "part.json", 0}};

void checkGolden(const std::string& file, const std::string& text) {
    const std::string path = projectFile("tests/program/golden/" + file);
    if (std::getenv("TINWRIGHT_UPDATE_GOLDEN") != nullptr) {
        std::filesystem::create_directories(projectFile("tests/program/golden"));
        std::ofstream(path, std::ios::binary) << text;
    }
    INFO("golden file " << path);
    CHECK(contents(path) == text);
}

}  // namespace

TEST_CASE("examples print the text and the JSON that they are known to print") {
    for (const Example& example : kExamples) {
        const std::string folder = projectFile(std::string("examples/") + example.folder + "/");
        const std::vector<std::string> arguments{"plan", folder + example.part, "--shop", folder + "shop.json"};
        std::vector<std::string> with_json(arguments);
        with_json.insert(with_json.end(), {"--json", "-"});
        INFO(example.name);
        const Outcome text = runProgram(arguments);
        INFO(text.err);
        CHECK(text.code == example.code);
        CHECK(longestLine(text.out) <= 100);
        checkGolden(std::string(example.name) + ".txt", text.out);
        checkGolden(std::string(example.name) + ".json", runProgram(with_json).out);
    }
}
