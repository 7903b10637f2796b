// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/machines/brake.h>

#include "scene/fold_scene.h"
#include "scene/fold_view.h"

/// Tools of a leaf brake: sections in (y, z) of the fold.
namespace tinwright::report {

/// The leaf's face that a view shows; nullptr when the brake has none that is called so.
[[nodiscard]] const LeafFace* leafFaceOf(const FoldView& view);

/// Strips under the sheet, drawn as wide as they may be, up to 40 mm; empty: none.
[[nodiscard]] Polygon packingOnLeaf(const FoldView& view, Angle angle);
[[nodiscard]] Polygon packingOnBed(const FoldView& view);
[[nodiscard]] Polygon leafSection(const FoldScene& scene, const LeafFace& face, Angle angle);
[[nodiscard]] Polygon bedSection(const FoldScene& scene);
[[nodiscard]] Polygon barSection(const FoldScene& scene, const Tool& bar);
/// What is drawn of the beam: its front and underside. Precondition: there is one.
[[nodiscard]] Polygon beamSection(const FoldScene& scene, double reach_mm);

}  // namespace tinwright::report
