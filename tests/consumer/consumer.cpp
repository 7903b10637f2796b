// SPDX-License-Identifier: GPL-3.0-or-later
// Uses headers and libraries of several floors as an outside project would; 0 when they do what they say.
#include <cmath>
#include <cstdio>
#include <string>

#include <tinwright/io/shop/materials_io.h>
#include <tinwright/part/model/pose.h>
#include <tinwright/report/json/plan_json.h>

namespace {

tinwright::Part angleBracket() {
    tinwright::Part part;
    part.name = "bracket";
    part.thickness_mm = 1.0;
    part.panels.resize(2);
    tinwright::Bend bend;
    bend.name = "flange";
    bend.child = tinwright::PanelId{1};
    bend.angle = tinwright::Angle::degrees(90);
    bend.spans = {{0, 50}};
    part.bends = {bend};
    return part;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 2) return 2;
    const auto materials = tinwright::readMaterials(std::string(argv[1]) + "/materials.json");
    if (!materials || materials.value().entries.empty()) return 3;

    const tinwright::Part part = angleBracket();
    const auto poses = tinwright::baseFromPanels(part, tinwright::allFormed(part));
    // Sharp and square: a point 10 up the flange stands 10 above the face that it was folded from.
    const tinwright::Vec3 tip = poses[1] * tinwright::Vec3(0, 10, part.thickness_mm);
    if (std::abs(tip.z() - (part.thickness_mm + 10)) > 1e-9) return 4;

    const tinwright::Shop shop;
    const std::string json = tinwright::planJson({part, shop, 0, tinwright::Verdict::kInfeasible, {}, {}, {}});
    std::fputs(json.c_str(), stdout);
    return json.find(tinwright::kPlanFormat) == std::string::npos ? 5 : 0;
}
