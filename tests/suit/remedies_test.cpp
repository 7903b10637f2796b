// SPDX-License-Identifier: GPL-3.0-or-later
// Remedies of each kind on parts made for it; each is made again from its numbers and planned here.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/part/edges/section.h>
#include <tinwright/part/edges/split.h>
#include <tinwright/sequence/remedies/remedies.h>

using namespace tinwright;

namespace {

std::string path(const std::string& inside) { return std::string(TINWRIGHT_SOURCE_DIR) + "/" + inside; }

Shop shopOf(const std::string& inside) {
    Result<Shop> shop = readShop(path(inside));
    REQUIRE(shop.ok());
    return std::move(shop).value();
}

Recipe recipeIn(const std::string& inside) {
    Result<Recipe> recipe = readRecipeFile(path(inside));
    REQUIRE(recipe.ok());
    return std::move(recipe).value();
}

Recipe recipeOf(const std::string& text) {
    Result<Recipe> recipe = readRecipe(text, "part.json");
    REQUIRE(recipe.ok());
    return std::move(recipe).value();
}

Part partOf(const Recipe& recipe) {
    Result<Part> part = develop(recipe);
    if (!part) {
        for (const Issue& issue : part.issues()) UNSCOPED_INFO(toText(issue));
    }
    REQUIRE(part.ok());
    return std::move(part).value();
}

TweakedPart tweaksOf(const Recipe& recipe, const std::vector<std::string>& names, double reach_mm) {
    TweakedPart tweaks;
    for (const std::string& name : names) {
        Recipe copy = recipe;
        const double value = findDimension(copy, name)->value_mm;
        tweaks.dimensions.push_back({name, value, value - reach_mm, value + reach_mm});
    }
    tweaks.with = [recipe, names](const std::vector<DimensionValue>& values) {
        Recipe changed = recipe;
        for (const DimensionValue& value : values)
            findDimension(changed, names[value.dimension])->value_mm = value.value_mm;
        return develop(changed);
    };
    return tweaks;
}

Suitability planned(const Part& part, const Shop& shop, std::size_t brake) {
    PlanOptions options;
    options.plans = 1;
    return suitabilityOf(planOnBrake(part, shop, brake, options));
}

Remedies remediesFor(const Part& part, const TweakedPart& tweaks, const Shop& shop, std::size_t brake,
                     std::uint64_t max_work = 200'000) {
    const BrakeResult drawn = planOnBrake(part, shop, brake, {});
    REQUIRE(drawn.verdict == Verdict::kInfeasible);
    RemedyOptions options;
    options.max_work = max_work;
    Remedies remedies = findRemedies(part, tweaks, shop, brake, drawn, options);
    CHECK_FALSE(remedies.as_drawn.works());
    return remedies;
}

std::vector<Remedy> of(const Remedies& remedies, RemedyKind kind) {
    std::vector<Remedy> result;
    for (const Remedy& remedy : remedies.list) {
        if (remedy.kind == kind) result.push_back(remedy);
    }
    return result;
}

BendId bendCalled(const Part& part, const std::string& name) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        if (part.bends[i].name == name) return idAt<BendId>(i);
    }
    FAIL("no bend " << name);
    return {};
}

std::string tray(double width_mm, double depth_mm, double wall_mm, const std::string& corner) {
    std::string flanges;
    for (const std::string side : {"front", "right", "back", "left"}) {
        flanges += (flanges.empty() ? "" : ",") + (R"({"name":"wall_)" + side + R"(","on":"base.)" + side +
                                                   R"(","length":)" + std::to_string(wall_mm) + "}");
    }
    std::string corners;
    const char* sides[] = {"front", "right", "back", "left"};
    for (int i = 0; i < 4; ++i) {
        corners +=
            std::string(i > 0 ? "," : "") + R"({"between":["wall_)" + sides[i] + R"(","wall_)" + sides[(i + 1) % 4] +
            R"("],)" + corner +
            (corner.find("overlap") == std::string::npos ? "" : std::string(R"(,"over":"wall_)") + sides[i] + "\"") +
            "}";
    }
    return R"({"format":"tinwright-part/1","units":"mm","name":"tray","sheet":{"material":"mild-steel","thickness":1.5},"allowance":{"rule":"k-factor","k":0.44},
        "inside_radius":1,"measured":"inside","base":{"name":"base","width":{"value":)" +
           std::to_string(width_mm) + R"(,"name":"width"},"depth":{"value":)" + std::to_string(depth_mm) +
           R"(,"name":"depth"}},"flanges":[)" + flanges + R"(],"corners":[)" + corners + "]}";
}

