// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/io/start/start_part.h>

#include <string_view>

#include <tinwright/io/recipe/recipe_io.h>

#include "start/start_parts.h"

namespace tinwright {

namespace {

OrderedJson recipeOf(const StartDraft& draft) {
    const StartChoice& choice = draft.choice;
    OrderedJson file;
    file["format"] = kPartFormat;
    file["units"] = choice.inches ? "in" : "mm";
    file["name"] = choice.name.empty() ? std::string(toText(choice.shape)) : choice.name;
    file["notes"] = startNotes(draft);
    file["sheet"] = {{"material", choice.material}, {"thickness", draft.json.length(draft.sizes.thickness_mm)}};
    file["allowance"] = {{"rule", "k-factor"}, {"k", draft.sizes.k}};
    file["inside_radius"] = draft.json.length(draft.sizes.radius_mm);
    // A wall with something turned out at its end is measured over all; the base says for itself that it is measured
    // inside.
    file["measured"] = draft.sizes.far == FarEdge::kTurnedOut ? "outside" : "inside";
    file["base"] = startBase(draft);
    file["flanges"] = startFlanges(draft);
    if (OrderedJson corners = startCorners(draft); !corners.empty()) file["corners"] = std::move(corners);
    if (OrderedJson cut_outs = startCutOuts(draft); !cut_outs.empty()) file["cut_outs"] = std::move(cut_outs);
    return file;
}

// The writer throws at other bytes.
void checkText(const std::string& text, const char* word, Issues& issues) {
    try {
        static_cast<void>(OrderedJson(text).dump());
    } catch (const OrderedJson::type_error&) {
        issues.push_back({"start.text", "", word, "bytes that are not UTF-8", "text in UTF-8", ""});
    }
}

// Names are judged by the reader of recipes alone; what else it finds is told with its place in the recipe.
Issues told(Issues issues) {
    for (Issue& issue : issues) {
        issue.file.clear();
        if (issue.place == "/name")
            issue.place = "name";
        else if (issue.place == "/sheet/material")
            issue.place = "material";
    }
    return issues;
}

}  // namespace

Result<std::string> startPart(const StartChoice& choice) {
    Issues issues = checkStart(choice);
    checkText(choice.name, "name", issues);
    checkText(choice.material, "material", issues);
    if (!issues.empty()) return issues;
    const StartSizes sizes = startSizes(choice);
    const OrderedJson file = recipeOf({choice, sizes, StartJson(choice.inches)});
    std::string text = file.dump(2) + "\n";
    const Result<Recipe> recipe = readRecipe(text, "recipe");
    if (!recipe) return told(recipe.issues());
    const Result<Part> part = develop(recipe.value());
    if (!part) return told(part.issues());
    return text;
}

}  // namespace tinwright
