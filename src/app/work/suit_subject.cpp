// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/suit_subject.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/base/holds.h>
#include <tinwright/base/words.h>
#include <tinwright/io/blank/blank_io.h>
#include <tinwright/io/dxf/dxf_io.h>
#include <tinwright/io/json/json_reading.h>
#include <tinwright/io/recipe/recipe_edit.h>
#include <tinwright/io/recipe/recipe_io.h>

#include "console/complain.h"
#include "files/output_file.h"
#include "files/part_file.h"

namespace tinwright::app {
namespace {

constexpr double kReachShare = 0.25;
constexpr double kLeastReach_mm = 3;
constexpr double kMostReach_mm = 25;

double reach_mm(const DimensionChoice& choice, double value_mm) {
    return choice.reach_mm.value_or(std::clamp(kReachShare * std::abs(value_mm), kLeastReach_mm, kMostReach_mm));
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

Result<SuitSubject> SuitSubject::read(const PartChoice& part, const DimensionChoice& choice, const Inputs& inputs) {
    SuitSubject subject;
    subject.part_path_ = part.path;
    if (isDxfPath(part.path)) {
        subject.takeDrawing(choice, inputs.part);
    } else {
        Result<Recipe> recipe = readRecipeFile(part.path);
        if (!recipe) return recipe.issues();
        recipe.value().allowance.measured = inputs.measured;
        subject.takeRecipe(choice, std::move(recipe).value());
    }
    Issues issues = subject.checkNames(choice);
    if (!issues.empty()) return issues;
    return subject;
}

SuitSubject SuitSubject::cut(const Part& part) {
    SuitSubject subject;
    subject.is_drawing_ = true;  // its blank is what it is
    subject.tweaks_.with = [part](const std::vector<DimensionValue>&) { return Result<Part>(part); };
    return subject;
}

void SuitSubject::allow(const DimensionChoice& choice, const std::string& name, double value_mm) {
    known_.push_back(name);
    if (holds(choice.keep, name) || (!choice.only.empty() && !holds(choice.only, name))) return;
    const double reach = reach_mm(choice, value_mm);
    tweaks_.dimensions.push_back({name, value_mm, value_mm - reach, value_mm + reach});
}

void SuitSubject::takeRecipe(const DimensionChoice& choice, Recipe recipe) {
    static_cast<void>(resolveDimensions(recipe));  // readInputs has developed it: there is nothing wrong
    recipe_ = std::move(recipe);
    forEachDimension(static_cast<const Recipe&>(recipe_), [&](const Dimension& dimension) {
        if (dimension.name.empty() || !dimension.is.empty()) return;
        if (dimension.locked) {
            locked_.push_back(dimension.name);
        } else {
            allow(choice, dimension.name, dimension.value_mm);
        }
    });
    tweaks_.with = [recipe = recipe_, dimensions = tweaks_.dimensions](const std::vector<DimensionValue>& values) {
        return developed(recipe, dimensions, values);
    };
}

void SuitSubject::takeDrawing(const DimensionChoice& choice, const Part& part) {
    is_drawing_ = true;
    std::vector<StretchSpan> spans;
    for (const StretchSpan& span : stretchSpans(part)) {
        const std::size_t before = tweaks_.dimensions.size();
        allow(choice, fmt::format("{}..{}", part.bend(span.from).name, part.bend(span.to).name), span.lines_mm);
        if (tweaks_.dimensions.size() > before) spans.push_back(span);
    }
    tweaks_.with = [part, spans](const std::vector<DimensionValue>& values) {
        return stretchedTo(part, spans, values);
    };
}

Issues SuitSubject::checkNames(const DimensionChoice& choice) const {
    Issues issues;
    std::vector<std::string> every = known_;
    every.insert(every.end(), locked_.begin(), locked_.end());
    std::string expected = "a dimension of the part that may change:";
    for (const std::string& name : known_) expected += " " + name;
    const auto check = [&](const char* option, const std::vector<std::string>& names) {
        for (const std::string& name : names) {
            if (holds(known_, name)) continue;
            const bool locked = holds(locked_, name);
            const std::string hint = locked ? "" : didYouMean(name, every);
            issues.push_back({"suit.name", "command line", option,
                              '"' + name + '"' + (locked ? ", which is locked" : ""),
                              known_.empty() ? "nothing: no dimension of the part may change" : expected, hint});
        }
    };
    check("--only", choice.only);
    check("--keep", choice.keep);
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

Issues SuitSubject::write(const Suggestion& suggestion, const std::string& path,
                          const std::vector<std::string>& inputs) const {
    return is_drawing_ ? writeDrawing(suggestion, path, inputs) : writeRecipe(suggestion, path, inputs);
}

Issues SuitSubject::writeRecipe(const Suggestion& suggestion, const std::string& path,
                                const std::vector<std::string>& inputs) const {
    const Result<std::string> text = readTextFile(part_path_);
    if (!text) return text.issues();
    Recipe recipe = recipe_;
    const Dimension& dimension = *findDimension(recipe, tweaks_.dimensions[suggestion.dimension].name);
    const Result<std::string> changed = recipeTextWith(text.value(), part_path_, dimension, suggestion.to_mm);
    if (!changed) return changed.issues();
    return writeFile(path, changed.value(), inputs);
}

Issues SuitSubject::writeDrawing(const Suggestion& suggestion, const std::string& path,
                                 const std::vector<std::string>& inputs) const {
    if (!isDxfPath(path))
        return {{"suit.output", "command line", "--output", '"' + path + '"',
                 "a name that ends in .dxf: the part is a drawing", ""}};
    const Result<Part> part = tweaks_.with({{suggestion.dimension, suggestion.to_mm}});
    if (!part) return part.issues();
    Issues issues = writeFile(bendsPathFor(path), bendsJson(part.value()), inputs);
    if (!issues.empty()) return issues;
    return writeFile(path, blankDxf(drawBlank(part.value(), {bendLineMarks(part.value()), false})), inputs);
}

}  // namespace tinwright::app
