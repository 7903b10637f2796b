// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <set>

#include <tinwright/forming/rules/rules.h>

using namespace tinwright;

TEST_CASE("rules are in order, complete and found by id") {
    std::string before;
    for (const Rule& rule : formingRules()) {
        INFO(std::string(rule.id));
        CHECK(std::string(rule.id) > before);
        before = rule.id;
        for (const std::string_view text : {rule.title, rule.meaning, rule.formula, rule.source, rule.cure})
            CHECK_FALSE(text.empty());
        REQUIRE(findRule(rule.id));
        CHECK(findRule(rule.id)->title == rule.title);
    }
    CHECK(formingRules().size() >= 24);
    CHECK_FALSE(findRule("web"));
    CHECK_FALSE(findRule(""));
}
