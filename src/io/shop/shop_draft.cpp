// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/shop_draft.h"

#include <algorithm>

#include <tinwright/io/json/json_reading.h>

namespace tinwright {

namespace {

// "/bed/0" is about the field "bed".
std::string fieldOf(const std::string& pointer) {
    return pointer.empty() ? "" : pointer.substr(1, pointer.find('/', 1) - 1);
}

bool pointsInto(const nlohmann::json& object, const std::string& pointer) {
    if (pointer.size() < 2 || pointer[0] != '/') return false;
    try {
        return object.contains(nlohmann::json::json_pointer(pointer));
    } catch (const nlohmann::json::exception&) {  // not a pointer at all
        return false;
    }
}

}  // namespace

void GivenFields::give(std::string_view field, const JsonCursor& at, bool good) {
    fields_.insert_or_assign(std::string(field), Given{at, good});
    const auto about = [&](const std::string& pointer) { return fieldOf(pointer) == field; };
    uncertain_.erase(std::remove_if(uncertain_.begin(), uncertain_.end(), about), uncertain_.end());
}

bool GivenFields::good(std::string_view field) const {
    const auto found = fields_.find(std::string(field));
    return found != fields_.end() && found->second.good;
}

void GivenFields::wrong(std::string_view field, std::string_view what, std::string expected, std::string hint) const {
    const auto found = fields_.find(std::string(field));
    if (found != fields_.end()) {
        found->second.at.wrong(what, std::move(expected), std::move(hint));
    } else {
        whole_->context().report(pointerTo(whole_->place(), field), what, "nothing", std::move(expected),
                                 std::move(hint));
    }
}

void GivenFields::readUncertain(const JsonCursor& object) {
    const std::optional<JsonCursor> list = object.get("uncertain");
    if (!list) return;
    for (const JsonCursor& item : list->items(0, 100)) {
        const std::optional<std::string> pointer = item.text();
        if (!pointer) continue;
        if (pointsInto(object.json(), *pointer)) {
            uncertain_.push_back(*pointer);
        } else {
            item.wrong("uncertain", "a JSON pointer to a field that stands beside it, like \"/height\"");
        }
    }
}

void takeLength(const JsonCursor& object, std::string_view field, GivenFields& given, Range range_mm, double& into) {
    takeField(object, field, given, into, [&](const JsonCursor& at) { return at.length_mm(range_mm); });
}

void takeNumber(const JsonCursor& object, std::string_view field, GivenFields& given, Range range,
                std::string_view unit, double& into) {
    takeField(object, field, given, into, [&](const JsonCursor& at) { return at.number(range, unit); });
}

void takeFlag(const JsonCursor& object, std::string_view field, GivenFields& given, bool& into) {
    takeField(object, field, given, into, [](const JsonCursor& at) { return at.boolean(); });
}

std::optional<Polygon> readPolygon(const JsonCursor& at) {
    Polygon polygon;
    const std::vector<JsonCursor> points = at.items(3, 200);
    for (const JsonCursor& item : points) {
        const std::vector<JsonCursor> pair = item.items(2, 2);
        if (pair.size() != 2) continue;
        const std::optional<double> y_mm = pair[0].length_mm(kPlace_mm);
        const std::optional<double> z_mm = pair[1].length_mm(kPlace_mm);
        if (y_mm && z_mm) polygon.emplace_back(*y_mm, *z_mm);
    }
    if (polygon.empty() || polygon.size() != points.size()) return std::nullopt;
    if (signedArea_mm2(polygon) < 0) std::reverse(polygon.begin(), polygon.end());
    return polygon;
}

void needFields(const BrakeDraft& draft, std::initializer_list<std::pair<const char*, const char*>> needed) {
    const GivenFields& given = draft.given;
    // When its tooling file could not be read, what is missing here is not the user's slip.
    if (given.has("tooling") && !given.good("tooling")) return;
    for (const auto& [field, expected] : needed) {
        if (!given.has(field)) given.wrong(field, "missing", expected, "or a \"tooling\" file that says it");
    }
}

}  // namespace tinwright
