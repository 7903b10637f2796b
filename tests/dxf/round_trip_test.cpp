// SPDX-License-Identifier: GPL-3.0-or-later
// A blank that is written and read back is the same part and plans the same.
#include <catch2/catch.hpp>

#include <cmath>

#include <tinwright/io/blank/blank_io.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/sequence/plan/planner.h>

#include "drawing_text.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

struct Example {
    const char* folder;
    const char* part;
};

constexpr Example kExamples[] = {{"roaster-pod", "part.json"},  {"roaster-pod", "part-suited.json"},
                                 {"tray-lips", "part.json"},    {"hat-channel", "part.json"},
                                 {"deep-housing", "part.json"}, {"cooling-tray", "part.json"}};

Part recipePart(const Example& example) {
    Result<Part> part =
        readPartFile(std::string(TINWRIGHT_SOURCE_DIR "/examples/") + example.folder + "/" + example.part);
    REQUIRE(part.ok());
    return std::move(part).value();
}

Part readBack(const Part& part, bool with_bend_lines) {
    const std::string dxf = blankDxf(drawBlank(part, {bendLineMarks(part), with_bend_lines}));
    Result<Part> back = readDxfBlankText({dxf, "back.dxf"}, {bendsJson(part), "back.bends.json"});
    INFO(textOf(back.issues()));
    REQUIRE(back.ok());
    return std::move(back).value();
}

// A panel keeps, as a body, the tips of less than 0.25 mm that its blank is without (develop).
constexpr double kTips_mm2 = 4 * 0.25 * 0.25;

// Outlines are written to 1e-7 mm and read to 1e-6 mm; round holes are found again as circles.
void checkSame(const Part& a, const Part& b) {
    REQUIRE(a.panels.size() == b.panels.size());
    REQUIRE(a.bends.size() == b.bends.size());
    for (std::size_t i = 0; i < a.panels.size(); ++i) {
        INFO(a.panels[i].name);
        CHECK(a.panels[i].name == b.panels[i].name);
        const double tips_mm2 = area_mm2(a.panels[i].region) - area_mm2(b.panels[i].region);
        CHECK(tips_mm2 > -1e-3);
        CHECK(tips_mm2 < kTips_mm2);
        const std::size_t corners = a.panels[i].region.outline.size();
        CHECK((corners == b.panels[i].region.outline.size() || corners + 8 == b.panels[i].region.outline.size()));
        if (corners == b.panels[i].region.outline.size()) CHECK(tips_mm2 < 1e-3);
        CHECK(a.panels[i].region.holes.size() == b.panels[i].region.holes.size());
    }
    for (std::size_t i = 0; i < a.bends.size(); ++i) {
        const Bend& p = a.bends[i];
        const Bend& q = b.bends[i];
        INFO(p.name);
        CHECK(p.name == q.name);
        CHECK(p.hem == q.hem);
        CHECK(p.parent == q.parent);
        CHECK(p.child == q.child);
        CHECK((p.along - q.along).norm() < 1e-9);
        CHECK(std::abs(p.toward_child.dot(p.origin - q.origin)) < 1e-6);
        CHECK(p.angle.deg() == Approx(q.angle.deg()));
        CHECK(p.up == q.up);
        CHECK(p.inside_radius_mm == q.inside_radius_mm);
        CHECK(p.allowance_mm == Approx(q.allowance_mm).epsilon(1e-12));
        REQUIRE(p.spans.size() == q.spans.size());
        for (std::size_t k = 0; k < p.spans.size(); ++k) {
            const double shift = p.along.dot(q.origin - p.origin);
            CHECK(p.spans[k].from_mm == Approx(q.spans[k].from_mm + shift).margin(1e-5));
            CHECK(p.spans[k].to_mm == Approx(q.spans[k].to_mm + shift).margin(1e-5));
        }
    }
    REQUIRE(a.edges.size() == b.edges.size());
}

}  // namespace

TEST_CASE("read back: the same panels, bends and edges, with bend lines drawn or only in the bends file") {
    for (const Example& example : kExamples) {
        INFO(example.folder << "/" << example.part);
        const Part part = recipePart(example);
        const Part with = readBack(part, true), without = readBack(part, false);
        checkSame(part, with);
        checkSame(part, without);
        CHECK(with.warnings.empty());
        CHECK(without.warnings.empty());
    }
}

TEST_CASE("read back: the grain") {
    Part part = recipePart(kExamples[0]);
    CHECK_FALSE(readBack(part, true).grain_deg.has_value());
    part.grain_deg = 30;
    CHECK(readBack(part, true).grain_deg == 30);
}

TEST_CASE("read back twice: the same drawing, byte for byte") {
    for (const Example& example : kExamples) {
        const Part once = readBack(recipePart(example), true);
        const Part twice = readBack(once, true);
        CHECK(blankDxf(drawBlank(once, {bendLineMarks(once), true})) ==
              blankDxf(drawBlank(twice, {bendLineMarks(twice), true})));
    }
}

TEST_CASE("read back: every example plans the same") {
    for (const Example& example : kExamples) {
        INFO(example.folder << "/" << example.part);
        const Part part = recipePart(example), back = readBack(part, true);
        const Result<Shop> shop =
            readShop(std::string(TINWRIGHT_SOURCE_DIR "/examples/") + example.folder + "/shop.json");
        REQUIRE(shop.ok());
        for (std::size_t brake = 0; brake < shop.value().brakes.size(); ++brake) {
            INFO(shop.value().brakes[brake].name);
            const BrakeResult a = planOnBrake(part, shop.value(), brake, {}),
                              b = planOnBrake(back, shop.value(), brake, {});
            CHECK(a.verdict == b.verdict);
            CHECK(a.orders_feasible == b.orders_feasible);
            CHECK(a.orders_total == b.orders_total);
            REQUIRE(a.plans.size() == b.plans.size());
            for (std::size_t i = 0; i < a.plans.size(); ++i) CHECK(a.plans[i].cost_ms == b.plans[i].cost_ms);
        }
    }
}
