// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/plan/plan.h>
#include <tinwright/geometry/interval_set.h>

#include "contact/stroke_scene.h"

namespace tinwright {

/// Something at the back of a part that fingers may lie against: it faces straight back, y over z and x in the frame of
/// the fold.
struct GaugeFace {
    GaugeStop::Touch touch = GaugeStop::Touch::kEdge;
    PanelId panel;
    std::uint32_t record = 0;  ///< of the group that it belongs to, in the frame of its bend
    Micron shift_um = 0;       ///< from there to the frame of the fold
    int bends_between = 0;
    double y_mm = 0;
    double z_lo_mm = 0;
    double z_hi_mm = 0;
    Vec2 on_edge = Vec2::Zero();  ///< of an edge, in blank coordinates: a point of it, and the way out of the sheet
    Vec2 outward = Vec2::Zero();
    struct Stretch {  ///< of an edge or a bend
        Interval at;
        std::string edge;  ///< NamedEdge, if it has one
    };
    std::vector<Stretch> stretches;
    std::vector<Polygon> rings;  ///< of a flange's face: outline and holes as (x, z)

    /// Where along x it faces back over all of these heights.
    [[nodiscard]] IntervalSet between(double z_lo_mm, double z_hi_mm) const;
    /// The named edge that lies there.
    [[nodiscard]] std::string edgeAt(Interval at) const;
};

/// Finds them: what hangs on the part alone is worked out once.
class GaugeFaces {
public:
    explicit GaugeFaces(const Part& part);

    /// Those of the sides that lie at the back in a stroke; in the order of the panels, then of the bends. y > 0.
    [[nodiscard]] std::vector<GaugeFace> behind(const ContactCache& table, const StrokeScene& scene) const;

private:
    struct FreeEdge {  // counter-clockwise round its panel
        Vec2 from = Vec2::Zero();
        Vec2 to = Vec2::Zero();
        std::string name;
    };
    void addEdge(PanelId panel, const Vec2& from, const Vec2& to);
    void addEdges(const GroupRecord& touch, const GaugeFace& like, std::vector<GaugeFace>& faces) const;
    void addFace(const GroupRecord& touch, GaugeFace face, std::vector<GaugeFace>& faces) const;
    void addBend(const ContactCache& table, const GroupRecord& touch, GaugeFace face,
                 std::vector<GaugeFace>& faces) const;

    const Part* part_;
    std::vector<std::vector<FreeEdge>> edges_;  // by panel
};

}  // namespace tinwright
