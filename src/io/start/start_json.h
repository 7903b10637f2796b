// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <nlohmann/json.hpp>

namespace tinwright {

/// Lengths of a recipe that is written in mm or inch.
class StartJson {
public:
    using Json = nlohmann::ordered_json;
    explicit StartJson(bool inches) : inches_(inches) {}

    /// Without the last digits that going from inch to mm and back leaves behind.
    [[nodiscard]] double length(double mm) const;
    /// The same as text, for notes.
    [[nodiscard]] std::string text(double mm) const;
    [[nodiscard]] Json named(double mm, const std::string& name) const;
    /// Measured inside, and locked.
    [[nodiscard]] Json mating(double mm, const std::string& name) const;
    [[nodiscard]] static Json same(const std::string& name) { return {{"is", name}}; }

private:
    bool inches_;
};

}  // namespace tinwright
