// SPDX-License-Identifier: GPL-3.0-or-later
#include "checks.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>

namespace tinwright::program_test {

void checkGolden(const std::string& file, const std::string& text) {
    const std::string path = projectFile("tests/program/golden/" + file);
    if (std::getenv("TINWRIGHT_UPDATE_GOLDEN") != nullptr) {
        std::filesystem::create_directories(projectFile("tests/program/golden"));
        std::ofstream(path, std::ios::binary) << text;
    }
    INFO("golden file " << path);
    CHECK(contents(path) == text);
}

void checkRefused(const Outcome& outcome, const std::string& words) {
    INFO(outcome.err);
    CHECK(outcome.code == 2);
    CHECK(outcome.out.empty());
    CHECK(has(outcome.err, words));
}

}  // namespace tinwright::program_test
