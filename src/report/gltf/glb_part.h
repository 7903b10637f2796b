// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "gltf/glb_writer.h"
#include "scene/fold_scene.h"

namespace tinwright::report {

/// A move along the machine.
[[nodiscard]] Rigid alongMachine(double x_mm);

/// Part and strips as nodes of a glTF file: a node for each panel, and slices of every strip, each a flat slab that
/// turns with its share of the bend.
class GlbPart {
public:
    GlbPart(const PartShapes& shapes, double inside_radius_mm)
        : shapes_(shapes), part_(shapes.part), inside_radius_mm_(inside_radius_mm) {}

    /// `poses` as posesOf() has them.
    void addNodes(GlbWriter& writer, std::size_t colour, const std::vector<Rigid>& poses);

    /// Of all panels, then of all slices of all bends, in the frame of the machine, in which the fold begins at
    /// `part_x_mm`. `angle` and `share` are those of the new strips.
    [[nodiscard]] std::vector<Rigid> posesOf(const FoldScene& scene, double part_x_mm,
                                             const std::vector<PartBody>& bodies, double angle_rad, double share) const;

    /// Of all nodes: `moments` are poses at the times.
    void addTracks(std::vector<GlbTrack>& tracks, const std::vector<float>& times_s,
                   const std::vector<std::vector<Rigid>>& moments) const;

private:
    void addStrip(GlbWriter& writer, std::size_t colour, std::size_t bend, const std::vector<Rigid>& poses) const;
    [[nodiscard]] Rigid sliceOfHem(const Bend& bend, int slice) const;
    [[nodiscard]] Rigid sliceFromMiddle(const Bend& bend, int slice, double half_angle_rad,
                                        double half_rolled_mm) const;

    const PartShapes& shapes_;
    const Part& part_;
    double inside_radius_mm_;
    std::size_t first_ = 0;  ///< node of the first panel; the others and the slices follow
};

}  // namespace tinwright::report
