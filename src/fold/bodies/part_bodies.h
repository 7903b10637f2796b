// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/brake/plan/body_ref.h>
#include <tinwright/part/model/bend_frame.h>
#include <tinwright/part/model/part.h>
#include <tinwright/part/model/pose.h>

#include "kernel/solid.h"

namespace tinwright {

/// A rigid piece of the part: a panel, or the strip of a bend.
struct Group {
    bool is_strip = false;
    BendId bend;                     ///< of a strip
    PanelId frame;                   ///< the panel in whose blank frame the rings are: itself, or the strip's parent
    std::vector<PrismRings> flat;    ///< the panel, or the strip not yet formed
    std::vector<PrismRings> formed;  ///< slices of the arc, circumscribed: a strip that is formed
    [[nodiscard]] BodyRef ref() const { return is_strip ? BodyRef(bend) : BodyRef(frame); }
};

/// The part as bodies for one brake: every formed bend but hems, which are closed, has
/// the inside radius of the brake, or that of the brake that makes it (`radii_mm`, by bend; empty: all are made on this
/// one). Groups 0..panels-1 are the panels, then come the strips in the order of the bends.
class PartBodies {
public:
    PartBodies(const PartOnBrake& on_brake, double inside_radius_mm, std::vector<double> radii_mm = {});

    [[nodiscard]] const PartOnBrake& onBrake() const { return *on_brake_; }
    [[nodiscard]] const Part& part() const { return *part_; }
    [[nodiscard]] double inside_radius_mm() const { return inside_radius_mm_; }
    /// Of a bend that is formed, which of a hem is half its gap.
    [[nodiscard]] double formedRadius_mm(BendId bend) const;
    [[nodiscard]] const std::vector<Group>& groups() const { return groups_; }
    [[nodiscard]] std::size_t stripGroup(BendId bend) const { return part_->panels.size() + bend.index(); }

    /// Bends between two panels of the tree.
    [[nodiscard]] BendMask path(PanelId a, PanelId b) const { return from_base_[a.index()] ^ from_base_[b.index()]; }
    /// Pose of panel b in the blank frame of panel a; depends only on the formed bends on their path.
    [[nodiscard]] Rigid pose(PanelId a, PanelId b, BendMask formed) const;
    /// The slices of a strip bent to any angle, in its parent's frame.
    [[nodiscard]] std::vector<PrismRings> arcOf(BendId bend, Angle angle) const;

private:
    void addStrips();
    [[nodiscard]] std::vector<PrismRings> closedHem(const Bend& bend) const;
    const PartOnBrake* on_brake_;
    const Part* part_;
    double inside_radius_mm_;
    std::vector<double> radii_mm_;  // by bend, formed
    std::vector<Group> groups_;
    std::vector<BendMask> from_base_;  // bends between a panel and the base
    std::vector<int> bend_above_;      // the bend that joins a panel to its parent, -1 for the base
    std::vector<int> depth_;
    std::vector<Rigid> parent_from_child_;  // of each bend, formed
    std::vector<Rigid> child_from_parent_;
};

}  // namespace tinwright
