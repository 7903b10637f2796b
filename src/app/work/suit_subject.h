// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/part/flat/stretch.h>
#include <tinwright/part/recipe/recipe.h>
#include <tinwright/part/recipe/recipe_changes.h>
#include <tinwright/sequence/remedies/suit.h>

#include "files/inputs.h"
#include "options/choices.h"

namespace tinwright::app {

/// Which dimensions may change, and how far.
struct DimensionChoice {
    std::vector<std::string> only;  ///< names; empty: every one that is not locked
    std::vector<std::string> keep;
    std::optional<double> reach_mm;  ///< none: a quarter of the dimension, 3 mm at least and 25 mm at most
};

/// What `suit` may change of a part: named dimensions of a recipe, or lengths between parallel bends of a drawing.
class SuitSubject {
public:
    /// Issues: those of the files, "suit.name" for names on the command line that are no dimension that may change.
    [[nodiscard]] static Result<SuitSubject> read(const PartChoice& part, const DimensionChoice& choice,
                                                  const Inputs& inputs);

    /// A part of which metal is cut and bent: no dimension may change.
    [[nodiscard]] static SuitSubject cut(const Part& part);

    [[nodiscard]] const TweakedPart& tweaks() const { return tweaks_; }
    [[nodiscard]] const std::vector<std::string>& locked() const { return locked_; }
    /// Everything that is another length when these dimensions are changed.
    [[nodiscard]] std::vector<DimensionChange> changes(const std::vector<DimensionValue>& values) const;
    /// Writes the part with it taken to `path`, which must be none of the files read, `inputs`.
    [[nodiscard]] Issues write(const Suggestion& suggestion, const std::string& path,
                               const std::vector<std::string>& inputs) const;

private:
    SuitSubject() = default;
    void takeRecipe(const DimensionChoice& choice, Recipe recipe);
    void takeDrawing(const DimensionChoice& choice, const Part& part);
    void allow(const DimensionChoice& choice, const std::string& name, double value_mm);
    [[nodiscard]] Issues checkNames(const DimensionChoice& choice) const;
    [[nodiscard]] Issues writeRecipe(const Suggestion& suggestion, const std::string& path,
                                     const std::vector<std::string>& inputs) const;
    [[nodiscard]] Issues writeDrawing(const Suggestion& suggestion, const std::string& path,
                                      const std::vector<std::string>& inputs) const;

    std::string part_path_;
    TweakedPart tweaks_;
    std::vector<std::string> locked_;
    std::vector<std::string> known_;  // every name that a dimension has
    bool is_drawing_ = false;
    Recipe recipe_;  // as read, with its references filled in
};

}  // namespace tinwright::app