// A flange of square corners made shorter at one end, corner by corner.
Part shortened(Part part, BendId bend, SpanEnd end, double by_mm) {
    Bend& line = part.bends[bend.index()];
    Polygon& outline = part.panels[line.child.index()].region.outline;
    const double sign = end == SpanEnd::kFrom ? 1 : -1;
    const auto at = [&](const Vec2& corner) { return sign * (corner - line.origin).dot(line.along); };
    double first = at(outline[0]);
    for (const Vec2& corner : outline) first = std::min(first, at(corner));
    for (Vec2& corner : outline) corner += sign * std::max(0.0, first + by_mm - at(corner)) * line.along;
    double& span_end = end == SpanEnd::kFrom ? line.spans.front().from_mm : line.spans.back().to_mm;
    span_end = sign * std::max(sign * span_end, first + by_mm);
    return part;
}

}  // namespace

TEST_CASE("Remedies: a dimension, a bar and a welded bend for the roaster pod, each planned again") {
    const Recipe pod = recipeIn("examples/roaster-pod/part.json");
    const Part part = partOf(pod);
    const Shop shop = shopOf("examples/roaster-pod/shop.json");
    const TweakedPart tweaks =
        tweaksOf(pod, {"inside_width", "side_height", "tab_length", "tab_width", "corner_gap"}, 18);
    const Remedies remedies = remediesFor(part, tweaks, shop, 0);
    CHECK_FALSE(remedies.cut_short);

    const std::vector<Remedy> dimensions = of(remedies, RemedyKind::kDimension);
    REQUIRE(dimensions.size() >= 2);
    double before_mm = 0;
    for (const Remedy& remedy : dimensions) {
        REQUIRE(remedy.dimensions.size() == 1);
        const DimensionChangeTo& change = remedy.dimensions[0];
        CHECK(std::abs(change.to_mm - change.from_mm) >= before_mm);
        before_mm = std::abs(change.to_mm - change.from_mm);
        Recipe changed = pod;
        findDimension(changed, tweaks.dimensions[change.dimension].name)->value_mm = change.to_mm;
        CHECK(planned(partOf(changed), shop, 0).level() >= remedy.result.level());
    }

    const std::vector<Remedy> bars = of(remedies, RemedyKind::kBar);
    REQUIRE(bars.size() == 1);
    REQUIRE(bars[0].bars.size() == 1);
    // The bar as a person would enter it into the shop file: a copy of the one it is like, of another width.
    Shop richer = shop;
    const auto like = std::find_if(shop.brakes[0].leaf().bars.begin(), shop.brakes[0].leaf().bars.end(),
                                   [&](const Bar& bar) { return bar.id == bars[0].bars[0].like; });
    REQUIRE(like != shop.brakes[0].leaf().bars.end());
    REQUIRE_FALSE(bars[0].bars[0].milled);
    Bar bought = *like;
    bought.id = "bought";
    bought.width_mm = bars[0].bars[0].width_mm;
    bought.count = 1;
    richer.brakes[0].leaf().bars.push_back(bought);
    CHECK(planned(part, richer, 0).level() >= bars[0].result.level());
    for (const Bar& bar : shop.brakes[0].leaf().bars) CHECK(bar.width_mm != bars[0].bars[0].width_mm);

    const std::vector<Remedy> welds = of(remedies, RemedyKind::kWeldedBend);
    REQUIRE_FALSE(welds.empty());
    CHECK(of(remedies, RemedyKind::kTwoDimensions).empty());
    double least_mm = 0;
    for (const Remedy& remedy : welds) {
        REQUIRE(remedy.weld);
        CHECK(remedy.weld->weld_mm >= least_mm);
        least_mm = remedy.weld->weld_mm;
        CHECK(remedy.weld->weld_mm == Approx(stripLength_mm(part.bend(remedy.weld->bend))));
    }
}

