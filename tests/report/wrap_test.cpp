// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include "words/words.h"
#include "words/wrap.h"

using namespace tinwright;
using namespace tinwright::report;

TEST_CASE("wrapped lines keep to their width and lose no letter") {
    const std::string text = "one two three four five six seven";
    const std::string out = wrapped("- ", "  ", text, 12);
    CHECK(out == "- one two\n  three four\n  five six\n  seven\n");
}

TEST_CASE("a word longer than the line is cut, not lost") {
    CHECK(wrapped("", " ", "abcdefghij kl", 4) == "abcd\n efg\n hij\n kl\n");
}

TEST_CASE("columns count characters, so that a degree sign takes one") {
    CHECK(columns("93°") == 3);
    CHECK(wrapped("", "", "93° 93° 93°", 7) == "93° 93°\n93°\n");
}

TEST_CASE("control characters and broken UTF-8 do not reach the terminal") {
    CHECK(printable("a\x1b[2Jb\n") == "a?[2Jb?");
    CHECK(printable("\xC2\x9B"
                    "x") == "?x");  // the one-character form of ESC [
    CHECK(printable("ok \xFF\xC3") == "ok ??");
    CHECK(printable("µ°€𝛼") == "µ°€𝛼");
}

TEST_CASE("numbers are short and never say more than is true") {
    CHECK(millimetres(60.0) == "60");
    CHECK(millimetres(-0.04) == "0");
    CHECK(millimetres(12.345) == "12.3");
    CHECK(atLeastMillimetres(1.29) == "1.2");
    CHECK(atLeastMillimetres(1.3) == "1.3");
    CHECK(percent(1.0) == "100%");
    CHECK(percent(0.9996) == "99%");
    CHECK(percent(0.87) == "87%");
    CHECK(duration(44'600) == "45 s");
    CHECK(duration(380'000) == "6 min 20 s");
    CHECK(duration(3'900'000) == "1 h 05 min");
    CHECK(degrees(66.04) == "66°");
}
