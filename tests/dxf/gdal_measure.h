// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <catch2/catch.hpp>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>

#include <unistd.h>
#include <nlohmann/json.hpp>

namespace tinwright::test {

/// What a script of the tests folder prints of a drawing, read by GDAL.
inline nlohmann::json gdalMeasured(const std::string& script, const std::string& dxf) {
    namespace fs = std::filesystem;
    const std::string path =
        (fs::temp_directory_path() / ("tinwright-gdal-" + std::to_string(::getpid()) + ".dxf")).string();
    std::ofstream(path, std::ios::binary) << dxf;
    const std::string command =
        std::string(TINWRIGHT_GDAL_PYTHON) + " " + TINWRIGHT_SOURCE_DIR + "/tests/" + script + " " + path;
    std::FILE* pipe = ::popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string text;
    char block[4096];
    for (std::size_t got = 0; (got = std::fread(block, 1, sizeof block, pipe)) > 0;) text.append(block, got);
    REQUIRE(::pclose(pipe) == 0);
    fs::remove(path);
    return nlohmann::json::parse(text);
}

}  // namespace tinwright::test
