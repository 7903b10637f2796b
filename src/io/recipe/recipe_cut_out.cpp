// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/io/json/json_reading.h>

#include "recipe/recipe_fields.h"

namespace tinwright {

namespace {

CutOutPlace readCutOutPlace(const JsonCursor& at) {
    CutOutPlace place;
    place.place = at.place();
    if (!at.object({"from", "datum", "distance", "to"})) return place;
    place.edge = needName(at, "from");
    if (const auto datum = at.need("datum", "\"inside\", \"outside\", \"edge\" or \"blank\"")) {
        place.datum = static_cast<Datum>(datum->choice({"inside", "outside", "edge", "blank"}).value_or(2));
    }
    place.distance = needDimension(at, "distance");
    if (const auto to = at.get("to"))
        place.to = static_cast<To>(to->choice({"centre", "near-side", "far-side"}).value_or(0));
    return place;
}

// Fields of size that a shape does not have.
void refuse(const JsonCursor& at, std::initializer_list<std::string_view> keys) {
    for (const std::string_view key : keys) {
        if (const auto member = at.get(key)) member->wrong("cut-out.size", "no such field for this shape");
    }
}

void readSize(const JsonCursor& at, CutOut& cut) {
    switch (cut.shape) {
        case CutOutShape::kCircle:
            cut.diameter = needDimension(at, "diameter");
            return refuse(at, {"width", "height", "points"});
        case CutOutShape::kRectangle:
        case CutOutShape::kSlot:
            cut.width = needDimension(at, "width");
            cut.height = needDimension(at, "height");
            return refuse(at, {"diameter", "points"});
        case CutOutShape::kPolygon:
            if (const auto points = at.need("points", "a list of points"))
                cut.points = readPoints(*points, RecipeLimits::kCutOutPoints);
            return refuse(at, {"width", "height", "diameter"});
    }
}

}  // namespace

CutOut readCutOut(const JsonCursor& at) {
    CutOut cut;
    cut.place = at.place();
    if (!at.object({"name", "on", "shape", "width", "height", "diameter", "points", "turn", "at", "notch"})) return cut;
    if (const auto name = at.get("name")) cut.name = name->name().value_or("");
    cut.on = needName(at, "on");
    if (const auto shape = at.need("shape", "\"rectangle\", \"circle\", \"slot\" or \"polygon\"")) {
        if (const auto which = shape->choice({"rectangle", "circle", "slot", "polygon"})) {
            cut.shape = static_cast<CutOutShape>(*which);
            readSize(at, cut);
        }
    }
    cut.turn_deg = numberOr(at, "turn", {-360, 360}, 0, "degrees");
    cut.notch = booleanOr(at, "notch", false);
    if (const auto where = at.need("at", "two distances from edges that cross")) {
        const auto pair = where->items(2, 2);
        for (std::size_t i = 0; i < pair.size(); ++i) cut.at[i] = readCutOutPlace(pair[i]);
    }
    return cut;
}

}  // namespace tinwright
