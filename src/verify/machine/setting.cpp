// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/setting.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

namespace tinwright::replay {

namespace {

constexpr double kOnLine_mm = 1e-3;  // bends this far off one line are on it: a twentieth of a contact
constexpr double kAngle_deg = 1e-6;

bool inFold(const FoldStep& step, std::size_t bend) { return contains(step.stroke.bends, idAt<BendId>(bend)); }

// Which panels move: the tree is coloured from the held panel of the first bend, changing at every bend of the fold.
std::vector<bool> movingSide(const Part& part, const FoldStep& step) {
    const Bend& first = part.bend(step.stroke.first());
    std::vector<int> colour(part.panels.size(), -1);
    colour[(step.stroke.hold == Side::kParent ? first.parent : first.child).index()] = 0;
    for (std::size_t round = 0; round < part.panels.size(); ++round) {
        for (std::size_t i = 0; i < part.bends.size(); ++i) {
            int& parent = colour[part.bends[i].parent.index()];
            int& child = colour[part.bends[i].child.index()];
            const int change = inFold(step, i) ? 1 : 0;
            if (parent >= 0 && child < 0) child = parent ^ change;
            if (child >= 0 && parent < 0) parent = child ^ change;
        }
    }
    std::vector<bool> moving(part.panels.size());
    for (std::size_t i = 0; i < moving.size(); ++i) moving[i] = colour[i] == 1;
    return moving;
}

// The fold's frame as the held side of one bend gives it, whose strip ends at `tangent_mm`, but for where x = 0 is.
Rigid foldFromHeldBlank(const Part& part, const Bend& bend, bool child_held, double tangent_mm) {
    const Vec2 back = child_held ? bend.toward_child : Vec2(-bend.toward_child);
    const Vec2 tangent = bend.origin + 0.5 * bend.allowance_mm * back;
    const Vec3 y(back.x(), back.y(), 0);
    const Vec3 z(0, 0, bend.up ? 1 : -1);
    Rigid frame = Rigid::Identity();
    frame.linear() << y.cross(z).transpose(), y.transpose(), z.transpose();
    const Vec3 start = frame.linear() * Vec3(tangent.x(), tangent.y(), bend.up ? 0 : part.thickness_mm);
    frame.translation() = Vec3(0, tangent_mm, 0) - start;
    return frame;
}

bool onOneLine(const Rigid& a, const Rigid& b) {
    return (a.linear() - b.linear()).norm() < 1e-6 && (a.translation() - b.translation()).tail<2>().norm() < kOnLine_mm;
}

bool bendsUsable(const Sheet& sheet, const FoldStep& step, std::vector<std::string>& wrong) {
    const Part& part = sheet.part();
    if (step.stroke.bends == 0) wrong.push_back("the fold names no bend");
    for (const BendId id : bendsIn(step.stroke.bends)) {
        if (id.index() >= part.bends.size()) {
            wrong.push_back(fmt::format("there is no bend number {}", id.index()));
            return false;
        }
        if (sheet.formed(id)) wrong.push_back(fmt::format("bend {} is formed already", part.bend(id).name));
        if (part.bend(id).up != part.bend(step.stroke.first()).up) {
            wrong.push_back(fmt::format("bend {} goes the other way", part.bend(id).name));
        }
    }
    return wrong.empty();
}

void checkAngles(const Part& part, const Shop& shop, const BrakeInSetup& brake, const FoldStep& step,
                 std::vector<std::string>& wrong) {
    for (const BendId id : bendsIn(step.stroke.bends)) {
        if (std::abs(part.bend(id).angle.deg() - step.angle.deg()) > kAngle_deg) {
            wrong.push_back(fmt::format("bend {} is to be folded to {:.3f}°, the step says {:.3f}°", part.bend(id).name,
                                        part.bend(id).angle.deg(), step.angle.deg()));
        }
    }
    const double set_deg = step.angle.deg() + shop.overbendFor_deg(part.material, *brake);
    if (std::abs(step.set_angle.deg() - set_deg) > kAngle_deg) {
        wrong.push_back(
            fmt::format("the set angle is {:.3f}°, target and overbend give {:.3f}°", step.set_angle.deg(), set_deg));
    }
}

void checkHeld(const Part& part, const FoldStep& step, const std::vector<bool>& moving,
               std::vector<std::string>& wrong) {
    std::vector<PanelId> held;
    for (const BendId id : bendsIn(step.stroke.bends)) {
        const Bend& bend = part.bend(id);
        held.push_back(moving[bend.child.index()] ? bend.parent : bend.child);
    }
    std::sort(held.begin(), held.end());
    held.erase(std::unique(held.begin(), held.end()), held.end());
    if (held != step.held) wrong.push_back("the panels named as held are not those that the hold gives");
    if (step.drawn_face_up != part.bend(step.stroke.first()).up) wrong.push_back("the wrong face is up for this bend");
}

void placeAlong(Setting& setting) {
    double least = std::numeric_limits<double>::infinity();
    for (const Span& span : setting.spans) least = std::min(least, span.lo_mm);
    for (Span& span : setting.spans) span.lo_mm -= least, span.hi_mm -= least;
    setting.fold_from_space = Eigen::Translation3d(-least, 0, 0) * setting.fold_from_space;
    std::sort(setting.spans.begin(), setting.spans.end(),
              [](const Span& a, const Span& b) { return std::tuple(a.lo_mm, a.hi_mm) < std::tuple(b.lo_mm, b.hi_mm); });
}

}  // namespace

std::vector<Span> spansOf(const Bend& bend, BendId id, const Rigid& fold_from_blank) {
    std::vector<Span> spans;
    const auto x = [&](double s) {
        const Vec2 point = bend.origin + s * bend.along;
        return (fold_from_blank * Vec3(point.x(), point.y(), 0)).x();
    };
    for (const StripSpan& span : bend.spans) {
        const auto [lo, hi] = std::minmax({x(span.from_mm), x(span.to_mm)});
        spans.push_back({id, lo, hi});
    }
    return spans;
}

bool setUp(const Sheet& sheet, const Shop& shop, const BrakeInSetup& brake, const FoldStep& step, Setting& setting,
           std::vector<std::string>& wrong) {
    if (!bendsUsable(sheet, step, wrong)) return false;
    const Part& part = sheet.part();
    setting.moving = movingSide(part, step);
    setting.machine = replayedMachine(brake, step, part.thickness_mm, part.bend(step.stroke.first()).allowance_mm);
    checkAngles(part, shop, brake, step, wrong);
    setting.machine->checkSetAngle(wrong);
    checkHeld(part, step, setting.moving, wrong);
    for (const BendId id : bendsIn(step.stroke.bends)) {
        const Bend& bend = part.bend(id);
        const bool child_held = setting.moving[bend.parent.index()];
        const PanelId held = child_held ? bend.child : bend.parent;
        const double tangent_mm = setting.stroke().stripBack_mm(bend.allowance_mm);
        const Rigid fold_from_blank = foldFromHeldBlank(part, bend, child_held, tangent_mm);
        const Rigid fold_from_space = fold_from_blank * sheet.spaceFromBlank(held).inverse();
        if (id == step.stroke.first()) setting.fold_from_space = fold_from_space;
        if (!onOneLine(setting.fold_from_space, fold_from_space)) {
            wrong.push_back(fmt::format("bend {} is not on one line with {} as the part stands", bend.name,
                                        part.bend(step.stroke.first()).name));
            return false;
        }
        for (Span& span : spansOf(bend, id, setting.fold_from_space * sheet.spaceFromBlank(held))) {
            setting.spans.push_back(span);
        }
    }
    placeAlong(setting);
    const bool ready = setting.machine->checkTools(wrong);
    if (!(step.set_angle.rad() > 0)) wrong.push_back("the set angle is not above 0°");
    return ready && step.set_angle.rad() > 0 && step.set_angle.deg() < 180.0;
}

}  // namespace tinwright::replay
