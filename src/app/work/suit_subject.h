// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/part/flat/stretch.h>
#include <tinwright/part/recipe/recipe.h>
#include <tinwright/part/recipe/recipe_changes.h>
#include <tinwright/sequence/remedies/suit.h>

#include "files/inputs.h"
#include "options/command_line.h"

namespace tinwright::app {

/// What `suit` may change of a part: named dimensions of a recipe, or lengths between parallel bends of a drawing.
class SuitSubject {
public:
    /// Issues: those of the files, "suit.name" for names on the command line that are no dimension that may change.
    [[nodiscard]] static Result<SuitSubject> read(const CommandLine& line, const Inputs& inputs);

    [[nodiscard]] const TweakedPart& tweaks() const { return tweaks_; }
    [[nodiscard]] const std::vector<std::string>& locked() const { return locked_; }
    /// Everything that is another length when these dimensions are changed.
    [[nodiscard]] std::vector<DimensionChange> changes(const std::vector<DimensionValue>& values) const;
    /// Writes the changed part.
    [[nodiscard]] Issues write(const CommandLine& line, const Suggestion& suggestion) const;

private:
    SuitSubject() = default;
    void takeRecipe(const CommandLine& line, Recipe recipe);
    void takeDrawing(const CommandLine& line, const Part& part);
    void allow(const CommandLine& line, const std::string& name, double value_mm);
    [[nodiscard]] Issues checkNames(const CommandLine& line) const;
    [[nodiscard]] Issues writeRecipe(const CommandLine& line, const Suggestion& suggestion) const;
    [[nodiscard]] Issues writeDrawing(const CommandLine& line, const Suggestion& suggestion) const;

    TweakedPart tweaks_;
    std::vector<std::string> locked_;
    std::vector<std::string> known_;  // every name that a dimension has
    bool is_drawing_ = false;
    Recipe recipe_;  // as read, with its references filled in
};

}  // namespace tinwright::app
