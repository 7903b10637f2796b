// SPDX-License-Identifier: GPL-3.0-or-later
#include "library_lattice.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

#include <fcl/geometry/shape/box.h>
#include <fcl/narrowphase/collision.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/part/model/pose.h>

namespace tinwright::bench {

namespace {

using Eigen::Isometry3d;
using Eigen::Vector3d;
using oracle::Fit;
using oracle::Forming;

constexpr double kEndless_mm = 3000;
constexpr double kSliver_mm = 1e-3;  // along x a bar is taken this much narrower: touching there is not contact

// A body as it lies, with the box that holds it.
struct Body {
    std::shared_ptr<const ConvexPoints> corners;
    std::shared_ptr<fcl::CollisionGeometry<double>> shape;
    Isometry3d pose = Isometry3d::Identity();
    Vector3d lo = Vector3d::Zero(), hi = Vector3d::Zero();

    void moveTo(const Isometry3d& to) {
        pose = to;
        lo = hi = pose * (*corners)[0];
        for (const Vector3d& corner : *corners) {
            const Vector3d at = pose * corner;
            lo = lo.cwiseMin(at);
            hi = hi.cwiseMax(at);
        }
    }
    [[nodiscard]] bool boxMeets(const Body& other) const {
        return (lo.array() <= other.hi.array()).all() && (other.lo.array() <= hi.array()).all();
    }
};
using Bodies = std::vector<Body>;

Body bodyOf(ConvexPoints points) {
    Body body;
    body.corners = std::make_shared<const ConvexPoints>(std::move(points));
    // Without faces the library looks through all corners, which for eight of them is the quickest.
    body.shape = std::make_shared<fcl::Convex<double>>(body.corners, 0, std::make_shared<const std::vector<int>>());
    body.moveTo(Isometry3d::Identity());
    return body;
}

Bodies bodiesOf(const std::vector<ConvexPoints>& list) {
    Bodies bodies;
    for (const ConvexPoints& points : list) bodies.push_back(bodyOf(points));
    return bodies;
}

// A leaf at one angle: a block whose ends along x are set for each machine.
struct LeafBlock {
    explicit LeafBlock(const ConvexPoints& block) {
        const Vector3d sides[] = {block[4] - block[0], block[1] - block[0], block[2] - block[1]};
        for (int i = 0; i < 3; ++i) body.pose.linear().col(i) = sides[i].normalized();
        body.pose.translation() = 0.5 * (block[0] + block[6]);
        box = std::make_shared<fcl::Box<double>>(sides[0].norm(), sides[1].norm(), sides[2].norm());
        body.shape = box;
        for (const Vector3d& corner : block) {
            body.lo = &corner == block.data() ? corner : Vector3d(body.lo.cwiseMin(corner));
            body.hi = &corner == block.data() ? corner : Vector3d(body.hi.cwiseMax(corner));
        }
    }
    void reach(double from_mm, double to_mm) {
        if (body.lo.x() == from_mm && body.hi.x() == to_mm) return;
        body.pose.translation().x() = 0.5 * (from_mm + to_mm);
        body.lo.x() = from_mm;
        body.hi.x() = to_mm;
        box->side.x() = to_mm - from_mm;
        box->computeLocalAABB();
    }
    std::shared_ptr<fcl::Box<double>> box;
    Body body;
};

// One moment of a swing.
struct Moment {
    Isometry3d moving;
    LeafBlock leaf;
    LeafBlock leaf_bearing;
};
using Swing = std::vector<Moment>;

struct Group {
    PanelId frame;
    Bodies whole, shrunk;
};

std::vector<bool> beyond(const Part& part, BendId bend) {
    std::vector<bool> result(part.panels.size(), false);
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        result[part.bends[i].child.index()] = i == bend.index() || result[part.bends[i].parent.index()];
    }
    return result;
}

}  // namespace

class LibraryLattice::Scene {
public:
    Scene(const Part& part, const BrakeInSetup& brake, double overbend_deg, double step_deg)
        : part_(part), brake_(brake), step_deg_(step_deg) {
        const oracle::Outlines outlines(part);
        for (std::size_t i = 0; i < part.panels.size(); ++i)
            flat_.push_back(groupOf(oracle::panelPiece(part, outlines, idAt<PanelId>(i))));
        for (std::size_t i = 0; i < part.bends.size(); ++i) {
            const auto bend = idAt<BendId>(i);
            flat_.push_back(groupOf(oracle::stripPiece(part, bend, false, brake.inside_radius_mm())));
            formed_.push_back(groupOf(oracle::stripPiece(part, bend, true, brake.inside_radius_mm())));
            beyond_.push_back(beyond(part, bend));
            for (const Side hold : kBothSides) {
                strokes_.push_back(
                    std::make_unique<oracle::LeafModel>(part, outlines, brake, overbend_deg, 0, bend, hold));
                own_strips_.push_back(bodiesOf(strokes_.back()->ownStrip()));
            }
        }
    }

