// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/recipe/recipe.h>

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <type_traits>

namespace tinwright {

namespace {

// One walk for the const and the other: R is Recipe or const Recipe.
template <class R, class Visit>
void walk(R& recipe, const Visit& visit) {
    const auto one = [&](auto& dimension) {
        if (dimension.given) visit(dimension);
    };
    one(recipe.base.width);
    one(recipe.base.depth);
    for (auto& point : recipe.base.outline) one(point.x), one(point.y);
    for (auto& flange : recipe.flanges)
        one(flange.length), one(flange.from_left), one(flange.from_right), one(flange.width);
    for (auto& corner : recipe.corners) one(corner.gap), one(corner.relief_size);
    for (auto& cut : recipe.cut_outs) {
        one(cut.width), one(cut.height), one(cut.diameter);
        for (auto& point : cut.points) one(point.x), one(point.y);
        for (auto& at : cut.at) one(at.distance);
    }
}

class Resolver {
public:
    explicit Resolver(Recipe& recipe) : file_(recipe.file) {
        walk(recipe, [&](Dimension& dimension) { addName(dimension); });
        walk(recipe, [&](Dimension& dimension) { resolve(dimension); });
    }
    Issues issues;

private:
    void addName(Dimension& dimension) {
        if (dimension.name.empty()) return;
        const auto [it, added] = byName_.emplace(dimension.name, &dimension);
        if (!added) {
            issues.push_back(
                {"recipe.dimension.duplicate", file_, dimension.place,
                 "a second dimension named \"" + dimension.name + "\"", "each name once",
                 "the first is at " + it->second->place + "; say {\"is\": \"" + dimension.name + "\"} to repeat it"});
        }
    }

    // Follows the chain of references to a value; a chain longer than there are names runs in a ring.
    void resolve(Dimension& dimension) {
        double value = 0;
        const Dimension* at = &dimension;
        for (std::size_t steps = 0; !at->is.empty(); ++steps) {
            value += at->plus_mm;
            const auto next = byName_.find(at->is);
            if (next == byName_.end()) return unknown(dimension, at->is);
            if (steps > byName_.size()) return cycle(dimension);
            at = next->second;
        }
        value += at->value_mm;
        if (&dimension != at) dimension.value_mm = value;
        if (!(std::abs(value) <= RecipeLimits::kLongest_mm)) {
            issues.push_back({"recipe.dimension.range", file_, dimension.place, fmt::format("{} mm", value),
                              fmt::format("at most {} mm", RecipeLimits::kLongest_mm), ""});
        }
    }

    void unknown(const Dimension& dimension, const std::string& name) {
        issues.push_back({"recipe.dimension.unknown", file_, dimension.place, "a reference to \"" + name + "\"",
                          "the name of a dimension of this recipe", ""});
    }
    void cycle(const Dimension& dimension) {
        issues.push_back({"recipe.dimension.cycle", file_, dimension.place, "references that lead back to themselves",
                          "a chain that ends at a value", ""});
    }

    std::string file_;
    std::map<std::string, Dimension*> byName_;
};

}  // namespace

void forEachDimension(Recipe& recipe, const std::function<void(Dimension&)>& visit) { walk(recipe, visit); }

void forEachDimension(const Recipe& recipe, const std::function<void(const Dimension&)>& visit) { walk(recipe, visit); }

Issues resolveDimensions(Recipe& recipe) { return std::move(Resolver(recipe).issues); }

Dimension* findDimension(Recipe& recipe, std::string_view name) {
    Dimension* found = nullptr;
    walk(recipe, [&](Dimension& dimension) {
        if (found == nullptr && dimension.name == name) found = &dimension;
    });
    return found;
}

}  // namespace tinwright