TEST_CASE("Remedies: the pod with a side left off goes, as the recipe without it says") {
    const Recipe pod = recipeIn("examples/roaster-pod/part.json");
    const Part part = partOf(pod);
    const Shop shop = shopOf("examples/roaster-pod/shop.json");
    const Remedies remedies = remediesFor(part, {}, shop, 0);
    CHECK(of(remedies, RemedyKind::kDimension).empty());
    for (const Remedy& remedy : of(remedies, RemedyKind::kWeldedBend)) {
        const std::string piece = part.panel(part.bend(remedy.weld->bend).child).name;
        CAPTURE(piece);
        // The recipe without that flange, what hangs on it, what is cut into them and their corners.
        Recipe rest = pod;
        REQUIRE(resolveDimensions(rest).empty());
        forEachDimension(rest, [](Dimension& dimension) { dimension.is.clear(); });
        std::vector<std::string> gone{piece};
        for (const Flange& flange : pod.flanges) {
            if (flange.on.starts_with(piece + ".")) gone.push_back(flange.name);
        }
        const auto isGone = [&](const std::string& name) {
            return std::find(gone.begin(), gone.end(), name) != gone.end();
        };
        CHECK(remedy.weld->piece_bends == gone.size() - 1);
        std::erase_if(rest.flanges, [&](const Flange& flange) { return isGone(flange.name); });
        std::erase_if(rest.corners,
                      [&](const Corner& corner) { return isGone(corner.flange[0]) || isGone(corner.flange[1]); });
        std::erase_if(rest.cut_outs, [&](const CutOut&) { return true; });
        CHECK(planned(partOf(rest), shop, 0).works());
    }
}

TEST_CASE("Remedies: another brake of the shop") {
    const Part part = partOf(recipeIn("examples/deep-housing/part.json"));
    const Shop shop = shopOf("examples/deep-housing/shop.json");
    const Remedies remedies = remediesFor(part, {}, shop, 0);
    const std::vector<Remedy> brakes = of(remedies, RemedyKind::kOtherBrake);
    REQUIRE(brakes.size() == 1);
    CHECK(brakes[0].brake == 1);
    CHECK(planned(part, shop, 1).works());

    // Known already: nothing is planned.
    const BrakeResult drawn = planOnBrake(part, shop, 0, {});
    const BrakeResult other = planOnBrake(part, shop, 1, {});
    RemedyOptions options;
    options.known = {&drawn, &other};
    options.max_work = 0;
    const Remedies told = findRemedies(part, {}, shop, 0, drawn, options);
    REQUIRE(told.list.size() == 1);
    CHECK(told.list[0].kind == RemedyKind::kOtherBrake);
    CHECK(told.plans_made == 0);
}

TEST_CASE("Remedies: corners that overbending closes are opened and welded") {
    const Part part = partOf(recipeOf(tray(151, 91, 60, R"("type":"overlap","gap":0.3)")));
    const Shop shop = shopOf("examples/roaster-pod/shop.json");
    const Remedies remedies = remediesFor(part, {}, shop, 0);
    const std::vector<Remedy> corners = of(remedies, RemedyKind::kOpenCorners);
    REQUIRE(corners.size() == 2);
    REQUIRE(corners[0].corners.size() == 1);
    const OpenedCorner& corner = corners[0].corners[0];
    CHECK(corner.by_mm > 0);
    CHECK(corner.slant_deg == 0);
    CHECK(corner.by_mm <= 10);
    // 60 mm inside, less the bend's radius and the sheet at its foot: as the walls lie beside one another.
    CHECK(corner.weld_mm == Approx(59).margin(1.5));
    CHECK(corner.gap_mm <= 3);
    CHECK(planned(shortened(part, corner.bend, corner.end, corner.by_mm), shop, 0).works());
    CHECK_FALSE(planned(*withEndCutBack(part, corner.bend, corner.end, corner.by_mm - 0.1), shop, 0).works());

    // Slanted on one side instead: by about the overbend, that of the shop for mild steel.
    REQUIRE(corners[1].corners.size() == 1);
    const OpenedCorner& slanted = corners[1].corners[0];
    CHECK(slanted.by_mm == 0);
    CHECK(slanted.slant_deg > 0);
    CHECK(slanted.slant_deg <= 4);
    // The wall that was cut back laps the other, whose end must lean out of its way.
    CHECK(part.bend(slanted.bend).child == corner.beside);
    CHECK(
        planned(*withEndSlanted(part, slanted.bend, slanted.end, Angle::degrees(slanted.slant_deg)), shop, 0).works());
    const auto less = withEndSlanted(part, slanted.bend, slanted.end, Angle::degrees(slanted.slant_deg - 0.5));
    CHECK_FALSE(planned(less.value_or(part), shop, 0).works());
}

