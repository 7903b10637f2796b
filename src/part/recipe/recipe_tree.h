// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/part/recipe/recipe.h>

namespace tinwright {

/// Panel 0 is the base, panel i + 1 is flanges[i].
inline constexpr std::size_t kBasePanel = 0;
inline constexpr std::size_t kNearEdge = 0;  ///< of a flange: its bend

/// One edge of one panel: edge e runs from outline corner e to the next one.
struct EdgeRef {
    std::size_t panel = 0;
    std::size_t edge = 0;
    friend bool operator==(const EdgeRef&, const EdgeRef&) = default;
};

/// The names of a panel's edges round its outline. A flange: "near", "right", "far", "left".
[[nodiscard]] std::vector<std::string> edgeNames(const Recipe& recipe, std::size_t panel);
[[nodiscard]] const std::string& panelName(const Recipe& recipe, std::size_t panel);
[[nodiscard]] std::optional<std::size_t> findPanel(const Recipe& recipe, const std::string& name);
[[nodiscard]] std::optional<std::size_t> findEdge(const Recipe& recipe, std::size_t panel, const std::string& edge);
/// "panel.edge"; nothing when there is no such edge.
[[nodiscard]] std::optional<EdgeRef> findEdge(const Recipe& recipe, const std::string& panel_and_edge);

/// Who hangs on whom. Made only from recipes whose references are right.
struct RecipeTree {
    std::vector<EdgeRef> on;         ///< by flange
    std::vector<std::size_t> order;  ///< flanges, parents before children, else as in the recipe
    bool is_tree = true;             ///< false: some flanges hang on one another in a ring; `order` leaves them out

    /// Flanges on an edge, in the recipe's order.
    [[nodiscard]] std::vector<std::size_t> flangesOn(EdgeRef edge) const;
    /// True when `panel` is `root` or hangs on it.
    [[nodiscard]] bool isUnder(std::size_t panel, std::size_t root) const;
};
[[nodiscard]] RecipeTree makeTree(const Recipe& recipe);

}  // namespace tinwright
