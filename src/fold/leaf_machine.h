// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/brake.h>
#include <tinwright/geometry/interval_set.h>

#include "shadow.h"

namespace tinwright {

enum class BodyKind { kBed, kBeam, kLeaf, kBarLow, kBarHigh };

/// A section that runs along x, in the frame of a fold, moved in by the contact tolerance. Rings are about the hinge for a
/// leaf, about the centre of the swing for all else.
struct Body {
    std::string name;
    BodyKind kind = BodyKind::kBed;
    std::vector<Convex2> section;
    ToolPieces pieces;         ///< of the section
    /// The same not moved in (but for rounding): clearances are told from these. So are contacts of bars with formed strips:
    /// a bar that rides up the fillet of a wall lifts long before it is a contact tolerance deep in it.
    ToolPieces strict;
};

/// How far the strict sections are moved in: an arc starts at a bar's underside, and touching there is no lift.
inline constexpr double kStrictInset_mm = 1e-3;

/// Bars of one section and end relief, whatever their width.
struct BarFamily {
    std::size_t high = 0;      ///< body: what stands over the whole width
    int low = -1;              ///< body: what the end relief shortens; -1 without relief
    Micron relief_um = 0;
    double depth_mm = 0;
    double height_mm = 0;
    Polygon section;           ///< in the frame of a fold, not moved in; simple, not always convex
};

/// Where a bar with end relief must not stand, from where its lower part would hit if it were full: intervals lose the
/// relief at both ends. One that vanishes keeps a point, since a bar may not span it, unless `high`, where the upper part
/// hits, keeps bars as far apart anyway.
[[nodiscard]] IntervalSet withRelief(const IntervalSet& low, Micron relief_um, const IntervalSet& high);
/// The same without those points: so it only grows with `low`.
[[nodiscard]] IntervalSet insideRelief(const IntervalSet& low, Micron relief_um);

/// The tools of one brake as bodies, for one sheet thickness.
class LeafMachine {
public:
    LeafMachine(const Brake& brake, double thickness_mm);

    [[nodiscard]] const Brake& brake() const { return *brake_; }
    [[nodiscard]] const std::vector<Body>& bodies() const { return bodies_; }
    [[nodiscard]] std::size_t bed() const { return 0; }
    [[nodiscard]] int beam() const { return beam_; }                       ///< -1: nothing stands over the bars
    [[nodiscard]] std::size_t leaf(std::size_t face) const { return first_leaf_ + face; }
    [[nodiscard]] const std::vector<BarFamily>& families() const { return families_; }
    [[nodiscard]] std::size_t familyOf(BarId bar) const { return family_of_[bar.index()]; }
    /// The first bar of a family.
    [[nodiscard]] BarId barOf(std::size_t family) const;
    [[nodiscard]] const Vec2& hinge() const { return hinge_; }
    [[nodiscard]] double thickness_mm() const { return thickness_mm_; }
    /// True when the leaf, swung to the angle with the sheet on it, keeps clear of this body by the margin.
    [[nodiscard]] bool leafClears(std::size_t leaf, std::size_t body, const Motion& body_from_leaf, double margin_mm = 0) const;

private:
    std::size_t addBody(std::string name, BodyKind kind, const std::vector<Polygon>& sections);
    void addFamily(const Bar& bar);

    const Brake* brake_;
    double thickness_mm_;
    Vec2 nose_centre_;
    Vec2 hinge_;
    std::vector<Body> bodies_;
    int beam_ = -1;
    std::size_t first_leaf_ = 0;
    std::vector<BarFamily> families_;
    std::vector<std::size_t> family_of_;
};

}  // namespace tinwright
