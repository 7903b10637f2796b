// SPDX-License-Identifier: GPL-3.0-or-later
#include "dxf/bends_file.h"

#include <tinwright/base/units.h>

#include <tinwright/io/dxf/dxf_io.h>
#include <tinwright/io/json/json_reading.h>
#include <nlohmann/json.hpp>

#include "recipe/recipe_fields.h"

namespace tinwright {

namespace {

constexpr double kLargestGap_mm = 1.0;
constexpr std::size_t kMostLayers = 200;
constexpr std::size_t kMostEntries = 64;
constexpr std::size_t kMostLines = 200;
constexpr Range kPlace{-RecipeLimits::kLongest_mm, RecipeLimits::kLongest_mm};

std::optional<double> lengthOf(const JsonCursor& at, std::string_view key, Range range_mm) {
    const auto member = at.get(key);
    return member ? member->length_mm(range_mm) : std::nullopt;
}

std::optional<Vec2> readPlace(const JsonCursor& at) {
    const auto pair = at.items(2, 2);
    if (pair.size() != 2) return std::nullopt;
    const auto x = pair[0].length_mm(kPlace), y = pair[1].length_mm(kPlace);
    return x && y ? std::optional(Vec2(*x, *y)) : std::nullopt;
}

BendSaid readSaid(const JsonCursor& at) {
    BendSaid said;
    if (const auto angle = at.get("angle")) said.angle_deg = angle->number({0.1, 179.9}, "degrees");
    if (const auto direction = at.get("direction")) {
        if (const auto which = direction->choice({"up", "down"})) said.up = *which == 0;
    }
    said.inside_radius_mm = lengthOf(at, "inside_radius", {0, RecipeLimits::kLargestRadius_mm});
    if (const auto hem = at.get("hem"); hem && hem->object({"gap"})) {
        for (const char* key : {"angle", "inside_radius"}) {
            if (const auto field = at.get(key))
                field->wrong("hem", "nothing beside \"hem\": a hem turns by 180 degrees round half its gap");
        }
        said.angle_deg = 180;
        said.inside_radius_mm = 0.5 * needLength_mm(*hem, "gap", {0, RecipeLimits::kLargestHemGap_mm});
    }
    said.allowance_mm = lengthOf(at, "allowance", {0, RecipeLimits::kLargestRadius_mm, true, false});
    return said;
}

BendEntry readEntry(const JsonCursor& at) {
    BendEntry entry;
    entry.place = at.place();
    if (!at.object({"name", "at", "lines", "angle", "direction", "inside_radius", "allowance", "hem"})) return entry;
    if (const auto name = at.get("name")) entry.name = name->name().value_or("");
    entry.said = readSaid(at);
    if (at.has("at") == at.has("lines")) at.wrong("entry", "either \"at\", a point near the bend line, or \"lines\"");
    if (const auto point = at.get("at")) entry.at = readPlace(*point);
    if (const auto lines = at.get("lines")) {
        for (const JsonCursor& line : lines->items(1, kMostLines)) {
            const auto ends = line.items(2, 2);
            if (ends.size() != 2) continue;
            const auto from = readPlace(ends[0]), to = readPlace(ends[1]);
            if (from && to) entry.lines.push_back({*from, *to});
        }
    }
    return entry;
}

std::vector<std::string> readNames(const JsonCursor& object, std::string_view key) {
    std::vector<std::string> names;
    const auto list = object.get(key);
    if (!list) return names;
    for (const JsonCursor& item : list->items(0, kMostLayers)) {
        if (const auto name = item.text()) names.push_back(*name);
    }
    return names;
}

void readLayers(const JsonCursor& document, LayerRules& rules) {
    const auto layers = document.get("layers");
    if (!layers || !layers->object({"cut", "bend", "ignore", "bend_line_types"})) return;
    rules.cut = readNames(*layers, "cut");
    rules.bend = readNames(*layers, "bend");
    rules.ignored = readNames(*layers, "ignore");
    rules.bend_line_types = readNames(*layers, "bend_line_types");
}

BendsFile readBendsFields(const JsonCursor& document, const std::string& file) {
    BendsFile bends;
    bends.file = file;
    if (!document.object({"format", "units", "name", "notes", "drawing_units", "sheet", "allowance", "inside_radius",
                          "close_gaps", "base", "default", "layers", "bends"})) {
        return bends;
    }
    readHeader(document, kBendsFormat);
    bends.name = textOr(document, "name", "");
    if (const auto notes = document.get("notes")) static_cast<void>(notes->text(2000));
    if (const auto units = document.get("drawing_units")) {
        if (const auto which = units->choice({"mm", "in"})) bends.mm_per_drawing_unit = *which == 0 ? 1.0 : kMmPerInch;
    }
    if (const auto sheet = document.need("sheet", "\"material\" and \"thickness\"")) bends.sheet = readSheet(*sheet);
    if (const auto allowance = document.need("allowance", "a rule")) bends.allowance = readAllowance(*allowance);
    if (const auto standard = document.get("default");
        standard && standard->object({"angle", "direction", "inside_radius", "allowance"})) {
        bends.standard = readSaid(*standard);
    }
    const double radius_mm = needLength_mm(document, "inside_radius", {0, RecipeLimits::kLargestRadius_mm});
    if (!bends.standard.inside_radius_mm) bends.standard.inside_radius_mm = radius_mm;
    bends.gap_mm = lengthOr_mm(document, "close_gaps", {0, kLargestGap_mm}, bends.gap_mm);
    if (const auto base = document.get("base"); base && base->object({"name", "at"})) {
        if (const auto name = base->get("name")) bends.base_name = name->name().value_or("base");
        if (const auto at = base->get("at")) bends.base_at = readPlace(*at);
    }
    readLayers(document, bends.layers);
    if (const auto list = document.get("bends")) {
        for (const JsonCursor& item : list->items(0, kMostEntries)) bends.bends.push_back(readEntry(item));
    }
    return bends;
}

}  // namespace

Result<BendsFile> readBendsFile(std::string_view text, const std::string& file) {
    const Result<nlohmann::json> document = parseJson(text, file);
    if (!document) return document.issues();
    ReadContext context{.file = file, .code = "bends", .mm_per_unit = 1.0, .issues = {}};
    BendsFile bends = readBendsFields(JsonCursor(document.value(), "", context), file);
    if (!context.issues.empty()) return std::move(context.issues);
    return bends;
}

}  // namespace tinwright
