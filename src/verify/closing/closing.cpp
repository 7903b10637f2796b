// SPDX-License-Identifier: GPL-3.0-or-later
#include "closing/closing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/machines/shop.h>

#include "closing/closing_scene.h"
#include "closing/closing_tools.h"
#include "strokes/allowed.h"

namespace tinwright::replay {

namespace {

constexpr double kSameClosing_mm = 2e-3;  // plans tell places in whole micrometres
constexpr double kPast_mm = 1.0;          // the flats reach so far past the return, at either end
constexpr double kOver_mm = 0.5;          // and open so much more than the return stands high
constexpr double kStands_mm = 0.02;

const Bend& firstHem(const HemStep& hems) { return hems.part->bend(hems.bends.front()); }

double closedHeight_mm(const HemStep& hems) { return 2 * hems.part->thickness_mm + firstHem(hems).hem->gap_mm; }

// Of the closing in the blank of the first hem's parent, but for where x = 0 is.
Rigid frameFromParent(const HemStep& hems, const HemClosing& closing) {
    const Bend& bend = firstHem(hems);
    const double thickness_mm = hems.part->thickness_mm;
    const Vec3 y(bend.toward_child.x(), bend.toward_child.y(), 0);
    const Vec3 z(0, 0, bend.up ? 1 : -1);
    Rigid frame = Rigid::Identity();
    frame.linear() << y.cross(z).transpose(), y.transpose(), z.transpose();
    const double outside_mm = closing.front_mm + closing.inserted_mm;
    const double line_mm = outside_mm - thickness_mm - 0.5 * bend.hem->gap_mm + 0.5 * bend.hem->allowance_mm;
    const Vec3 line = frame.linear() * Vec3(bend.origin.x(), bend.origin.y(), bend.up ? 0 : thickness_mm);
    frame.translation() = Vec3(0, line_mm, 0) - line;
    return frame;
}

std::vector<Span> spansIn(const HemStep& hems, const Rigid& frame_from_space) {
    std::vector<Span> spans;
    for (const BendId id : hems.bends) {
        const Bend& bend = hems.part->bend(id);
        const std::vector<Span> own =
            spansOf(bend, id, frame_from_space * hems.closed->sheet().spaceFromBlank(bend.parent));
        spans.insert(spans.end(), own.begin(), own.end());
    }
    return spans;
}

void placeIn(const HemStep& hems, const HemClosing& closing, Setting& setting) {
    const Rigid space_from_parent = hems.closed->sheet().spaceFromBlank(firstHem(hems).parent);
    setting.fold_from_space = frameFromParent(hems, closing) * space_from_parent.inverse();
    setting.spans = spansIn(hems, setting.fold_from_space);
    double left_mm = std::numeric_limits<double>::infinity();
    for (const Span& span : setting.spans) left_mm = std::min(left_mm, span.lo_mm);
    for (Span& span : setting.spans) span.lo_mm -= left_mm, span.hi_mm -= left_mm;
    setting.fold_from_space = Eigen::Translation3d(-left_mm, 0, 0) * setting.fold_from_space;
    setting.moving.assign(hems.part->panels.size(), false);
    for (const BendId hem : hems.bends) {
        for (const PanelId panel : hems.closed->sheet().beyond(hem)) setting.moving[panel.index()] = true;
    }
}

bool isOwnStrip(const HemStep& hems, const Body& body) {
    return std::any_of(hems.bends.begin(), hems.bends.end(),
                       [&](BendId bend) { return body.member == hems.part->panels.size() + bend.index(); });
}

PartClosing partAs(const HemStep& hems, const Standing& standing, const Setting& setting) {
    PartBodies bodies = partBodies(standing.sheet(), standing.panels(), FoldStep{}, setting);
    PartClosing part;
    part.returns = std::move(bodies.moving);
    for (Body& body : bodies.held) (isOwnStrip(hems, body) ? part.strips : part.others).push_back(std::move(body));
    return part;
}

// The same pieces, at the same places of the machine.
FoldStep stepInFrame(const FoldStep& step, const HemClosing& closing) {
    FoldStep shifted = step;
    shifted.part_x_mm = closing.part_x_mm;
    for (PlacedTool& bar : shifted.tools) {
        bar.from_mm += step.part_x_mm - closing.part_x_mm;
        bar.to_mm += step.part_x_mm - closing.part_x_mm;
    }
    return shifted;
}

bool hemsAgree(const HemStep& hems, const Scene& scene, std::vector<std::string>& wrong) {
    const Bend& first = firstHem(hems);
    bool agree = true;
    for (const BendId id : hems.bends) {
        const Bend& bend = hems.part->bend(id);
        const bool same_side = scene.setting.moving[bend.child.index()] == scene.setting.moving[first.child.index()];
        if (!same_side || std::abs(bend.hem->gap_mm - first.hem->gap_mm) > kSameClosing_mm) {
            wrong.push_back(fmt::format("{} and {} are not closed alike", bend.name, first.name));
            agree = false;
        }
    }
    return agree;
}

// What the brake can make at all.
void checkBrake(const HemStep& hems, const Shop& shop, const Scene& scene, std::vector<std::string>& wrong) {
    for (const BendId id : hems.bends) {
        const std::optional<NoHem> why = whyNoHem(*scene.on_brake, shop, scene.brake, id);
        if (why) wrong.push_back(fmt::format("{} {}", hems.part->bend(id).name, toText(*why, *hems.part)));
    }
    if (scene.step->angle.deg() < kLeastFirstFold_deg - 1e-6)
        wrong.push_back(fmt::format("a first fold of {:.3f}° buckles", scene.step->angle.deg()));
}

void compare(const std::string& what, double found_mm, double told_mm, double within_mm,
             std::vector<std::string>& wrong) {
    if (std::abs(found_mm - told_mm) > within_mm)
        wrong.push_back(fmt::format("{} is {:.3f} mm, the step says {:.3f} mm", what, found_mm, told_mm));
}

// Flats of a step's pieces.
void checkFlats(const Scene& scene, const ClosingMachine& machine, const HemClosing& closing,
                std::vector<std::string>& wrong) {
    for (const PlacedTool& placed : scene.step->tools) {
        const std::optional<HemFlats> flats = machine.flatsOf(placed.tool);
        if (!flats) continue;
        const std::string& id = scene.brake->tool(placed.tool).id;
        compare(fmt::format("where the flats begin at {}", id), flats->front_mm, closing.front_mm, kSameClosing_mm,
                wrong);
        if (closing.inserted_mm + kPast_mm > flats->depth_mm + kSameClosing_mm) {
            wrong.push_back(fmt::format("the hem goes {:.3f} mm between flats of {} that are {:.3f} mm deep",
                                        closing.inserted_mm, id, flats->depth_mm));
        }
    }
}

void checkTold(const ClosingScene& closing, const Scene& scene, const HemClosing& told, double opens_mm,
               std::vector<std::string>& wrong) {
    const bool turned = scene.setting.moving[firstHem(closing.hems).child.index()];
    if (told.turned != turned)
        wrong.push_back(turned ? "the part has to be turned half round"
                               : "the part is told to be turned and lies as it does");
    double far_mm = std::numeric_limits<double>::infinity();
    double top_mm = 0;
    for (const Body& body : closing.closed.returns) {
        const bool is_return = std::any_of(closing.hems.bends.begin(), closing.hems.bends.end(), [&](BendId hem) {
            return body.member == closing.hems.part->bend(hem).child.index();
        });
        if (is_return) far_mm = std::min(far_mm, boxOf(body).min().y());
    }
    for (const Body& body : closing.folded.returns) top_mm = std::max(top_mm, boxOf(body).max().z());
    const double depth_mm = told.front_mm + told.inserted_mm - far_mm;
    compare("how far it is pushed in", depth_mm + kPast_mm, told.inserted_mm, kSameClosing_mm, wrong);
    compare("how high the return stands", top_mm, told.stands_mm, kStands_mm, wrong);
    compare("the height of the closed hem", closedHeight_mm(closing.hems), told.height_mm, kSameClosing_mm, wrong);
    if (top_mm + kOver_mm > opens_mm + kSameClosing_mm) {
        wrong.push_back(fmt::format("the return stands {:.3f} mm high, the flats open to {:.3f} mm", top_mm, opens_mm));
    }
}

void checkEnds(const ClosingScene& closing, const BrakeInSetup& brake, std::vector<std::string>& wrong) {
    Box box;
    for (const auto* list : {&closing.folded.others, &closing.folded.returns, &closing.closed.others}) {
        for (const Body& body : *list) box.extend(boxOf(body));
    }
    const double left_mm = -(box.min().x() + closing.step.part_x_mm);
    const double right_mm = box.max().x() + closing.step.part_x_mm - brake->length_mm;
    if (left_mm > kSameClosing_mm && !brake->overhang_left)
        wrong.push_back(fmt::format("the part passes the left end frame by {:.3f} mm", left_mm));
    if (right_mm > kSameClosing_mm && !brake->overhang_right)
        wrong.push_back(fmt::format("the part passes the right end frame by {:.3f} mm", right_mm));
}

void replayClosing(const HemStep& hems, const Shop& shop, const Scene& scene, std::vector<std::string>& wrong) {
    const HemClosing& told = *scene.step->closing;
    const FoldStep step = stepInFrame(*scene.step, told);
    const auto machine = closingMachine(scene.brake, step, *scene.setting.machine);
    checkBrake(hems, shop, scene, wrong);
    machine->checkPieces(wrong);
    if (!hemsAgree(hems, scene, wrong)) return;
    checkFlats(scene, *machine, told, wrong);
    ClosingScene closing;
    closing.hems = hems;
    closing.options = scene.options;
    closing.step = step;
    closing.setting = scene.setting;
    placeIn(hems, told, closing.setting);
    closing.folded = partAs(hems, *hems.folded, closing.setting);
    closing.closed = partAs(hems, *hems.closed, closing.setting);
    checkTold(closing, scene, told, machine->opens_mm(), wrong);
    checkSpans(*hems.part, scene.brake, closing.step, closing.setting, shop.limits, wrong);
    checkEnds(closing, scene.brake, wrong);
    closing.tools = machine->tools(closedHeight_mm(hems), wrong);
    if (told.lifted_out && !machine->liftsOut())
        wrong.push_back("the part is lifted out, and what is over it stays there");
    checkComings(closing, wrong);
    checkReturns(closing, wrong);
}

}  // namespace

void checkClosing(const HemStep& hems, const Shop& shop, const Scene& scene, std::vector<std::string>& wrong) {
    if (hems.bends.empty()) {
        if (scene.step->closing) wrong.push_back("something is to be closed that is no hem");
        return;
    }
    if (!scene.step->closing) {
        wrong.push_back(fmt::format("{}: the hem is never closed", firstHem(hems).name));
        return;
    }
    std::vector<std::string> found;
    replayClosing(hems, shop, scene, found);
    for (const std::string& words : found) wrong.push_back("closing: " + words);
}

}  // namespace tinwright::replay
