// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/suit_subject.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/io/blank/blank_io.h>
#include <tinwright/io/dxf/dxf_io.h>
#include <tinwright/io/json/json_cursor.h>
#include <tinwright/io/json/json_reading.h>
#include <tinwright/io/recipe/recipe_edit.h>
#include <tinwright/io/recipe/recipe_io.h>

#include "files/output_file.h"
#include "files/part_file.h"

namespace tinwright::app {
namespace {

constexpr double kReachShare = 0.25;
constexpr double kLeastReach_mm = 3;
constexpr double kMostReach_mm = 25;

bool holds(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

double reach_mm(const CommandLine& line, double value_mm) {
    return line.suit.reach_mm.value_or(std::clamp(kReachShare * std::abs(value_mm), kLeastReach_mm, kMostReach_mm));
}

Result<Part> developed(Recipe recipe, const std::vector<Tweakable>& dimensions,
                       const std::vector<DimensionValue>& values) {
    for (const DimensionValue& value : values)
        findDimension(recipe, dimensions[value.dimension].name)->value_mm = value.value_mm;
    return develop(recipe);
}

Result<Part> stretchedTo(Part part, const std::vector<StretchSpan>& spans, const std::vector<DimensionValue>& values) {
    for (const DimensionValue& value : values) {
        // A stretch keeps panels and bends, but another one may have changed this length.
        const StretchSpan& drawn = spans[value.dimension];
        const std::vector<StretchSpan> now = stretchSpans(part);
        const auto same = std::find_if(now.begin(), now.end(), [&](const StretchSpan& span) {
            return span.from == drawn.from && span.to == drawn.to;
        });
        if (same == now.end()) continue;
        Result<Part> next = stretched(part, *same, value.value_mm - same->lines_mm);
        if (!next) return next;
        part = std::move(next).value();
    }
    return part;
}

}  // namespace

Result<SuitSubject> SuitSubject::read(const CommandLine& line, const Inputs& inputs) {
    SuitSubject subject;
    if (isDxfPath(line.part_path)) {
        subject.takeDrawing(line, inputs.part);
    } else {
        Result<Recipe> recipe = readRecipeFile(line.part_path);
        if (!recipe) return recipe.issues();
        recipe.value().allowance.measured = inputs.measured;
        subject.takeRecipe(line, std::move(recipe).value());
    }
    Issues issues = subject.checkNames(line);
    if (!issues.empty()) return issues;
    return subject;
}

void SuitSubject::allow(const CommandLine& line, const std::string& name, double value_mm) {
    known_.push_back(name);
    if (holds(line.suit.keep, name) || (!line.suit.only.empty() && !holds(line.suit.only, name))) return;
    const double reach = reach_mm(line, value_mm);
    tweaks_.dimensions.push_back({name, value_mm, value_mm - reach, value_mm + reach});
}

void SuitSubject::takeRecipe(const CommandLine& line, Recipe recipe) {
    static_cast<void>(resolveDimensions(recipe));  // readInputs has developed it: there is nothing wrong
    recipe_ = std::move(recipe);
    forEachDimension(static_cast<const Recipe&>(recipe_), [&](const Dimension& dimension) {
        if (dimension.name.empty() || !dimension.is.empty()) return;
        if (dimension.locked) {
            locked_.push_back(dimension.name);
        } else {
            allow(line, dimension.name, dimension.value_mm);
        }
    });
    tweaks_.with = [recipe = recipe_, dimensions = tweaks_.dimensions](const std::vector<DimensionValue>& values) {
        return developed(recipe, dimensions, values);
    };
}

void SuitSubject::takeDrawing(const CommandLine& line, const Part& part) {
    is_drawing_ = true;
    std::vector<StretchSpan> spans;
    for (const StretchSpan& span : stretchSpans(part)) {
        const std::size_t before = tweaks_.dimensions.size();
        allow(line, fmt::format("{}..{}", part.bend(span.from).name, part.bend(span.to).name), span.lines_mm);
        if (tweaks_.dimensions.size() > before) spans.push_back(span);
    }
    tweaks_.with = [part, spans](const std::vector<DimensionValue>& values) {
        return stretchedTo(part, spans, values);
    };
}

Issues SuitSubject::checkNames(const CommandLine& line) const {
    Issues issues;
    std::vector<std::string> every = known_;
    every.insert(every.end(), locked_.begin(), locked_.end());
    std::string expected = "a dimension of the part that may change:";
    for (const std::string& name : known_) expected += " " + name;
    const auto check = [&](const char* option, const std::vector<std::string>& names) {
        for (const std::string& name : names) {
            if (holds(known_, name)) continue;
            const bool locked = holds(locked_, name);
            const std::string near = locked ? "" : nearestWord(name, every);
            issues.push_back({"suit.name", "command line", option,
                              '"' + name + '"' + (locked ? ", which is locked" : ""),
                              known_.empty() ? "nothing: no dimension of the part may change" : expected,
                              near.empty() ? "" : "did you mean \"" + near + "\"?"});
        }
    };
    check("--only", line.suit.only);
    check("--keep", line.suit.keep);
    return issues;
}

std::vector<DimensionChange> SuitSubject::changes(const std::vector<DimensionValue>& values) const {
    std::vector<DimensionChange> told;
    Recipe changed = recipe_;
    for (const DimensionValue& value : values) {
        const Tweakable& dimension = tweaks_.dimensions[value.dimension];
        told.push_back({dimension.name, dimension.value_mm, value.value_mm, ""});
        if (!is_drawing_) findDimension(changed, dimension.name)->value_mm = value.value_mm;
    }
    if (is_drawing_) return told;
    static_cast<void>(resolveDimensions(changed));
    return dimensionChanges(recipe_, changed);
}

Issues SuitSubject::write(const CommandLine& line, const Suggestion& suggestion) const {
    return is_drawing_ ? writeDrawing(line, suggestion) : writeRecipe(line, suggestion);
}

Issues SuitSubject::writeRecipe(const CommandLine& line, const Suggestion& suggestion) const {
    const Result<std::string> text = readTextFile(line.part_path);
    if (!text) return text.issues();
    Recipe recipe = recipe_;
    const Dimension& dimension = *findDimension(recipe, tweaks_.dimensions[suggestion.dimension].name);
    const Result<std::string> changed = recipeTextWith(text.value(), line.part_path, dimension, suggestion.to_mm);
    if (!changed) return changed.issues();
    return writeFile(line.out_path, changed.value(), inputFiles(line));
}

Issues SuitSubject::writeDrawing(const CommandLine& line, const Suggestion& suggestion) const {
    if (!isDxfPath(line.out_path))
        return {{"suit.output", "command line", "--output", '"' + line.out_path + '"',
                 "a name that ends in .dxf: the part is a drawing", ""}};
    const Result<Part> part = tweaks_.with({{suggestion.dimension, suggestion.to_mm}});
    if (!part) return part.issues();
    Issues issues = writeFile(bendsPathFor(line.out_path), bendsJson(part.value()), inputFiles(line));
    if (!issues.empty()) return issues;
    return writeFile(line.out_path, blankDxf(drawBlank(part.value(), {bendLineMarks(part.value()), false})),
                     inputFiles(line));
}

}  // namespace tinwright::app
