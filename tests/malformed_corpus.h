// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <set>
#include <string>

#include <nlohmann/json.hpp>

#include <tinwright/base/issue.h>

namespace tinwright::test {

/// A folder of malformed files beside a manifest.json that lists for each the issues (code and place) it must give, all
/// at once. `issuesOf` reads one file by its path.
template <class IssuesOf>
void checkMalformed(const std::string& folder, IssuesOf issuesOf) {
    std::ifstream file(folder + "/manifest.json");
    const nlohmann::json listed = nlohmann::json::parse(file);
    for (const auto& [name, expected] : listed.items()) {
        const Issues issues = issuesOf(folder + "/" + name);
        std::multiset<std::string> found;
        std::string text;
        for (const Issue& issue : issues) {
            found.insert(issue.code + " " + issue.place);
            text += toText(issue) + "\n";
        }
        INFO(name << "\n" << text);
        for (const Issue& issue : issues) {
            CHECK_FALSE(issue.file.empty());
            CHECK_FALSE(issue.found.empty());
            CHECK_FALSE(issue.expected.empty());
        }
        CHECK_FALSE(issues.empty());
        CHECK(found == expected.template get<std::multiset<std::string>>());
    }
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        const std::string name = entry.path().filename().string();
        INFO(name << " is in the manifest");
        if (entry.is_regular_file() && name != "manifest.json") CHECK(listed.contains(name));
    }
}

}  // namespace tinwright::test
