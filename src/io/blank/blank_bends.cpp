// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include <nlohmann/json.hpp>

#include <tinwright/io/blank/blank_io.h>
#include <tinwright/io/dxf/dxf_io.h>
#include <tinwright/part/allowance/allowance.h>

namespace tinwright {

namespace {

using Json = nlohmann::ordered_json;

constexpr double kUsualK = 0.44;
constexpr double kSameAllowance_mm = 1e-9;

Json pair(const Vec2& point) { return Json::array({point.x(), point.y()}); }

// The middle of the largest convex piece lies inside, whatever holes there are.
Vec2 pointInside(const Region& region) {
    Polygon largest;
    for (Polygon& piece : convexPieces(region)) {
        if (largest.empty() || signedArea_mm2(piece) > signedArea_mm2(largest) * (1 + 1e-9)) largest = std::move(piece);
    }
    Vec2 middle = Vec2::Zero();
    for (const Vec2& point : largest) middle += point / static_cast<double>(largest.size());
    return middle;
}

// The blank is fixed, so the file must not depend on a shop: a measured bend is written with the k-factor it came to.
AllowanceChoice ruleOf(const Part& part) {
    if (part.bends.empty()) return {AllowanceRule::kKFactor, kUsualK};
    const Bend& first = part.bends.front();
    const bool has_k = first.rule == AllowanceRule::kKFactor || first.rule == AllowanceRule::kMeasured;
    const bool k_fits = has_k && first.rule_value >= 0 && first.rule_value <= 1;
    return {has_k ? AllowanceRule::kKFactor : first.rule, k_fits ? first.rule_value : kUsualK};
}

Json entryOf(const Part& part, const Bend& bend, const AllowanceChoice& rule) {
    Json entry;
    entry["name"] = bend.name;
    Json lines = Json::array();
    for (const StripSpan& span : bend.spans)
        lines.push_back(
            Json::array({pair(bend.origin + span.from_mm * bend.along), pair(bend.origin + span.to_mm * bend.along)}));
    entry["lines"] = lines;
    if (bend.hem) {
        entry["hem"] = {{"gap", bend.hem->gap_mm}};
    } else {
        entry["angle"] = std::round(bend.angle.deg() * 1e9) / 1e9;
    }
    entry["direction"] = bend.up ? "up" : "down";
    if (!bend.hem) entry["inside_radius"] = bend.inside_radius_mm;
    const auto by_rule = allowanceFor(rule, bend.angle, bend.inside_radius_mm, part.thickness_mm);
    if (!by_rule || std::abs(by_rule.value().allowance_mm - bend.allowance_mm) > kSameAllowance_mm)
        entry["allowance"] = bend.allowance_mm;
    return entry;
}

}  // namespace

std::string bendsJson(const Part& part) {
    constexpr const char* kRules[] = {"k-factor", "din-6935", "handbook"};
    constexpr const char* kFilms[] = {"", "none", "drawn-face", "back-face", "both-faces"};
    const AllowanceChoice rule = ruleOf(part);
    Json file;
    file["format"] = kBendsFormat;
    file["units"] = "mm";
    file["name"] = part.name;
    file["drawing_units"] = "mm";
    file["sheet"] = {{"material", part.material}, {"thickness", part.thickness_mm}};
    if (part.film != Film::kUnsaid) file["sheet"]["film"] = kFilms[static_cast<std::size_t>(part.film)];
    if (part.grain_deg) file["sheet"]["grain_deg"] = *part.grain_deg;
    file["allowance"] = {{"rule", kRules[static_cast<std::size_t>(rule.rule)]}};
    if (rule.rule == AllowanceRule::kKFactor) file["allowance"]["k"] = rule.k;
    file["inside_radius"] = part.bends.empty() ? part.thickness_mm : part.bends.front().inside_radius_mm;
    file["base"] = {{"name", part.panels.front().name}, {"at", pair(pointInside(part.panels.front().region))}};
    file["layers"] = {{"cut", {"CUT"}}, {"bend", {"BEND_UP", "BEND_DOWN"}}, {"ignore", {"MARK", "DRILL"}}};
    file["bends"] = Json::array();
    for (const Bend& bend : part.bends) file["bends"].push_back(entryOf(part, bend, rule));
    return file.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace tinwright
