// SPDX-License-Identifier: GPL-3.0-or-later
// Drawings read back with a general XML library: well formed, and what is drawn is as long as the numbers say.
#include <catch2/catch.hpp>

#include <cmath>
#include <cstdlib>
#include <optional>

#include <pugixml.hpp>

#include <tinwright/report/sheet/sheet.h>

#include "drawings/blank_marks.h"
#include "sheet_cases.h"

using namespace tinwright;

namespace {

pugi::xml_document parsed(const std::string& text) {
    pugi::xml_document document;
    const pugi::xml_parse_result result = document.load_buffer(text.data(), text.size(), pugi::parse_full);
    INFO(result.description() << " at " << result.offset);
    REQUIRE(result);
    return document;
}

/// First point of a path's data.
Vec2 startOf(const pugi::xml_node& path) {
    double x = 0, y = 0;
    REQUIRE(std::sscanf(path.attribute("d").as_string(), "M%lf %lf", &x, &y) == 2);
    return {x, y};
}

struct LineEnds {
    Vec2 from, to;
};
LineEnds endsOf(const pugi::xml_node& path) {
    LineEnds ends{Vec2::Zero(), Vec2::Zero()};
    REQUIRE(std::sscanf(path.attribute("d").as_string(), "M%lf %lfL%lf %lf", &ends.from.x(), &ends.from.y(),
                        &ends.to.x(), &ends.to.y()) == 4);
    return ends;
}

const DrawingFile& fileNamed(const BenchSheet& sheet, const std::string& name) {
    for (const DrawingFile& file : sheet.drawings) {
        if (file.name == name) return file;
    }
    FAIL("no drawing " << name);
    return sheet.drawings.front();
}

/// Every ordinate's line stands as far from that of 0 as its number says.
void checkOrdinates(const pugi::xml_node& svg, const char* axis, double tolerance_mm) {
    const double scale = svg.attribute("data-scale").as_double();
    REQUIRE(scale > 0);
    const auto place = [&](const pugi::xml_node& path) {
        return std::string(axis) == "x" ? startOf(path).x() : -startOf(path).y();
    };
    std::optional<double> zero;
    int checked = 0;
    for (const int pass : {0, 1}) {
        for (const pugi::xml_node& path : svg.children("path")) {
            if (std::string(path.attribute("data-ordinate").as_string()) != axis) continue;
            const double value = path.attribute("data-mm").as_double();
            if (pass == 0 && std::abs(value) < 1e-6) zero = place(path);
            if (pass == 0 || !zero) continue;
            INFO(axis << " " << value);
            CHECK((place(path) - *zero) / scale == Approx(value).margin(tolerance_mm / scale));
            ++checked;
        }
    }
    CHECK(checked >= 2);
}

}  // namespace

TEST_CASE("drawings are well-formed and ordinates stand where their numbers say") {
    const Shop shop = sample::smallShop();
    for (unsigned seed = 1; seed <= 40; ++seed) {
        CAPTURE(seed);
        const Part part = sample::randomPart(seed);
        const BenchSheet sheet = benchSheet(sample::reportOf(part, shop));
        CHECK(sheet.drawings.size() >= 1 + 3 * part.bends.size());
        for (const DrawingFile& file : sheet.drawings) (void)parsed(file.svg);
        const pugi::xml_document blank = parsed(fileNamed(sheet, "blank.svg").svg);
        checkOrdinates(blank.child("svg"), "x", 0.011);
        checkOrdinates(blank.child("svg"), "y", 0.011);
        const pugi::xml_document bars = parsed(fileNamed(sheet, "fold-01-bars.svg").svg);
        checkOrdinates(bars.child("svg"), "x", 0.011);
    }
}

TEST_CASE("the page is well-formed markup with every name escaped") {
    const Shop shop = sample::smallShop();
    for (unsigned seed = 1; seed <= 10; ++seed) {
        const Part part = sample::randomPart(seed);
        const BenchSheet sheet = benchSheet(sample::reportOf(part, shop));
        REQUIRE(sheet.html.starts_with("<!DOCTYPE html>\n"));
        std::string page = sheet.html.substr(16);
        // Only void elements of HTML would not be XML; the page closes them all.
        (void)parsed(page);
        CHECK(page.find("<lid>") == std::string::npos);
        CHECK(page.find("http://www.w3.org/2000/svg") != std::string::npos);
        CHECK(page.find("src=") == std::string::npos);
        CHECK(page.find("url(") == std::string::npos);
    }
}

TEST_CASE("a sight line is drawn as far from its bend line as the plan has it") {
    // By the frame of src/fold/NOTES.md the sight line lies one nose radius from the held side's tangent line, which
    // lies half the allowance from the bend line.
    const Shop shop = sample::smallShop();
    for (unsigned seed = 1; seed <= 40; ++seed) {
        CAPTURE(seed);
        const Part part = sample::randomPart(seed);
        const PlanReport report = sample::reportOf(part, shop);
        const pugi::xml_document blank = parsed(fileNamed(benchSheet(report), "blank.svg").svg);
        const pugi::xml_node svg = blank.child("svg");
        const double scale = svg.attribute("data-scale").as_double();
        for (const Bend& bend : part.bends) {
            if (!bend.up) continue;
            const LineEnds line = endsOf(svg.find_child_by_attribute("path", "data-bend", bend.name.c_str()));
            const LineEnds sight = endsOf(svg.find_child_by_attribute("path", "data-sight", bend.name.c_str()));
            const double expected =
                std::abs(0.5 * bend.allowance_mm - sample::inUse(shop.brakes[0]).inside_radius_mm());
            CHECK((sight.from - line.from).norm() / scale == Approx(expected).margin(0.02 / scale));
            const double length = bend.spans.back().to_mm - bend.spans.front().from_mm;
            CHECK((line.to - line.from).norm() / scale == Approx(length).margin(0.02 / scale));
        }
    }
}

TEST_CASE("the grain is an arrow at its angle on the blank, and nothing when the part does not say it") {
    const Shop shop = sample::smallShop();
    Part part = sample::randomPart(3);
    const auto grain = [&] {
        const BenchSheet sheet = benchSheet(sample::reportOf(part, shop));
        const pugi::xml_document document = parsed(fileNamed(sheet, "blank.svg").svg);
        return document.select_node("//path[@data-grain-deg]").node()
                   ? std::optional(endsOf(document.select_node("//path[@data-grain-deg]").node()))
                   : std::nullopt;
    };
    CHECK_FALSE(grain());
    part.grain_deg = 30;
    const auto arrow = grain();
    REQUIRE(arrow);
    const Vec2 along = arrow->to - arrow->from;
    CHECK(along.x() / along.norm() == Approx(std::sqrt(0.75)).margin(1e-3));
    CHECK(-along.y() / along.norm() == Approx(0.5).margin(1e-3));
}