    bool run(const Question& question, const MachineState& machine_state, Forming forming, Fit fit, double step_deg) {
        layOut(question, fit);
        stand(machine_state, fit);
        const std::size_t fold = question.bend.index() * 2 + static_cast<std::size_t>(question.hold);
        return meetStill(held_, tools_) || meetStill(held_, own_strips_[fold]) ||
               swingMeets(swing(question, machine_state, forming, fit, step_deg), machine_state);
    }

    [[nodiscard]] const oracle::LeafModel& stroke(BendId bend, Side hold) const {
        return *strokes_[slotOf(bend, hold)];
    }
    [[nodiscard]] const Part& part() const { return part_; }
    [[nodiscard]] double step_deg() const { return step_deg_; }
    [[nodiscard]] const Work& work() const { return work_; }

private:
    static Group groupOf(const oracle::LocalPiece& piece) {
        return {piece.frame, bodiesOf(piece.whole), bodiesOf(piece.shrunk)};
    }

    void layOut(const Question& question, Fit fit) {
        const std::vector<Rigid> poses = baseFromPanels(part_, question.formed, brake_.inside_radius_mm());
        const Bend& own = part_.bend(question.bend);
        const PanelId held = question.hold == Side::kParent ? own.parent : own.child;
        const Isometry3d frame = stroke(question.bend, question.hold).frame() * poses[held.index()].inverse();
        for (Bodies* bodies : {&moving_, &held_, &held_for_moving_}) bodies->clear();
        for (std::size_t i = 0; i < flat_.size(); ++i) {
            const std::size_t bend = i - part_.panels.size();  // of a strip
            const bool is_strip = i >= part_.panels.size();
            if (is_strip && bend == question.bend.index()) continue;
            const Group& group = is_strip && contains(question.formed, idAt<BendId>(bend)) ? formed_[bend] : flat_[i];
            const bool moves = beyond_[question.bend.index()][group.frame.index()] == (question.hold == Side::kParent);
            const Isometry3d pose = frame * poses[group.frame.index()];
            for (const Body& body : group.whole) (moves ? moving_ : held_).emplace_back(body).moveTo(pose);
            if (moves) continue;
            for (const Body& body : fit == Fit::kShrunk ? group.shrunk : group.whole)
                held_for_moving_.emplace_back(body).moveTo(pose);
        }
        before_.clear();
        for (const Body& body : moving_) before_.push_back(body.pose);
    }

    void stand(const MachineState& machine_state, Fit fit) {
        tools_ = machine(machine_state, fit);
        for (const MachineState::Piece& piece : machine_state.bars) {
            Isometry3d place = Isometry3d::Identity();
            place.translation().x() = piece.from_mm;
            for (const Body& body : bar(piece.bar, piece.to_mm - piece.from_mm, fit))
                tools_.emplace_back(body).moveTo(place);
        }
    }

    const Bodies& machine(const MachineState& machine_state, Fit fit) {
        const auto [entry, is_new] = machines_.try_emplace(
            {machine_state.machine_from_mm, machine_state.machine_to_mm, static_cast<double>(fit)});
        if (!is_new) return entry->second;
        const auto add = [&](const Region& region) {
            for (const Polygon& section : oracle::fitted(region, fit)) {
                entry->second.push_back(
                    bodyOf(fclPrism(section, machine_state.machine_from_mm, machine_state.machine_to_mm, fclAlongX())));
            }
        };
        add(oracle::bedSectionOf(brake_));
        if (brake_->leaf().beam) add(oracle::beamSectionOf(brake_, part_.thickness_mm));
        return entry->second;
    }

    // From x = 0 on; the lower part is shorter by the end relief.
    const Bodies& bar(std::size_t which, double width_mm, Fit fit) {
        const auto [entry, is_new] =
            bars_.try_emplace({static_cast<double>(which), width_mm, static_cast<double>(fit)});
        if (!is_new) return entry->second;
        const tinwright::Bar& what = *brake_->bar(idAt<ToolId>(which));
        const Region region = oracle::barSectionOf(what, part_.thickness_mm);
        const double split = what.end_relief_mm > 0 ? part_.thickness_mm + what.end_relief_height_mm : -kEndless_mm;
        const auto add = [&](double z_lo, double z_hi, double shorter_mm) {
            for (const Region& piece : oracle::cut(region, z_lo, z_hi)) {
                for (const Polygon& section : oracle::fitted(piece, fit)) {
                    entry->second.push_back(bodyOf(
                        fclPrism(section, shorter_mm + kSliver_mm, width_mm - shorter_mm - kSliver_mm, fclAlongX())));
                }
            }
        };
        add(split, kEndless_mm, 0);
        if (what.end_relief_mm > 0) add(-kEndless_mm, split, what.end_relief_mm);
        return entry->second;
    }

