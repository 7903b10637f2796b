// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/checks/check.h>
#include <tinwright/io/shop/materials_io.h>
#include <tinwright/part/edges/section.h>

namespace tinwright::test {

inline Material shipped(const std::string& id) {
    const Result<Materials> materials = readShippedMaterials();
    REQUIRE(materials);
    REQUIRE(materials.value().find(id));
    return *materials.value().find(id);
}

/// An angle: legs of these flat lengths, `length_mm` long, t = 1.5 unless said.
inline Section angleSection(double first_mm, double second_mm, double length_mm) {
    Section section;
    section.flats_mm = {first_mm, second_mm};
    section.angles_deg = {90};
    section.length_mm = length_mm;
    return section;
}

inline Polygon rectangle(double left, double low, double right, double high) {
    return {{left, low}, {right, low}, {right, high}, {left, high}};
}

/// With a window in blank coordinates, cut out of the panel that it lies in.
inline void cut(Part& part, std::size_t panel, const std::string& name, const Polygon& outline) {
    part.cut_outs.push_back(
        {.name = name, .panel = idAt<PanelId>(panel), .outline = outline, .round = {}, .is_notch = false});
    part.panels[panel].region = difference(part.panels[panel].region, {outline}).front();
    part.blank = difference(part.blank, {outline}).front();
}

/// A magnetic folder and a finger brake in their plainest form.
inline Brake brakeOf(ClampKind clamp, double bar_depth_mm = 50) {
    Brake brake;
    brake.name = "brake";
    brake.length_mm = 1250;
    brake.ratings = {{"mild-steel", 1.6, 1250}};
    brake.leaf().leaf_faces = {{"full", 25, 12}, {"narrow", 12, 12}};
    brake.leaf().nose_radius_mm = 1;
    brake.leaf().clamp = clamp;
    Bar bar;
    bar.id = "B100";
    bar.width_mm = 100;
    bar.clamp_depth_mm = bar_depth_mm;
    bar.height_mm = 25;
    brake.leaf().bars = {bar};
    return brake;
}

/// Of a leaf brake set up for the part's sheet.
inline PartOnBrake partOnBrake(const Part& drawn, const Shop& shop, const Brake& leaf) {
    return tinwright::partOnBrake(drawn, shop, inSetup(leaf, drawn.thickness_mm));
}
inline std::vector<Finding> brakeFindings(const PartOnBrake& part, const Material* material, const Shop& shop,
                                          const Brake& leaf) {
    return tinwright::brakeFindings(part, material, shop, inSetup(leaf, part.part().thickness_mm));
}
inline std::vector<Finding> foldFindings(const PartOnBrake& part, const Material* material, const Shop& shop,
                                         const Brake& leaf, const FoldStep& step) {
    return tinwright::foldFindings(part, material, shop, inSetup(leaf, part.part().thickness_mm), step);
}
inline std::vector<Finding> foldFindings(const PartOnBrake& part, const Material* material, const Shop& shop,
                                         const Brake& leaf, const FoldStep& step, BendMask formed) {
    return tinwright::foldFindings(part, material, shop, inSetup(leaf, part.part().thickness_mm), step, formed);
}

inline const Finding* findingOf(const std::vector<Finding>& findings, const std::string& id) {
    const auto found =
        std::find_if(findings.begin(), findings.end(), [&](const Finding& finding) { return finding.id == id; });
    return found == findings.end() ? nullptr : &*found;
}

inline bool hasText(const std::vector<std::string>& texts, const std::string& part) {
    return std::any_of(texts.begin(), texts.end(),
                       [&](const std::string& text) { return text.find(part) != std::string::npos; });
}

}  // namespace tinwright::test
