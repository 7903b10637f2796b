// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/io/recipe/recipe_io.h>

#include <algorithm>

#include <nlohmann/json.hpp>

#include <tinwright/io/json/json_reading.h>

#include "recipe/recipe_fields.h"

namespace tinwright {

namespace {

template <class Item, class Read>
std::vector<Item> readList(const JsonCursor& document, std::string_view key, std::size_t most, const Read& read) {
    std::vector<Item> list;
    if (const auto member = document.get(key)) {
        for (const JsonCursor& item : member->items(0, most)) list.push_back(read(item));
    }
    return list;
}

Recipe readRecipeFields(const JsonCursor& document, const std::string& file) {
    Recipe recipe;
    recipe.file = file;
    recipe.sheet.place = "/sheet";
    recipe.base.place = "/base";
    if (!document.object({"format", "units", "name", "notes", "sheet", "allowance", "inside_radius", "measured", "base",
                          "flanges", "corners", "cut_outs"})) {
        return recipe;
    }
    readHeader(document, kPartFormat);
    recipe.name = needText(document, "name");
    if (const auto notes = document.get("notes")) static_cast<void>(notes->text(2000));
    if (const auto sheet = document.need("sheet", "\"material\" and \"thickness\"")) recipe.sheet = readSheet(*sheet);
    if (const auto allowance = document.need("allowance", "a rule")) recipe.allowance = readAllowance(*allowance);
    recipe.inside_radius_mm = needLength_mm(document, "inside_radius", {0, RecipeLimits::kLargestRadius_mm});
    recipe.measured = measuredOf(document);
    if (const auto base = document.need("base", "the base panel")) recipe.base = readBase(*base);
    recipe.flanges = readList<Flange>(document, "flanges", RecipeLimits::kFlanges, readFlange);
    recipe.corners = readList<Corner>(document, "corners", 2 * RecipeLimits::kFlanges, readCorner);
    recipe.cut_outs = readList<CutOut>(document, "cut_outs", RecipeLimits::kCutOuts, readCutOut);
    return recipe;
}

// What is wrong with a value that the fields' own checks have reported already is not said again.
bool isSaid(const Issue& issue, const Issues& said) {
    return std::any_of(said.begin(), said.end(), [&](const Issue& other) {
        return isAtOrAbove(other.place, issue.place) || isAtOrAbove(issue.place, other.place);
    });
}

}  // namespace

Result<Recipe> readRecipe(std::string_view text, const std::string& file) {
    const Result<nlohmann::json> document = parseJson(text, file);
    if (!document) return document.issues();
    ReadContext context{.file = file, .code = "recipe", .mm_per_unit = 1.0, .issues = {}};
    Recipe recipe = readRecipeFields(JsonCursor(document.value(), "", context), file);
    const Issues of_fields = context.issues;
    for (Issue& issue : resolveDimensions(recipe)) context.issues.push_back(std::move(issue));
    for (Issue& issue : checkRecipe(recipe)) {
        if (!isSaid(issue, of_fields)) context.issues.push_back(std::move(issue));
    }
    if (!context.issues.empty()) return std::move(context.issues);
    return recipe;
}

Result<Recipe> readRecipeFile(const std::string& path) {
    const Result<std::string> text = readTextFile(path);
    if (!text) return text.issues();
    return readRecipe(text.value(), path);
}

Result<Part> readPartFile(const std::string& path, const std::shared_ptr<const MeasuredBends>& measured) {
    Result<Recipe> recipe = readRecipeFile(path);
    if (!recipe) return recipe.issues();
    recipe.value().allowance.measured = measured;
    return develop(recipe.value());
}

}  // namespace tinwright
