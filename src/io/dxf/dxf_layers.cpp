// SPDX-License-Identifier: GPL-3.0-or-later
#include "dxf/dxf_layers.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>

#include "entities/dxf_vet.h"

namespace tinwright {

namespace {

enum class Use { kCut, kBend, kIgnored };

struct Choice {
    Use use = Use::kCut;
    std::string why;  ///< empty: named by a rule
};

// Common practice for naming; a name given by a rule always comes first.
constexpr std::string_view kBendWords[] = {"BEND", "FOLD"};
constexpr std::string_view kBendLineTypes[] = {"BEND", "FOLD", "DASH", "CENTER", "CENTRE", "PHANTOM", "HIDDEN"};
constexpr std::string_view kNoteWords[] = {"MARK",   "DRILL", "DIM",       "TEXT",        "NOTE",
                                           "BORDER", "TITLE", "DEFPOINTS", "CONSTRUCTION"};

bool matches(const std::string& rule, const std::string& name) {
    const std::string a = inCapitals(rule), b = inCapitals(name);
    return a.ends_with('*') ? b.starts_with(std::string_view(a).substr(0, a.size() - 1)) : a == b;
}

bool matchesAny(const std::vector<std::string>& rules, const std::string& name) {
    return std::any_of(rules.begin(), rules.end(), [&](const std::string& rule) { return matches(rule, name); });
}

template <std::size_t N>
bool holdsAny(const std::string& name, const std::string_view (&words)[N]) {
    const std::string capitals = inCapitals(name);
    return std::any_of(std::begin(words), std::end(words),
                       [&](std::string_view word) { return capitals.find(word) != std::string::npos; });
}

Choice choose(const DxfTag& tag, const LayerRules& rules) {
    if (matchesAny(rules.ignored, tag.layer)) return {Use::kIgnored, ""};
    if (matchesAny(rules.bend, tag.layer) || matchesAny(rules.bend_line_types, tag.line_type)) return {Use::kBend, ""};
    if (matchesAny(rules.cut, tag.layer)) return {Use::kCut, ""};
    const bool bends_named = !rules.bend.empty() || !rules.bend_line_types.empty();
    if (!bends_named && holdsAny(tag.layer, kBendWords)) return {Use::kBend, "bend lines, by the layer's name"};
    if (holdsAny(tag.layer, kNoteWords)) return {Use::kIgnored, "notes, by the layer's name, and left out"};
    if (!bends_named && holdsAny(tag.line_type, kBendLineTypes))
        return {Use::kBend, "bend lines, by their line type " + printable(tag.line_type)};
    if (!rules.cut.empty())
        return {Use::kIgnored, "neither cut nor bend lines, as no rule names the layer, and left out"};
    return {Use::kCut, "cut lines, as no rule names the layer"};
}

}  // namespace

DxfSorted sortByLayer(const std::vector<DxfCurve>& curves, const LayerRules& rules) {
    DxfSorted sorted;
    std::map<std::pair<std::string, std::string>, std::size_t> guesses;  // layer and why
    std::map<std::pair<std::string, std::string>, Choice> known;         // layer and line type
    for (const DxfCurve& curve : curves) {
        const auto [entry, is_new] = known.try_emplace({curve.tag.layer, curve.tag.line_type});
        if (is_new) entry->second = choose(curve.tag, rules);
        const Choice& choice = entry->second;
        if (!choice.why.empty()) ++guesses[{curve.tag.layer, choice.why}];
        if (choice.use == Use::kCut) sorted.cuts.push_back(curve);
        if (choice.use == Use::kBend) sorted.bends.push_back(curve);
    }
    for (const auto& [guess, count] : guesses) {
        sorted.notices.push_back(fmt::format("drawing: layer \"{}\": {} {} taken as {}", printable(guess.first), count,
                                             count == 1 ? "curve" : "curves", guess.second));
    }
    return sorted;
}

}  // namespace tinwright