TEST_CASE("Remedies: ends that the leaf meets at overbend are told with the slant that lets it pass") {
    // Front and back lap both sides: their ends stand before the leaf that swings left and right.
    std::string text = tray(151, 91, 30, R"("type":"overlap","gap":0.3)");
    for (const auto& [from, to] :
         {std::pair<std::string, std::string>{R"("over":"wall_right")", R"("over":"wall_back")"},
          std::pair<std::string, std::string>{R"("over":"wall_left")", R"("over":"wall_front")"}}) {
        const std::size_t at = text.find(from);
        REQUIRE(at != std::string::npos);
        text.replace(at, from.size(), to);
    }
    const Part part = partOf(recipeOf(text));
    const Shop shop = shopOf("examples/roaster-pod/shop.json");
    const std::vector<Remedy> found = of(remediesFor(part, {}, shop, 0), RemedyKind::kOpenCorners);
    REQUIRE(found.size() == 2);
    const auto opened = [&part](const Remedy& remedy, double less_mm, double less_deg) {
        Part result = part;
        for (const OpenedCorner& corner : remedy.corners) {
            std::optional<Part> next =
                corner.by_mm > 0
                    ? withEndCutBack(result, corner.bend, corner.end, corner.by_mm - less_mm)
                    : withEndSlanted(result, corner.bend, corner.end, Angle::degrees(corner.slant_deg - less_deg));
            if (next) result = std::move(*next);
        }
        return result;
    };
    for (const Remedy& remedy : found) {
        REQUIRE_FALSE(remedy.corners.empty());
        for (const OpenedCorner& corner : remedy.corners) {
            const std::string& flange = part.panel(part.bend(corner.bend).child).name;
            CHECK((flange == "wall_front" || flange == "wall_back"));
        }
        CHECK(planned(opened(remedy, 0, 0), shop, 0).works());
        CHECK_FALSE(planned(opened(remedy, 0.1, 0.5), shop, 0).works());
    }
}

TEST_CASE("Remedies: two dimensions together, when no single one does it") {
    Recipe pod = recipeIn("examples/roaster-pod/part.json");
    findDimension(pod, "side_height")->value_mm = 15;
    pod.cut_outs.clear();
    const Part part = partOf(pod);
    const Shop shop = shopOf("examples/roaster-pod/shop.json");
    const TweakedPart tweaks = tweaksOf(pod, {"inside_width", "side_height"}, 10);
    const Remedies remedies = remediesFor(part, tweaks, shop, 0);
    CHECK(of(remedies, RemedyKind::kDimension).empty());
    const std::vector<Remedy> pairs = of(remedies, RemedyKind::kTwoDimensions);
    REQUIRE_FALSE(pairs.empty());
    for (const Remedy& remedy : pairs) {
        REQUIRE(remedy.dimensions.size() == 2);
        Recipe both = pod;
        for (const DimensionChangeTo& change : remedy.dimensions) {
            const std::string& name = tweaks.dimensions[change.dimension].name;
            findDimension(both, name)->value_mm = change.to_mm;
            Recipe one = pod;
            findDimension(one, name)->value_mm = change.to_mm;
            CHECK_FALSE(planned(partOf(one), shop, 0).works());
        }
        CHECK(planned(partOf(both), shop, 0).level() >= remedy.result.level());
    }
}

TEST_CASE("Remedies: a bar of less depth, milled off, for a leg that stands behind a deep one") {
    // Shop practice: a C of 12/40/60/40/12 goes under bars 50 deep and not under bars 100 deep.
    Section section;
    section.flats_mm = {12, 40, 60, 40, 12};
    section.angles_deg = {90, 90, 90, 90};
    section.inside_radius_mm = 1;
    section.length_mm = 130;
    const Part part = sectionPart(section);
    Shop shop = shopOf("examples/deep-housing/shop.json");
    shop.brakes.erase(shop.brakes.begin());  // the magnetic folder with deep bars is left
    REQUIRE(shop.brakes[0].leaf().bars[0].clamp_depth_mm == Approx(100));
    const Remedies remedies = remediesFor(part, {}, shop, 0);
    const std::vector<Remedy> bars = of(remedies, RemedyKind::kBar);
    REQUIRE_FALSE(bars.empty());
    REQUIRE(bars[0].bars.size() == 1);
    const NewBar& bar = bars[0].bars[0];
    CHECK(bar.milled);
    CHECK(bar.width_mm == Approx(130).margin(0.5));
    // Between the legs, which stand 62 apart at their inside faces.
    CHECK(bar.depth_mm < 62);
    Shop richer = shop;
    richer.brakes[0] = withBars(shop.brakes[0], bars[0].bars);
    CHECK(richer.brakes[0].leaf().bars.back().clamp_depth_mm == Approx(bar.depth_mm));
    CHECK(planned(part, richer, 0).level() >= bars[0].result.level());
    // A bar that is a little deeper does not do.
    std::vector<NewBar> deeper = bars[0].bars;
    deeper[0].depth_mm += 2;
    richer.brakes[0] = withBars(shop.brakes[0], deeper);
    CHECK_FALSE(planned(part, richer, 0).works());
}

