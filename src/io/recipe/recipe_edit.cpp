// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/io/recipe/recipe_edit.h>

#include <cmath>

#include <nlohmann/json.hpp>

#include <tinwright/base/units.h>

namespace tinwright {

namespace {

// As a person writes it: no digits that come from binary fractions.
double tidy(double value) { return std::round(value * 1e6) / 1e6; }

}  // namespace

Result<std::string> recipeTextWith(std::string_view text, const std::string& file, const Dimension& dimension,
                                   double value_mm) {
    using Json = nlohmann::ordered_json;
    const Issue lost{
        "recipe.edit", file, dimension.place, "no length there", "the dimension that was read from there", ""};
    Json document = Json::parse(text, nullptr, false);
    if (document.is_discarded() || !dimension.is.empty()) return lost;
    const Json::json_pointer where(dimension.place);
    if (!document.contains(where)) return lost;
    Json& found = document[where];
    Json& number = found.is_object() ? found["value"] : found;
    if (!number.is_number()) return lost;
    const bool inches = document.value("units", "mm") == "in";
    const double value = tidy(inches ? value_mm / kMmPerInch : value_mm);
    if (value == std::floor(value)) {
        number = static_cast<long long>(value);
    } else {
        number = value;
    }
    return document.dump(2) + "\n";
}

}  // namespace tinwright
