// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/io/shop/materials_io.h>

#include <optional>
#include <set>

#include <nlohmann/json.hpp>

#include <tinwright/io/json/json_cursor.h>
#include <tinwright/io/json/json_reading.h>
#include <tinwright/io/shop/shop_io.h>

namespace tinwright {

namespace {

/// A unit a property may be given in, and what turns it into the one it is kept in.
struct Unit {
    const char* name;
    double factor;
};

// Strengths in MPa, the modulus in GPa.
constexpr Unit kStress[] = {{"MPa", 1.0}, {"ksi", kMpaPerKsi}};
constexpr Unit kModulus[] = {{"GPa", 1.0}, {"Msi", kMpaPerKsi}};
constexpr Unit kDensity[] = {{"g/cm3", 1.0}, {"g/cm3", 1.0}};
constexpr Unit kShare[] = {{"%", 1.0}, {"%", 1.0}};

constexpr Range kPositive{0, 1e6, true, false};

std::optional<double> readValue(const JsonCursor& at, std::string_view key, double factor) {
    const std::optional<JsonCursor> member = at.get(key);
    const std::optional<double> value = member ? member->number(kPositive) : std::nullopt;
    return value ? std::optional(*value * factor) : std::nullopt;
}

// A typical entry has a value; limits go with a standard. Modulus and density are constants of the metal either way.
void checkKind(const JsonCursor& at, bool value_wanted) {
    const bool has_value = at.has("value");
    const bool has_limit = at.has("min") || at.has("max");
    if (has_value && !has_limit && value_wanted) return;
    if (!has_value && has_limit && !value_wanted) return;
    at.wrong(
        "kind",
        value_wanted ? "a \"value\", and neither \"min\" nor \"max\"" : "\"min\" or \"max\" or both, and no \"value\"",
        "limits and typical values are not mixed in one entry");
}

Property readProperty(const JsonCursor& material, std::string_view key, const Unit (&units)[2], bool value_wanted) {
    Property property;
    const std::optional<JsonCursor> at = material.get(key);
    if (!at || !at->object({"value", "min", "max", "unit", "source", "from_memory"})) return property;
    checkKind(*at, value_wanted);
    double factor = 1.0;
    if (const auto unit = at->need("unit", "the unit of the number")) {
        if (const auto which = unit->choice({units[0].name, units[1].name})) factor = units[*which].factor;
    }
    property.least = property.most = readValue(*at, "value", factor);
    if (at->has("min")) property.least = readValue(*at, "min", factor);
    if (at->has("max")) property.most = readValue(*at, "max", factor);
    if (property.least && property.most && *property.least > *property.most)
        at->wrong("range", "a \"min\" no greater than \"max\"");
    property.source = needText(*at, "source");
    property.from_memory = booleanOr(*at, "from_memory", false);
    return property;
}

std::vector<std::string> readAliases(const JsonCursor& at) {
    std::vector<std::string> aliases;
    const std::optional<JsonCursor> list = at.get("aliases");
    if (!list) return aliases;
    for (const JsonCursor& item : list->items(0, 20)) {
        if (const std::optional<std::string> alias = item.name()) aliases.push_back(*alias);
    }
    return aliases;
}

void readThickness(const JsonCursor& at, Material& material) {
    constexpr Range kThickness_mm{0, 1000};
    material.over_thickness_mm = lengthOr_mm(at, "over_thickness", kThickness_mm, 0);
    material.to_thickness_mm = lengthOr_mm(at, "to_thickness", kThickness_mm, 0);
    if (at.has("to_thickness") && material.to_thickness_mm <= material.over_thickness_mm) {
        at.get("to_thickness")->wrong("range", "more than \"over_thickness\"");
    }
}

Material readMaterial(const JsonCursor& at) {
    Material material;
    if (!at.object({"id", "name", "family", "aliases", "kind", "over_thickness", "to_thickness", "yield", "tensile",
                    "elongation", "youngs_modulus", "density", "note"})) {
        return material;
    }
    material.id = needName(at, "id");
    material.name = needText(at, "name");
    if (const auto family = at.need("family", "\"steel\", \"stainless\" or \"aluminium\"")) {
        constexpr const char* kFamilies[] = {"steel", "stainless", "aluminium"};
        if (const auto which = family->choice({kFamilies[0], kFamilies[1], kFamilies[2]}))
            material.family = kFamilies[*which];
    }
    material.aliases = readAliases(at);
    if (const auto kind = at.need("kind", "\"minimum\" or \"typical\"")) {
        material.kind =
            kind->choice({"minimum", "typical"}).value_or(0) == 1 ? ValueKind::kTypical : ValueKind::kMinimum;
    }
    readThickness(at, material);
    const bool typical = material.kind == ValueKind::kTypical;
    material.yield_mpa = readProperty(at, "yield", kStress, typical);
    material.tensile_mpa = readProperty(at, "tensile", kStress, typical);
    material.elongation_percent = readProperty(at, "elongation", kShare, typical);
    material.youngs_modulus_gpa = readProperty(at, "youngs_modulus", kModulus, true);
    material.density_g_per_cm3 = readProperty(at, "density", kDensity, true);
    material.note = textOr(at, "note", "");
    return material;
}

// Ids and aliases share one space, since recipes say either.
void checkIds(const std::vector<JsonCursor>& items, const Materials& materials) {
    std::set<std::string> seen;
    for (std::size_t i = 0; i < materials.entries.size(); ++i) {
        const Material& entry = materials.entries[i];
        std::vector<std::string> names = entry.aliases;
        if (!entry.id.empty()) names.insert(names.begin(), entry.id);
        for (const std::string& name : names) {
            if (seen.insert(name).second) continue;
            items[i].report("repeated", "\"" + name + "\" a second time", "an id or alias that no other material has");
        }
    }
}

}  // namespace

Result<Materials> readMaterialsText(std::string_view text, const std::string& file) {
    const Result<nlohmann::json> document = parseJson(text, file);
    if (!document) return document.issues();
    ReadContext context;
    context.file = file;
    context.code = "materials";
    const JsonCursor at(document.value(), "", context);
    Materials materials;
    if (at.object({"format", "units", "note", "materials"})) {
        readHeader(at, "tinwright-materials/1");
        static_cast<void>(textOr(at, "note", ""));
        if (const auto list = at.need("materials", "a list of materials")) {
            const std::vector<JsonCursor> items = list->items(1, 1000);
            for (const JsonCursor& item : items) materials.entries.push_back(readMaterial(item));
            checkIds(items, materials);
        }
    }
    if (!context.issues.empty()) return context.issues;
    return materials;
}

Result<Materials> readMaterials(const std::string& path) {
    const Result<std::string> text = readTextFile(path);
    if (!text) return text.issues();
    return readMaterialsText(text.value(), path);
}

Result<Materials> readShippedMaterials() {
    std::error_code error;
    for (const std::filesystem::path& folder : knownToolingDirectories()) {
        const std::filesystem::path path = folder / "materials.json";
        if (std::filesystem::exists(path, error)) return readMaterials(path.string());
    }
    return Issue{"materials.none",
                 "",
                 "",
                 "no tooling folder with materials.json",
                 "one in the source tree or where the program is installed",
                 ""};
}

}  // namespace tinwright
