// SPDX-License-Identifier: GPL-3.0-or-later
#include "recipe/recipe_tree.h"

#include <algorithm>

namespace tinwright {

std::vector<std::string> edgeNames(const Recipe& recipe, std::size_t panel) {
    if (panel != kBasePanel) return {"near", "right", "far", "left"};
    if (recipe.base.is_rectangle) return {"front", "right", "back", "left"};
    std::vector<std::string> names;
    for (const OutlinePoint& point : recipe.base.outline) {
        names.push_back(point.edge.empty() ? "e" + std::to_string(names.size()) : point.edge);
    }
    return names;
}

const std::string& panelName(const Recipe& recipe, std::size_t panel) {
    return panel == kBasePanel ? recipe.base.name : recipe.flanges[panel - 1].name;
}

std::optional<std::size_t> findPanel(const Recipe& recipe, const std::string& name) {
    for (std::size_t panel = 0; panel <= recipe.flanges.size(); ++panel) {
        if (panelName(recipe, panel) == name) return panel;
    }
    return std::nullopt;
}

std::optional<std::size_t> findEdge(const Recipe& recipe, std::size_t panel, const std::string& edge) {
    const std::vector<std::string> names = edgeNames(recipe, panel);
    const auto it = std::find(names.begin(), names.end(), edge);
    if (it == names.end()) return std::nullopt;
    return static_cast<std::size_t>(it - names.begin());
}

std::optional<EdgeRef> findEdge(const Recipe& recipe, const std::string& panel_and_edge) {
    const std::size_t dot = panel_and_edge.find('.');
    if (dot == std::string::npos) return std::nullopt;
    const auto panel = findPanel(recipe, panel_and_edge.substr(0, dot));
    if (!panel) return std::nullopt;
    const auto edge = findEdge(recipe, *panel, panel_and_edge.substr(dot + 1));
    if (!edge) return std::nullopt;
    return EdgeRef{*panel, *edge};
}

std::vector<std::size_t> RecipeTree::flangesOn(EdgeRef edge) const {
    std::vector<std::size_t> flanges;
    for (std::size_t i = 0; i < on.size(); ++i) {
        if (on[i] == edge) flanges.push_back(i);
    }
    return flanges;
}

bool RecipeTree::isUnder(std::size_t panel, std::size_t root) const {
    while (panel != root && panel != kBasePanel) panel = on[panel - 1].panel;
    return panel == root;
}

RecipeTree makeTree(const Recipe& recipe) {
    RecipeTree tree;
    for (const Flange& flange : recipe.flanges) tree.on.push_back(findEdge(recipe, flange.on).value_or(EdgeRef{}));
    std::vector<bool> placed(recipe.flanges.size() + 1, false);
    placed[kBasePanel] = true;
    for (bool grew = true; grew;) {
        grew = false;
        for (std::size_t i = 0; i < tree.on.size(); ++i) {
            if (placed[i + 1] || !placed[tree.on[i].panel]) continue;
            placed[i + 1] = grew = true;
            tree.order.push_back(i);
        }
    }
    tree.is_tree = tree.order.size() == recipe.flanges.size();
    return tree;
}

}  // namespace tinwright
