// SPDX-License-Identifier: GPL-3.0-or-later
// The papers of the bench sheet besides its folds: seams, drill list, what the metal does, checklist, sizes with
// tolerances.
#include <catch2/catch.hpp>

#include <cmath>

#include <pugixml.hpp>

#include <tinwright/brake/shop/tolerances.h>
#include <tinwright/part/developing/develop.h>
#include <tinwright/report/sheet/sheet.h>

#include "sentences/check_size.h"
#include "sheet_cases.h"
#include "words/words.h"

using namespace tinwright;

namespace {

/// A floor with two walls that meet in an open corner, and a small hole.
Part corner(double gap_mm) {
    Recipe recipe;
    recipe.name = "corner";
    recipe.sheet = {"mild-steel", 1.5, "", {}, Film::kBothFaces};
    recipe.inside_radius_mm = 1;
    recipe.measured = Measured::kOutside;
    recipe.base.width = Dimension::of(100);
    recipe.base.depth = Dimension::of(60);
    for (const char* side : {"front", "right"}) {
        Flange flange;
        flange.name = side;
        flange.on = std::string("base.") + side;
        flange.length = Dimension::of(30);
        recipe.flanges.push_back(flange);
    }
    Corner corner;
    corner.flange[0] = "front";
    corner.flange[1] = "right";
    corner.gap = Dimension::of(gap_mm);
    recipe.corners.push_back(corner);
    CutOut hole;
    hole.name = "screw_hole";
    hole.on = "base";
    hole.diameter = Dimension::of(4.5);
    hole.at[0] = {"left", Datum::kEdge, Dimension::of(20), To::kCentre, ""};
    hole.at[1] = {"back", Datum::kEdge, Dimension::of(15), To::kCentre, ""};
    recipe.cut_outs.push_back(hole);
    Result<Part> part = develop(recipe);
    REQUIRE(part.ok());
    return std::move(part).value();
}

pugi::xml_document pageOf(const PlanReport& report) {
    const std::string html = benchSheet(report).html;
    pugi::xml_document page;
    const pugi::xml_parse_result result = page.load_buffer(html.data(), html.size());
    INFO(result.description() << " at " << result.offset);
    REQUIRE(result);
    return page;
}

std::vector<std::string> cellsOf(const pugi::xml_document& page, const std::string& heading) {
    std::vector<std::string> cells;
    for (const pugi::xpath_node& cell : page.select_nodes(("//tr[th='" + heading + "']/td").c_str()))
        cells.push_back(cell.node().text().as_string());
    return cells;
}

bool says(const pugi::xml_node& node, const std::string& words) {
    return node.select_node(("self::node()[contains(., \"" + words + "\")]").c_str()).node() != nullptr;
}

Finding finding(const char* id, Severity severity, const char* words) {
    return {.id = id,
            .severity = severity,
            .feature = "base",
            .brake = {},
            .bends = {},
            .words = words,
            .remedies = {"move it"},
            .figures = {},
            .section = {}};
}

}  // namespace

TEST_CASE("papers: seams with their edges, length, gap and kind") {
    const Part part = corner(1.2);
    const Shop shop = sample::smallShop();
    const auto cells = cellsOf(pageOf(sample::reportOf(part, shop)), "W1");
    REQUIRE(cells.size() == 4);
    CHECK(cells[0] == "front.left and right.right");
    CHECK(cells[1] == "27.5");  // 30 outside less r + t of the bend
    CHECK(cells[2] == "1.2");
    CHECK(cells[3] == "open corner, 90° inside");
    CHECK(cellsOf(pageOf(sample::reportOf(corner(4), shop)), "W1")[2] == "4, wide");
    CHECK(cellsOf(pageOf(sample::reportOf(corner(9), shop)), "W1").empty());
}

TEST_CASE("papers: the drill list when the shop says how it cuts") {
    const Part part = corner(1);
    Shop shop = sample::smallShop();
    CHECK(cellsOf(pageOf(sample::reportOf(part, shop)), "D1").empty());
    shop.cutting = cuttingOf(CutProcess::kPlasma);
    shop.cutting->smallest_hole = {1.5, 5.0};
    const auto cells = cellsOf(pageOf(sample::reportOf(part, shop)), "D1");
    REQUIRE(cells.size() == 5);
    CHECK(cells[0] == "screw_hole");
    CHECK(cells[1] == "4.5");
    CHECK(cells[3].find("20 from base.left") != std::string::npos);
    CHECK(cells[3].find("15 from base.back") != std::string::npos);
    shop.cutting->smallest_hole = {1.5, 3.0};
    CHECK(cellsOf(pageOf(sample::reportOf(part, shop)), "D1").empty());
}

