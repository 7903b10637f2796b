// SPDX-License-Identifier: GPL-3.0-or-later
#include "recipe/recipe_fields.h"

#include <fmt/format.h>

#include <tinwright/io/json/json_reading.h>
#include <tinwright/part/allowance/gauge.h>

namespace tinwright {

namespace {

constexpr Range kLength{-RecipeLimits::kLongest_mm, RecipeLimits::kLongest_mm};
constexpr Range kRadius{0, RecipeLimits::kLargestRadius_mm};

double readThickness(const JsonCursor& at) {
    constexpr Range kThickness{RecipeLimits::kThinnest_mm, RecipeLimits::kThickest_mm};
    if (!at.json().is_object()) return at.length_mm(kThickness).value_or(1.0);
    if (!at.object({"gauge", "system"})) return 1.0;
    const auto gauge = at.need("gauge", "a gauge number");
    const auto system = at.need("system", "the gauge system, e.g. \"steel-msg\"");
    if (!gauge || !system) return 1.0;
    const auto number = gauge->integer(1, 40);
    const auto which = system->choice({"steel-msg", "galvanized", "stainless", "aluminium-bs", "uk-swg"});
    if (!number || !which) return 1.0;
    const auto thickness = gaugeThickness_mm(static_cast<GaugeSystem>(*which), *number);
    if (!thickness)
        gauge->wrong("gauge", fmt::format("a gauge of the {} chart (7 to 14, then even ones to 30)",
                                          toText(static_cast<GaugeSystem>(*which))));
    return thickness.value_or(1.0);
}

OutlinePoint readPoint(const JsonCursor& at) {
    OutlinePoint point;
    point.place = at.place();
    if (at.json().is_array()) {
        const auto pair = at.items(2, 2);
        if (pair.size() == 2) {
            point.x = readDimension(pair[0]);
            point.y = readDimension(pair[1]);
        }
    } else if (at.object({"x", "y", "edge"})) {
        point.x = needDimension(at, "x");
        point.y = needDimension(at, "y");
        if (const auto edge = at.get("edge")) point.edge = edge->name().value_or("");
    }
    return point;
}

}  // namespace

Dimension readDimension(const JsonCursor& at) {
    Dimension dimension;
    dimension.given = true;
    dimension.place = at.place();
    if (!at.json().is_object()) {
        dimension.value_mm = at.length_mm(kLength).value_or(1.0);
        return dimension;
    }
    if (!at.object({"value", "is", "plus", "name", "locked", "measured"})) return dimension;
    if (at.has("value") == at.has("is")) at.wrong("dimension", "either \"value\" or \"is\"");
    if (at.has("plus") && !at.has("is")) at.wrong("dimension", "\"plus\" only beside \"is\"");
    if (at.has("locked") && at.has("is"))
        at.wrong("dimension", "\"locked\" only beside \"value\"", "lock the dimension it refers to");
    dimension.value_mm = lengthOr_mm(at, "value", kLength, 1.0);
    if (const auto is = at.get("is")) dimension.is = is->name().value_or("");
    dimension.plus_mm = lengthOr_mm(at, "plus", kLength, 0.0);
    if (const auto name = at.get("name")) dimension.name = name->name().value_or("");
    dimension.locked = booleanOr(at, "locked", false);
    dimension.measured = measuredOf(at);
    return dimension;
}

Dimension dimensionOf(const JsonCursor& object, std::string_view key) {
    const auto member = object.get(key);
    return member ? readDimension(*member) : Dimension{};
}

Dimension needDimension(const JsonCursor& object, std::string_view key) {
    const auto member = object.need(key, "a length");
    if (member) return readDimension(*member);
    Dimension stand_in = Dimension::of(1.0);  // its absence is reported already
    stand_in.place = pointerTo(object.place(), key);
    return stand_in;
}

Measured measuredOf(const JsonCursor& object) {
    const auto member = object.get("measured");
    if (!member) return Measured::kUnsaid;
    const auto which = member->choice({"inside", "outside", "flat"});
    return which ? static_cast<Measured>(*which + 1) : Measured::kUnsaid;
}

std::vector<OutlinePoint> readPoints(const JsonCursor& at, std::size_t most) {
    std::vector<OutlinePoint> points;
    for (const JsonCursor& item : at.items(3, most)) points.push_back(readPoint(item));
    return points;
}

Sheet readSheet(const JsonCursor& at) {
    Sheet sheet{"", 1.0, at.place(), {}, Film::kUnsaid};
    if (!at.object({"material", "thickness", "grain_deg", "film"})) return sheet;
    sheet.material = needName(at, "material");
    if (const auto thickness = at.need("thickness", "a length, or a gauge with its system"))
        sheet.thickness_mm = readThickness(*thickness);
    if (const auto grain = at.get("grain_deg")) sheet.grain_deg = grain->number({-360, 360});
    if (const auto film = at.get("film")) {
        if (const auto which = film->choice({"none", "drawn-face", "back-face", "both-faces"}))
            sheet.film = static_cast<Film>(*which + 1);
    }
    return sheet;
}

namespace {

// Only the shop's table can fail to say anything, so only it has something to fall back on.
void readMeasuredRule(const JsonCursor& at, AllowanceChoice& choice) {
    if (const auto fallback = at.get("fallback")) {
        if (const auto which = fallback->choice({"k-factor", "din-6935", "handbook"}))
            choice.fallback = static_cast<AllowanceRule>(*which);
    }
    if (const auto tool = at.get("tool")) choice.tool = tool->name().value_or("");
}

}  // namespace

AllowanceChoice readAllowance(const JsonCursor& at) {
    AllowanceChoice choice;
    if (!at.object({"rule", "k", "fallback", "tool"})) return choice;
    const auto rule = at.need("rule", "\"k-factor\", \"din-6935\", \"handbook\" or \"measured\"");
    if (!rule) return choice;
    const auto which = rule->choice({"k-factor", "din-6935", "handbook", "measured"});
    if (!which) return choice;
    choice.rule = static_cast<AllowanceRule>(*which);
    const bool measured = choice.rule == AllowanceRule::kMeasured;
    if (measured) readMeasuredRule(at, choice);
    for (const char* key : {"fallback", "tool"}) {
        if (const auto field = at.get(key); field && !measured)
            field->wrong("allowance", "this only with the rule \"measured\"");
    }
    if (choice.rule == AllowanceRule::kKFactor || choice.fallback == AllowanceRule::kKFactor) {
        choice.k = needNumber(at, "k", {0, 1});
    } else if (const auto k = at.get("k")) {
        k->wrong("allowance",
                 measured ? "\"k\" only with the fallback \"k-factor\"" : "no \"k\": this rule has its own");
    }
    return choice;
}

BasePanel readBase(const JsonCursor& at) {
    BasePanel base;
    base.place = at.place();
    if (!at.object({"name", "measured", "width", "depth", "outline"})) return base;
    base.name = needName(at, "name");
    base.measured = measuredOf(at);
    base.is_rectangle = !at.has("outline");
    if (base.is_rectangle) {
        base.width = needDimension(at, "width");
        base.depth = needDimension(at, "depth");
        return base;
    }
    if (at.has("width") || at.has("depth")) at.wrong("base", "either \"width\" and \"depth\" or an \"outline\"");
    base.outline = readPoints(*at.get("outline"), RecipeLimits::kOutlinePoints);
    return base;
}

namespace {

// The gap settles angle and radius.
void readHem(const JsonCursor& flange_at, Flange& flange) {
    const auto hem = flange_at.get("hem");
    if (!hem || !hem->object({"gap"})) return;
    flange.hem_gap_mm = needLength_mm(*hem, "gap", {0, RecipeLimits::kLargestHemGap_mm});
    for (const char* key : {"angle", "inside_radius"}) {
        if (const auto field = flange_at.get(key))
            field->wrong("flange.hem", "nothing beside \"hem\": a hem turns by 180 degrees round half its gap");
    }
}

}  // namespace

Flange readFlange(const JsonCursor& at) {
    Flange flange;
    flange.place = at.place();
    if (!at.object({"name", "on", "length", "measured", "angle", "direction", "inside_radius", "from_left",
                    "from_right", "width", "left_mitre", "right_mitre", "hem"})) {
        return flange;
    }
    flange.name = needName(at, "name");
    if (const auto on = at.need("on", "PANEL.EDGE")) flange.on = on->text(130).value_or("");
    flange.length = needDimension(at, "length");
    flange.measured = measuredOf(at);
    flange.angle_deg = numberOr(at, "angle", {0.1, 179.9}, 90, "degrees");
    if (const auto direction = at.get("direction")) flange.up = direction->choice({"up", "down"}).value_or(0) == 0;
    flange.inside_radius_mm = lengthOr_mm(at, "inside_radius", kRadius, -1);
    readHem(at, flange);
    flange.from_left = dimensionOf(at, "from_left");
    flange.from_right = dimensionOf(at, "from_right");
    flange.width = dimensionOf(at, "width");
    flange.left_mitre_deg = numberOr(at, "left_mitre", {-75, 75}, 0, "degrees");
    flange.right_mitre_deg = numberOr(at, "right_mitre", {-75, 75}, 0, "degrees");
    return flange;
}

Corner readCorner(const JsonCursor& at) {
    Corner corner;
    corner.place = at.place();
    if (!at.object({"between", "type", "over", "gap", "relief"})) return corner;
    if (const auto between = at.need("between", "two flanges")) {
        const auto pair = between->items(2, 2);
        for (std::size_t i = 0; i < pair.size(); ++i) corner.flange[i] = pair[i].name().value_or("");
    }
    if (const auto type = at.need("type", "\"butt\", \"overlap\" or \"open\"")) {
        corner.type = static_cast<CornerType>(type->choice({"butt", "overlap", "open"}).value_or(0));
    }
    if (const auto over = at.get("over")) {
        corner.over = over->name().value_or("");
        if (corner.type != CornerType::kOverlap) over->wrong("corner", "\"over\" only with type \"overlap\"");
    }
    corner.gap = corner.type == CornerType::kOpen ? needDimension(at, "gap") : dimensionOf(at, "gap");
    if (const auto relief = at.get("relief"); relief && relief->object({"shape", "size"})) {
        if (const auto shape = relief->need("shape", "\"none\", \"square\" or \"round\"")) {
            corner.relief = static_cast<ReliefShape>(shape->choice({"none", "square", "round"}).value_or(0));
        }
        if (corner.relief != ReliefShape::kNone)
            corner.relief_size = needDimension(*relief, "size");
        else if (const auto size = relief->get("size"))
            size->wrong("corner", "no size without a relief");
    }
    return corner;
}

}  // namespace tinwright
