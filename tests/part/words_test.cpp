// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <set>

#include <tinwright/base/hash.h>
#include <tinwright/base/holds.h>
#include <tinwright/base/words.h>
#include <tinwright/geometry/cross.h>
#include <tinwright/geometry/polygons.h>
#include <tinwright/part/model/part.h>

using namespace tinwright;

TEST_CASE("numbers without idle decimals") {
    CHECK(trimmedNumber(12.5, 2) == "12.5");
    CHECK(trimmedNumber(12, 2) == "12");
    CHECK(trimmedNumber(100, 0) == "100");
    CHECK(trimmedNumber(-0.001, 2) == "0");
    CHECK(trimmedNumber(1.23456789, 7) == "1.2345679");
    CHECK(millimetres(12.04) == "12");
}

TEST_CASE("things one after the other") {
    CHECK(joined(std::vector<std::string>{}, ", ").empty());
    CHECK(joined(std::vector<std::string>{"", "b"}, ", ") == ", b");
    CHECK(joined(std::set<int>{3, 1, 2}, " + ", [](int i) { return std::to_string(i); }) == "1 + 2 + 3");
    CHECK(listed({"a", "b", "c"}) == "a, b and c");
}

TEST_CASE("names as files have them") {
    for (const char* name : {"a", "mild-steel", "EN_10130.dc01+", "0"}) CHECK(isName(name));
    for (const char* name : {"", "-a", "a b", "a/b", "\xc3\xa4"}) CHECK_FALSE(isName(name));
    CHECK(isName(std::string(64, 'x')));
    CHECK_FALSE(isName(std::string(65, 'x')));
}

TEST_CASE("a hash tells values and their order apart") {
    std::set<std::uint64_t> seen;
    for (std::uint64_t a = 0; a < 100; ++a) {
        for (std::uint64_t b = 0; b < 100; ++b) seen.insert(hashed(hashed(0, a), b));
    }
    CHECK(seen.size() == 10'000);
}

TEST_CASE("plane figures") {
    const Polygon box = rectangle(1, 4, 2, 3);
    CHECK(signedArea_mm2(box) == 3);
    CHECK(box.front() == Vec2(1, 2));
    CHECK(shifted(box, Vec2(1, -1)) == rectangle(2, 5, 1, 2));
    CHECK(cross(Vec2(1, 0), Vec2(0, 1)) == 1);
    CHECK(lifted(Vec2(1, 2)) == Vec3(1, 2, 0));
    CHECK(lifted(Vec2(1, 2), 3) == Vec3(1, 2, 3));
    CHECK(holds(std::vector<int>{1, 2}, 2));
    CHECK_FALSE(holds(std::vector<int>{1, 2}, 3));
}

TEST_CASE("how much of a bend line has sheet") {
    Bend bend;
    bend.spans = {{-1, 4}, {10, 12.5}};
    CHECK(stripLength_mm(bend) == 7.5);
    CHECK(stripExtent_mm(bend) == 13.5);
}