TEST_CASE("papers: what is weak is drawn where it is weak, to scale") {
    const Part part = corner(1);
    const Shop shop = sample::smallShop();
    PlanReport report = sample::reportOf(part, shop);
    report.findings = {finding("web.folds", Severity::kFault, "the web folds")};
    report.findings[0].section = {{Vec2(10, 20), Vec2(40, 60)}};
    const pugi::xml_document page = pageOf(report);
    const pugi::xml_node line = page.select_node("//path[@data-finding='web.folds']").node();
    REQUIRE(line);
    Vec2 from, to;
    REQUIRE(std::sscanf(line.attribute("d").as_string(), "M%lf %lfL%lf %lf", &from.x(), &from.y(), &to.x(), &to.y()) ==
            4);
    CHECK((to - from).norm() == Approx(50 * line.parent().attribute("data-scale").as_double()).margin(0.02));
    CHECK(says(page.select_node("//li[contains(., 'the web folds')]").node(), "FAULT"));
    CHECK(says(page.select_node("//li[contains(., 'the web folds')]").node(), "move it"));
}

TEST_CASE("papers: what concerns one fold stands on its card alone") {
    const Part part = corner(1);
    const Shop shop = sample::smallShop();
    PlanReport report = sample::reportOf(part, shop);
    report.brakes[0].fold_findings = {{{}, {finding("hold.lifts", Severity::kWarning, "the bars lift")}}};
    const pugi::xml_document page = pageOf(report);
    const auto cards = page.select_nodes("//div[@class='card']");
    REQUIRE(cards.size() == 2);
    CHECK_FALSE(says(cards[0].node(), "the bars lift"));
    CHECK(says(cards[1].node(), "the bars lift"));
}

TEST_CASE("papers: the checklist knows the film and the grain") {
    Part part = corner(1);
    const Shop shop = sample::smallShop();
    CHECK(says(pageOf(sample::reportOf(part, shop)).root(), "Film on both faces"));
    CHECK_FALSE(says(pageOf(sample::reportOf(part, shop)).root(), "Grain runs along the arrow"));
    part.grain_deg = 90;
    part.film = Film::kNone;
    CHECK(says(pageOf(sample::reportOf(part, shop)).root(), "Grain runs along the arrow"));
    CHECK_FALSE(says(pageOf(sample::reportOf(part, shop)).root(), "Film"));
}

TEST_CASE("papers: bends that take the same sheet share a row of the allowances") {
    const Shop shop = sample::smallShop();
    const Part part = corner(1);
    const auto cells = cellsOf(pageOf(sample::reportOf(part, shop)), "all bends");
    REQUIRE(cells.size() == 5);
    const double strip_mm = (1 + 0.44 * 1.5) * std::acos(-1.0) / 2;
    CHECK(cells[2] == "k-factor 0.44");
    CHECK(std::stod(cells[3]) == Approx(strip_mm).margin(0.006));
    CHECK(std::stod(cells[4]) == Approx(2 * 2.5 - strip_mm).margin(0.006));
}

TEST_CASE("papers: sizes to check carry ISO 2768-1 m, or what the cut can hold where that is more") {
    // ISO 2768-1 table 1, class m: over 30 to 120 mm 0.3. ISO 9013 class 2 (plasma), over 1 to 3.15 mm: 0.7 from 35 to
    // 125 mm, class 1 (laser): 0.25.
    CHECK(*workingTolerance_mm(std::nullopt, 1.5, 36) == Approx(0.3));
    CHECK(*workingTolerance_mm(CutProcess::kPlasma, 1.5, 36) == Approx(0.7));
    CHECK(*workingTolerance_mm(CutProcess::kLaser, 1.5, 36) == Approx(0.3));
    CHECK_FALSE(workingTolerance_mm(std::nullopt, 1.5, 0.2));
    const Part part = corner(1);
    const auto sizes = report::checkSizes(part, BendId{0}, 1, 1);
    REQUIRE(sizes.size() == 2);
    CHECK(sizes[0].words == "front: 30 ±0.2 mm, from the outside of base to edge front.far");
}

TEST_CASE("an angle's tolerance is told in degrees and minutes") {
    CHECK(report::minutes(1) == "1°");
    CHECK(report::minutes(0.5) == "30'");
    CHECK(report::minutes(1.0 / 3) == "20'");
    CHECK(report::minutes(1.5) == "1° 30'");
}
