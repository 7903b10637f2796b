// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <tinwright/io/shop/materials_io.h>

#include "reading.h"

using namespace tinwright;

namespace {

const Materials& shipped() {
    static const Result<Materials> materials = readMaterials(TINWRIGHT_SOURCE_DIR "/tooling/materials.json");
    INFO(test::textOf(materials.issues()));
    REQUIRE(materials.ok());
    return materials.value();
}

const Material& material(const char* id) {
    const Material* found = shipped().find(id);
    INFO(id);
    REQUIRE(found != nullptr);
    return *found;
}

Result<Materials> oneMaterial(const std::string& fields) {
    return readMaterialsText(
        R"({"format": "tinwright-materials/1", "units": "in", "materials": [{"id": "x", "name": "x",
        "family": "aluminium", )" +
            fields + "}]}",
        "m.json");
}

}  // namespace

TEST_CASE("ksi to MPa") {
    // Source: definition of pound-force and inch; rounded pairs as handbooks print them.
    const std::pair<double, double> pairs[] = {{21, 144.8}, {22, 151.7}, {35, 241.3},
                                               {42, 289.6}, {50, 344.7}, {70, 482.6}};
    for (const auto& [ksi, mpa] : pairs) CHECK(ksi * kMpaPerKsi == Approx(mpa).margin(0.05));
    CHECK(kMpaPerKsi == Approx(6.894757).epsilon(1e-7));
}

TEST_CASE("published values come back in MPa, GPa and g/cm3") {
    // Sources: as named in tooling/materials.json.
    CHECK(material("mild-steel").id == "dc01");
    CHECK(material("dc01").yield_mpa.most == 280.0);
    CHECK_FALSE(material("dc01").yield_mpa.least.has_value());
    CHECK(*material("6061-t6").yield_mpa.least == Approx(241).margin(0.5));
    CHECK(*material("6061-t6").tensile_mpa.least == Approx(290).margin(0.5));
    CHECK(*material("6061-t6").youngs_modulus_gpa.least == Approx(68.9).margin(0.06));
    CHECK(*material("2024-t3-typical").yield_mpa.least == Approx(345).margin(0.5));
    CHECK(*material("5052-h32-us").youngs_modulus_gpa.least == Approx(70.3).margin(0.06));
    CHECK(material("304").tensile_mpa.least == 515.0);
    CHECK(material("1050a-h14").to_thickness_mm == 6.0);
    CHECK(shipped().find("unobtainium") == nullptr);
}

TEST_CASE("every shipped number names its source, and limits and typical values are not mixed") {
    CHECK(shipped().entries.size() == 28);
    int typical = 0;
    for (const Material& entry : shipped().entries) {
        INFO(entry.id);
        for (const Property* property : {&entry.yield_mpa, &entry.tensile_mpa, &entry.elongation_percent,
                                         &entry.youngs_modulus_gpa, &entry.density_g_per_cm3}) {
            if (!property->known()) continue;
            CHECK_FALSE(property->source.empty());
            if (entry.kind == ValueKind::kTypical) CHECK(property->least == property->most);
        }
        CHECK(entry.yield_mpa.known());
        CHECK(entry.tensile_mpa.known());
        typical += entry.kind == ValueKind::kTypical ? 1 : 0;
        const bool says_typical = entry.name.find("typical") != std::string::npos;
        CHECK(says_typical == (entry.kind == ValueKind::kTypical));
    }
    CHECK(typical == 7);
}

TEST_CASE("what was not seen in its source says so") {
    CHECK(material("1.4301").yield_mpa.from_memory);
    CHECK(material("dc01").density_g_per_cm3.from_memory);
    CHECK_FALSE(material("dc01").yield_mpa.from_memory);
    CHECK(material("2024-t3-typical").density_g_per_cm3.from_memory);
}

TEST_CASE("a malformed materials file tells everything at once") {
    const Result<Materials> mixed =
        oneMaterial(R"("kind": "typical", "yield": {"min": 10, "unit": "MPa", "source": "s"},
        "tensile": {"value": 1, "unit": "bar", "source": "s"}, "density": {"value": -1, "unit": "g/cm3"}, "colour": 3)");
    REQUIRE_FALSE(mixed.ok());
    INFO(test::textOf(mixed.issues()));
    CHECK(test::has(mixed.issues(), "materials.kind", "/materials/0/yield"));
    CHECK(test::has(mixed.issues(), "materials.choice", "/materials/0/tensile/unit"));
    CHECK(test::has(mixed.issues(), "materials.range", "/materials/0/density/value"));
    CHECK(test::has(mixed.issues(), "materials.missing", "/materials/0/density/source"));
    CHECK(test::has(mixed.issues(), "materials.unknown-field", "/materials/0/colour"));
    CHECK(mixed.issues().size() == 5);
    const Result<Materials> limits =
        oneMaterial(R"("kind": "minimum", "tensile": {"min": 5, "max": 4, "unit": "ksi", "source": "s"},
        "over_thickness": 1, "to_thickness": 0.5)");
    REQUIRE_FALSE(limits.ok());
    CHECK(test::has(limits.issues(), "materials.range", "/materials/0/tensile"));
    CHECK(test::has(limits.issues(), "materials.range", "/materials/0/to_thickness"));
}

TEST_CASE("thickness limits of a materials file are in its units") {
    const Result<Materials> inch = oneMaterial(R"("kind": "minimum", "over_thickness": 0.01, "to_thickness": 0.25)");
    INFO(test::textOf(inch.issues()));
    REQUIRE(inch.ok());
    CHECK(inch.value().entries[0].to_thickness_mm == Approx(6.35).epsilon(1e-12));
}

TEST_CASE("two materials may not answer to one name") {
    const Result<Materials> twice =
        readMaterialsText(R"({"format": "tinwright-materials/1", "units": "mm", "materials": [
        {"id": "a", "name": "a", "family": "steel", "kind": "minimum", "aliases": ["soft"]},
        {"id": "soft", "name": "b", "family": "steel", "kind": "minimum"}]})",
                          "m.json");
    REQUIRE_FALSE(twice.ok());
    CHECK(test::has(twice.issues(), "materials.repeated", "/materials/1"));
}
