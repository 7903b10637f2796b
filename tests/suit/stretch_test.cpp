// SPDX-License-Identifier: GPL-3.0-or-later
// A blank stretched between two bends is the blank that the longer recipe gives.
#include <catch2/catch.hpp>

#include <algorithm>

#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/part/flat/stretch.h>

using namespace tinwright;

namespace {

Part partOf(double width_mm, const std::string& cut_outs) {
    const std::string text =
        R"({"format":"tinwright-part/1","units":"mm","name":"tray","sheet":{"material":"mild-steel","thickness":1.5},
        "allowance":{"rule":"k-factor","k":0.44},"inside_radius":1,"measured":"inside","base":{"name":"base","width":)" +
        std::to_string(width_mm) + R"(,"depth":70},
        "flanges":[{"name":"front","on":"base.front","length":20},{"name":"right","on":"base.right","length":20},
                   {"name":"back","on":"base.back","length":20},{"name":"left","on":"base.left","length":20}],
        "cut_outs":[)" +
        cut_outs + "]}";
    const Result<Recipe> recipe = readRecipe(text, "part.json");
    REQUIRE(recipe.ok());
    Result<Part> part = develop(recipe.value());
    REQUIRE(part.ok());
    return std::move(part).value();
}

std::string hole(const std::string& name, const std::string& from, double distance_mm, double diameter_mm) {
    return R"({"name":")" + name + R"(","on":"base","shape":"circle","diameter":)" + std::to_string(diameter_mm) +
           R"(,"at":[{"from":")" + from + R"(","datum":"inside","distance":)" + std::to_string(distance_mm) +
           R"(},{"from":"front","datum":"inside","distance":35}]})";
}

const StretchSpan& spanOf(const std::vector<StretchSpan>& spans, const Part& part, const std::string& a,
                          const std::string& b) {
    for (const StretchSpan& span : spans) {
        const std::string from = part.bend(span.from).name;
        const std::string to = part.bend(span.to).name;
        if ((from == a && to == b) || (from == b && to == a)) return span;
    }
    FAIL("no span");
    return spans.front();
}

double area(const Region& region) { return area_mm2(region); }

}  // namespace

TEST_CASE("stretched by what the recipe's width grows, bends and sheet lie as in the longer recipe") {
    for (const double by_mm : {7.3, -5.0}) {
        CAPTURE(by_mm);
        const std::string cut = hole("a", "left", 15, 8) + "," + hole("b", "right", 20, 12);
        const Part before = partOf(120, cut);
        const Part wanted = partOf(120 + by_mm, cut);
        const std::vector<StretchSpan> spans = stretchSpans(before);
        REQUIRE(spans.size() == 2);
        const Result<Part> part = stretched(before, spanOf(spans, before, "left", "right"), by_mm);
        REQUIRE(part.ok());
        CHECK(area(part.value().blank) == Approx(area(wanted.blank)).margin(1e-6));
        for (const Bend& bend : wanted.bends) {
            const auto same = std::find_if(part.value().bends.begin(), part.value().bends.end(),
                                           [&](const Bend& other) { return other.name == bend.name; });
            REQUIRE(same != part.value().bends.end());
            const double length = bend.spans.back().to_mm - bend.spans.front().from_mm;
            CHECK(same->spans.back().to_mm - same->spans.front().from_mm == Approx(length).margin(1e-9));
            CHECK(same->angle.deg() == bend.angle.deg());
            CHECK(same->up == bend.up);
        }
        const StretchSpan after = spanOf(stretchSpans(part.value()), part.value(), "left", "right");
        CHECK(after.lines_mm == Approx(spanOf(spans, before, "left", "right").lines_mm + by_mm).margin(1e-9));
        CHECK(part.value().blank.holes.size() == 2);
        for (const Polygon& ring : part.value().blank.holes) {  // neither hole has changed
            const double round = area(Region{ring, {}});
            const bool is_a = std::abs(std::abs(round) - 50.2) < 0.5;
            const bool is_b = std::abs(std::abs(round) - 113.0) < 1.0;
            CHECK((is_a || is_b));
        }
    }
}

TEST_CASE("no place to stretch: a hole as wide as the panel is refused, and said") {
    const Part part = partOf(120, hole("wide", "left", 60, 66));
    const std::vector<StretchSpan> spans = stretchSpans(part);
    const Result<Part> long_way = stretched(part, spanOf(spans, part, "left", "right"), 4);
    CHECK(long_way.ok());  // beside the hole there is room
    const Result<Part> wide_way = stretched(part, spanOf(spans, part, "front", "back"), 4);
    if (!wide_way.ok()) CHECK(wide_way.issues()[0].code == "stretch.no-place");
}