    Swing& swing(const Question& question, const MachineState& machine_state, Forming forming, Fit fit,
                 double step_deg) {
        const std::array<double, 6> key{static_cast<double>(question.bend.index()),
                                        static_cast<double>(question.hold),
                                        step_deg,
                                        forming.uniform_share,
                                        static_cast<double>(fit),
                                        static_cast<double>(machine_state.face)};
        const auto [entry, is_new] = swings_.try_emplace(key);
        if (!is_new) return entry->second;
        const oracle::LeafModel& how = stroke(question.bend, question.hold);
        const LeafFace& face = brake_->leaf().leaf_faces[machine_state.face];
        const int steps = static_cast<int>(std::ceil(how.set_rad() * 180.0 / std::numbers::pi / step_deg));
        for (int i = 0; i <= steps; ++i) {
            const double angle = how.set_rad() * i / steps;
            entry->second.push_back({how.swing(angle, forming), LeafBlock(how.leaf(angle, face, fit, -1, 1)),
                                     LeafBlock(how.leafBearing(angle, face, fit, -1, 1, forming))});
        }
        return entry->second;
    }

    bool swingMeets(Swing& swing, const MachineState& machine_state) {
        for (Moment& moment : swing) {
            moment.leaf.reach(machine_state.machine_from_mm, machine_state.machine_to_mm);
            moment.leaf_bearing.reach(machine_state.machine_from_mm, machine_state.machine_to_mm);
            for (const Body& body : held_) {
                if (meet(body, moment.leaf.body)) return true;
            }
            for (std::size_t i = 0; i < moving_.size(); ++i) {
                Body& body = moving_[i];
                body.moveTo(moment.moving * before_[i]);
                if (meet(body, moment.leaf_bearing.body) || meetAny(body, tools_) || meetAny(body, held_for_moving_))
                    return true;
            }
        }
        return false;
    }

    bool meetStill(const Bodies& some, const Bodies& others) {
        return std::any_of(some.begin(), some.end(), [&](const Body& body) { return meetAny(body, others); });
    }
    bool meetAny(const Body& body, const Bodies& others) {
        return std::any_of(others.begin(), others.end(), [&](const Body& other) { return meet(body, other); });
    }
    bool meet(const Body& a, const Body& b) {
        ++work_.box_tests;
        if (!a.boxMeets(b)) return false;
        ++work_.convex_tests;
        fcl::CollisionRequest<double> request;
        request.gjk_solver_type = fcl::GJKSolverType::GST_LIBCCD;
        fcl::CollisionResult<double> result;
        return fcl::collide<double>(a.shape.get(), a.pose, b.shape.get(), b.pose, request, result) > 0;
    }

    const Part& part_;
    BrakeInSetup brake_;
    double step_deg_;
    std::vector<std::unique_ptr<oracle::LeafModel>> strokes_;  // [bend * 2 + hold]
    std::vector<Bodies> own_strips_;
    std::vector<std::vector<bool>> beyond_;  // by bend, by panel
    std::vector<Group> flat_;                // panels, then strips
    std::vector<Group> formed_;              // strips
    std::map<std::array<double, 6>, Swing> swings_;
    std::map<std::array<double, 3>, Bodies> machines_, bars_;
    // Of the fold at hand. One body of a pair is shrunk by the contact tolerance: tools, and the held side for the
    // moving one.
    Bodies moving_, held_, held_for_moving_, tools_;
    std::vector<Isometry3d> before_;
    Work work_;
};

LibraryLattice::LibraryLattice(const Part& part, const BrakeInSetup& brake, double overbend_deg, double step_deg)
    : scene_(std::make_unique<Scene>(part, brake, overbend_deg, step_deg)) {}
LibraryLattice::~LibraryLattice() = default;

const oracle::LeafModel& LibraryLattice::stroke(BendId bend, Side hold) const { return scene_->stroke(bend, hold); }

MachineState LibraryLattice::barOverBend(BendId bend, Side hold) const {
    const std::vector<StripSpan>& spans = scene_->part().bend(bend).spans;
    const double from = stroke(bend, hold).leastStrip_mm();
    double least = spans[0].from_mm, most = spans[0].to_mm;
    for (const StripSpan& span : spans) least = std::min(least, span.from_mm), most = std::max(most, span.to_mm);
    return {{{0, from, from + most - least}}, 0, -kEndless_mm, kEndless_mm};
}

bool LibraryLattice::collides(const Question& question, const MachineState& machine_state, Forming forming) {
    return scene_->run(question, machine_state, forming, Fit::kShrunk, scene_->step_deg());
}

bool LibraryLattice::meetsLookedAtCloser(const Question& question, const MachineState& machine_state, Forming forming) {
    return scene_->run(question, machine_state, forming, Fit::kGrown, scene_->step_deg() / 10);
}

LibraryLattice::Work LibraryLattice::work() const { return scene_->work(); }

}  // namespace tinwright::bench
