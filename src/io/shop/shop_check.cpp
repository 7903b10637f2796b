// SPDX-License-Identifier: GPL-3.0-or-later
// Whether the fields of a brake fit together.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "shop/shop_press.h"
#include "shop/shop_tools.h"

namespace tinwright {

namespace {

constexpr double kMeasured_mm = 0.02;

void checkLeafBed(const BrakeDraft& draft) {
    if (!draft.given.good("bed")) return;
    std::string why;
    const Polygon& bed = draft.bed;
    if (!isValid(Region{bed, {}}, &why))
        return draft.given.wrong("bed", "bed", "a polygon that does not cross itself (" + why + ")");
    double top_mm = bed[0].y();
    for (const Vec2& point : bed) top_mm = std::max(top_mm, point.y());
    double front_mm = HUGE_VAL;
    double back_mm = -HUGE_VAL;
    for (const Vec2& point : bed) {
        if (point.y() < top_mm - kMeasured_mm) continue;
        front_mm = std::min(front_mm, point.x());
        back_mm = std::max(back_mm, point.x());
    }
    if (std::abs(top_mm) > kMeasured_mm || std::abs(front_mm) > kMeasured_mm || back_mm < 1) {
        draft.given.wrong("bed", "bed",
                          "a section whose top is at z = 0 and begins at y = 0 (the hinge line), going back",
                          fmt::format("its top is at z = {:g} mm from y = {:g} to {:g} mm", top_mm, front_mm, back_mm));
    }
}

void checkClamp(const BrakeDraft& draft) {
    const GivenFields& given = draft.given;
    if (!given.good("clamp") || (given.has("above") && !given.good("above"))) return;
    const LeafBrake& leaf = draft.leaf;
    if (leaf.clamp == ClampKind::kLooseBars) {
        if (leaf.beam)
            given.wrong("above", "clamp", "\"nothing\" above bars that lift off freely",
                        "\"clamp\" says \"loose-bars\"");
        if (given.good("opening") && leaf.opening_mm > 0)
            given.wrong("opening", "clamp", "no opening with \"loose-bars\": they lift off freely");
        return;
    }
    if (!leaf.beam) given.wrong("above", "clamp", "the beam that the pieces hang on", "\"clamp\" says \"on-beam\"");
    if (!given.has("opening")) given.wrong("opening", "missing", "how far the beam lifts");
    if (given.good("opening") && leaf.opening_mm <= 0) given.wrong("opening", "clamp", "a lift greater than 0");
}

// What hangs on a beam ends under it.
void checkHeights(const BrakeDraft& draft, const std::vector<Bar>& bars) {
    if (!draft.leaf.beam || !draft.given.good("above")) return;
    for (std::size_t i = 0; i < bars.size(); ++i) {
        if (bars[i].height_mm <= draft.leaf.beam->height_mm + kMeasured_mm) continue;
        draft.bars[i].given.wrong(
            draft.bars[i].given.has("height") ? "height" : "profile", "bar.height",
            fmt::format("a height that ends under the beam, {:g} mm", draft.leaf.beam->height_mm));
    }
}

// Fields of the other kind of machine, wherever they were said.
void checkMachine(const BrakeDraft& draft) {
    const std::vector<const char*> leaf{"max_leaf_angle_deg",
                                        "leaf_faces",
                                        "nose_radius",
                                        "setback",
                                        "hinge_gives",
                                        "hinge_height",
                                        "above",
                                        "clamp",
                                        "opening",
                                        "pieces_out_in_place",
                                        "bars"};
    const std::vector<const char*> press{"force_kn", "bending", "bottoming_factor", "open_height", "stroke", "frames",
                                         "ram",      "adapter", "back_gauge",       "punches",     "dies"};
    for (const char* field : draft.is_press ? leaf : press) {
        if (!draft.given.has(field)) continue;
        draft.given.wrong(
            field, "machine", fmt::format("only fields of a {}", draft.is_press ? "press brake" : "leaf brake"),
            draft.is_press ? "its \"machine\" is \"press-brake\"" : "a press brake says \"machine\": \"press-brake\"");
    }
}

void finishLeaf(const BrakeDraft& draft, Brake& brake) {
    needFields(draft, {{"max_leaf_angle_deg", "the largest angle the leaf swings to"},
                       {"leaf_faces", "a list of at least one face of the leaf"},
                       {"nose_radius", "the radius of the bars' nose"},
                       {"bed", "the bed's section as a list of points [y, z]"},
                       {"clamp", "\"loose-bars\" or \"on-beam\""},
                       {"bars", "a list of bars"}});
    LeafBrake leaf = draft.leaf;
    leaf.bed = draft.bed;
    checkLeafBed(draft);
    checkClamp(draft);
    if (leaf.clamp == ClampKind::kLooseBars) leaf.pieces_out_in_place = true;  // each is laid on by hand
    std::vector<const ToolDraft*> tools;
    for (const ToolDraft& bar : draft.bars) {
        tools.push_back(&bar);
        leaf.bars.push_back(finishBar(bar, draft));
    }
    checkIds(tools);
    checkHeights(draft, leaf.bars);
    brake.kind = std::move(leaf);
    brake.uncertain = draft.given.uncertain();
    for (std::string& pointer : uncertainOf(barKind(), draft.bars)) brake.uncertain.push_back(std::move(pointer));
}

}  // namespace

Brake finishBrake(const BrakeDraft& draft) {
    Brake brake = draft.brake;
    // What machine it is is not known then.
    if (draft.given.has("machine") && !draft.given.good("machine")) return brake;
    needFields(draft, {{"name", "a name for the brake"}, {"length", "the length of the machine, along its bed"}});
    if (!draft.given.has("tooling") || draft.given.good("tooling")) checkMachine(draft);
    draft.is_press ? finishPress(draft, brake) : finishLeaf(draft, brake);
    return brake;
}

}  // namespace tinwright
