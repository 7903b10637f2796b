// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include <tinwright/io/json/json_cursor.h>
#include <tinwright/io/json/json_reading.h>
#include <tinwright/io/shop/strips_io.h>
#include <tinwright/part/recipe/recipe.h>

namespace tinwright {

namespace {

constexpr std::size_t kMostStrips = 1000;
constexpr Range kLength_mm{0, RecipeLimits::kLongest_mm, true, false};

TestStrip readStrip(const JsonCursor& at) {
    TestStrip strip;
    strip.place = at.place();
    if (!at.object({"material", "tool", "thickness", "inside_radius", "angle_deg", "flat", "legs", "measured", "date",
                    "note"}))
        return strip;
    const std::size_t before = at.context().issues.size();
    strip.material = needName(at, "material");
    if (const auto tool = at.get("tool")) strip.tool = tool->name().value_or("");
    strip.thickness_mm = needLength_mm(at, "thickness", {RecipeLimits::kThinnest_mm, RecipeLimits::kThickest_mm});
    strip.inside_radius_mm = needLength_mm(at, "inside_radius", {0, RecipeLimits::kLargestRadius_mm});
    strip.angle = Angle::degrees(numberOr(at, "angle_deg", {0.1, 179.9}, 90, "degrees"));
    strip.flat_mm = needLength_mm(at, "flat", kLength_mm);
    if (const auto legs = at.need("legs", "two lengths")) {
        const auto pair = legs->items(2, 2);
        for (std::size_t i = 0; i < pair.size(); ++i) strip.legs_mm[i] = pair[i].length_mm(kLength_mm).value_or(0);
    }
    if (const auto measured = at.get("measured"))
        strip.legs_to = measured->choice({"outside", "inside"}).value_or(0) == 0 ? Face::kOutside : Face::kInside;
    strip.date = textOr(at, "date", "");
    static_cast<void>(textOr(at, "note", ""));
    if (at.context().issues.size() == before) {
        for (const Issue& issue : checkStrip(strip)) at.report("length", issue.found, issue.expected, issue.hint);
    }
    return strip;
}

StripsFile readFields(const JsonCursor& document) {
    StripsFile file;
    if (!document.object({"format", "units", "note", "measuring_error", "strips"})) return file;
    readHeader(document, kStripsFormat);
    static_cast<void>(textOr(document, "note", ""));
    file.measuring_error_mm = lengthOr_mm(document, "measuring_error", {0, 10}, kMeasuringError_mm);
    if (const auto list = document.need("strips", "a list of test strips")) {
        for (const JsonCursor& item : list->items(1, kMostStrips)) file.strips.push_back(readStrip(item));
    }
    return file;
}

}  // namespace

// Each leg has flat sheet next to the bend, and together they are a bit more than the strip: all else is a slip of the
// pen.
Issues checkStrip(const TestStrip& strip) {
    const double setback = setback_mm(strip.legs_to, strip.angle, strip.inside_radius_mm, strip.thickness_mm);
    for (const double leg : strip.legs_mm) {
        if (leg <= setback) {
            return {{"strips.length", "", strip.place, fmt::format("a leg of {:.4g} mm", leg),
                     fmt::format("more than the {:.4g} mm that the bend itself takes of it", setback), ""}};
        }
    }
    const double flat_left = strip.legs_mm[0] + strip.legs_mm[1] - 2 * setback;
    if (strip.flat_mm > flat_left) return {};
    return {{"strips.length", "", strip.place, fmt::format("a flat length of {:.4g} mm", strip.flat_mm),
             fmt::format("more than the {:.4g} mm of its legs that stay flat", flat_left),
             "are the legs measured over the outside or the inside faces?"}};
}

Result<StripsFile> readStrips(std::string_view text, const std::string& file) {
    const Result<nlohmann::json> document = parseJson(text, file);
    if (!document) return document.issues();
    ReadContext context{.file = file, .code = "strips", .mm_per_unit = 1.0, .issues = {}};
    StripsFile strips = readFields(JsonCursor(document.value(), "", context));
    if (!context.issues.empty()) return std::move(context.issues);
    return strips;
}

}  // namespace tinwright