TEST_CASE("Remedies: the same work gives the same list, and an allowance ends the look") {
    const Recipe pod = recipeIn("examples/roaster-pod/part.json");
    const Part part = partOf(pod);
    const Shop shop = shopOf("examples/roaster-pod/shop.json");
    const TweakedPart tweaks = tweaksOf(pod, {"inside_width", "side_height"}, 18);
    const Remedies once = remediesFor(part, tweaks, shop, 0, 6'000);
    const Remedies again = remediesFor(part, tweaks, shop, 0, 6'000);
    CHECK(once.cut_short);
    CHECK(once.work == again.work);
    CHECK(once.list.size() == again.list.size());
    // One plan more than the allowance at most, for each kind.
    CHECK(once.work < 6'000 + 6 * 1'500);
}

TEST_CASE("A part cut in two keeps its sheet, but for the strip of the cut") {
    const Part part = partOf(recipeIn("examples/roaster-pod/part.json"));
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const SplitPart split = splitAt(part, idAt<BendId>(i));
        CHECK(split.rest.panels.size() + split.piece.panels.size() == part.panels.size());
        CHECK(split.rest.bends.size() + split.piece.bends.size() + 1 == part.bends.size());
        CHECK(area_mm2(split.rest.blank) + area_mm2(split.piece.blank) == Approx(area_mm2(part.blank)));
        for (const Part* half : {&split.rest, &split.piece}) {
            for (std::size_t k = 0; k < half->bends.size(); ++k) {
                const BendId was = (half == &split.rest ? split.rest_bends : split.piece_bends)[k];
                CHECK(half->bends[k].name == part.bend(was).name);
                CHECK(half->panel(half->bends[k].child).name == part.panel(part.bend(was).child).name);
                CHECK(half->panel(half->bends[k].parent).name == part.panel(part.bend(was).parent).name);
            }
        }
    }
}

TEST_CASE("A flange cut back at one end loses just that much") {
    const Part part = partOf(recipeOf(tray(151, 91, 60, R"("type":"open","gap":2)")));
    const BendId bend = bendCalled(part, "wall_right");
    for (const SpanEnd end : {SpanEnd::kFrom, SpanEnd::kTo}) {
        const auto cut = withEndCutBack(part, bend, end, 4);
        REQUIRE(cut);
        CHECK(stripLength_mm(cut->bend(bend)) == Approx(stripLength_mm(part.bend(bend)) - 4));
        const double height_mm = area_mm2(part.panel(part.bend(bend).child).region) / stripLength_mm(part.bend(bend));
        CHECK(area_mm2(part.blank) - area_mm2(cut->blank) ==
              Approx(4 * (height_mm + part.bend(bend).allowance_mm)).epsilon(0.01));
    }
    CHECK_FALSE(withEndCutBack(part, bend, SpanEnd::kFrom, 500));
}

TEST_CASE("A flange slanted at one end loses a triangle and keeps its bend") {
    const Part part = partOf(recipeOf(tray(151, 91, 60, R"("type":"open","gap":2)")));
    const BendId bend = bendCalled(part, "wall_right");
    const double height_mm = area_mm2(part.panel(part.bend(bend).child).region) / stripLength_mm(part.bend(bend));
    for (const SpanEnd end : {SpanEnd::kFrom, SpanEnd::kTo}) {
        const auto cut = withEndSlanted(part, bend, end, Angle::degrees(5));
        REQUIRE(cut);
        CHECK(stripLength_mm(cut->bend(bend)) == Approx(stripLength_mm(part.bend(bend))));
        CHECK(area_mm2(part.blank) - area_mm2(cut->blank) ==
              Approx(0.5 * height_mm * height_mm * std::tan(5 * 3.14159265 / 180)).epsilon(0.01));
    }
    // Not across the bend of a lip.
    const Part with_lips = partOf(recipeIn("examples/tray-lips/part.json"));
    const BendId lip = bendCalled(with_lips, "lip_front");
    const BendId wall = bendCalled(with_lips, with_lips.panel(with_lips.bend(lip).parent).name);
    CHECK_FALSE(withEndSlanted(with_lips, wall, SpanEnd::kFrom, Angle::degrees(20)));
}
