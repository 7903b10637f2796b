// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <vector>

#include <tinwright/brake/machines/brake.h>

namespace tinwright {

/// A brake as one part is folded on it: a leaf brake with its setback for the sheet, a press brake in one V. It says
/// which inside radius bends get, and which tools are of use; what it is made from is not changed by it. Does not
/// change once made, and is cheap to copy: results and reports carry it, so that all of them speak of the same set-up.
///
///     const BrakeInSetup folder = inSetup(shop.brakes[0], part.thickness_mm);
///     const BrakeInSetup press = inVee(shop.brakes[1], vee, 0.16 * vee.opening_mm);
///     folder->length_mm; press.inside_radius_mm(); for (ToolId id : press.tools(ToolRow::kLower)) press->die(id);
class BrakeInSetup {
public:
    /// None: a result that was not planned yet has it. All but known() needs one that is.
    BrakeInSetup() = default;

    [[nodiscard]] bool known() const { return brake_ != nullptr; }
    /// The machine.
    [[nodiscard]] const Brake& operator*() const { return *brake_; }
    [[nodiscard]] const Brake* operator->() const { return brake_.get(); }

    /// That bends get: of the bars' nose, or in the V.
    [[nodiscard]] double inside_radius_mm() const { return inside_radius_mm_; }
    /// y at which the flat strip of a bend ends on the held side, in the frame of a fold: it lies under the nose from
    /// the held side's tangent line on, or with its middle under the punch's tip.
    [[nodiscard]] double stripBack_mm(double allowance_mm) const;
    /// Of a leaf brake: nose line to hinge, for the sheet and what packs it up.
    [[nodiscard]] double setback_mm() const { return setback_mm_; }
    /// Of a leaf brake: the hinge over what the sheet lies on, the bed or the packing on it.
    [[nodiscard]] double hinge_height_mm() const { return brake_->leaf().hinge_height_mm - packing_mm_; }
    /// Of a leaf brake: how thick the strips are that the bed is packed up with, and the leaf; 0: the sheet lies on
    /// them.
    [[nodiscard]] double packing_mm() const { return packing_mm_; }
    [[nodiscard]] double leafPacking_mm() const { return leaf_packing_mm_; }
    /// Of a leaf brake: the hinge over what of the leaf bears on the sheet, at rest.
    [[nodiscard]] double hingeOverLeaf_mm() const { return brake_->leaf().hinge_height_mm - leaf_packing_mm_; }
    /// The leaf brake with strips on the bed, and on the leaf: then its setback is that for a sheet thicker by as much,
    /// as far as the machine can be set. Precondition: a leaf brake.
    [[nodiscard]] BrakeInSetup packed(double packing_mm, bool on_leaf, double thickness_mm) const;
    /// Of a press brake: the V that it is in; nullptr on machines that have none.
    [[nodiscard]] const Vee* vee() const { return vee_ ? &*vee_ : nullptr; }

    /// Tools that are of use in the set-up and of which there are pieces, ascending: bars; punches that are no rounder
    /// than the bend, and dies with the V.
    [[nodiscard]] const std::vector<ToolId>& tools() const { return tools_; }
    [[nodiscard]] std::vector<ToolId> tools(ToolRow row) const;
    [[nodiscard]] bool uses(ToolId tool) const;

    /// True of copies: the same machine in the same set-up.
    [[nodiscard]] bool isSameAs(const BrakeInSetup& other) const {
        return brake_ == other.brake_ && vee_ == other.vee_;
    }

    /// Another machine of that kind in the same set-up: with a figure changed, or with more tools.
    [[nodiscard]] BrakeInSetup with(const Brake& changed) const;

private:
    friend BrakeInSetup inSetup(const Brake& brake, double thickness_mm);
    friend BrakeInSetup inVee(const Brake& brake, const Vee& vee, double radius_mm);

    std::shared_ptr<const Brake> brake_;
    double inside_radius_mm_ = 0;
    double setback_mm_ = 0;
    double packing_mm_ = 0;
    double leaf_packing_mm_ = 0;
    std::optional<Vee> vee_;
    std::vector<ToolId> tools_;
};

/// The leaf brake for a sheet. Precondition: it is a leaf brake.
[[nodiscard]] BrakeInSetup inSetup(const Brake& brake, double thickness_mm);

/// The press brake in one V: punches whose tip is rounder than `radius_mm`, the free inside radius in that V, are of no
/// use. Where every punch is rounder, bends get the least of their tips. Precondition: it is a press brake.
[[nodiscard]] BrakeInSetup inVee(const Brake& brake, const Vee& vee, double radius_mm);

}  // namespace tinwright
