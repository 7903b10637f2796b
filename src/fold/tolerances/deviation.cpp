// SPDX-License-Identifier: GPL-3.0-or-later
#include "tolerances/deviation.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tinwright {

namespace {

constexpr double kSquareBend = 1e-9;

// A bend on the way from one panel to another.
struct PathBend {
    BendId bend;
    bool from_parent;  // the way goes from its parent to its child
};

std::vector<PathBend> pathBetween(const Part& part, PanelId from, PanelId to, BendMask path) {
    std::vector<PathBend> result;
    for (PanelId at = from; at != to;) {
        for (std::size_t i = 0; i < part.bends.size(); ++i) {
            const auto id = idAt<BendId>(i);
            const Bend& bend = part.bends[i];
            if (!contains(path, id) || (bend.parent != at && bend.child != at)) continue;
            path &= ~bit(id);
            result.push_back({id, bend.parent == at});
            at = bend.parent == at ? bend.child : bend.parent;
            break;
        }
    }
    return result;
}

// The neutral line lies at A / angle from the arc's axis; of that the share that is not the radius grows with the
// thickness.
double neutralShare(const Bend& bend, double thickness_mm) {
    return std::abs(bend.allowance_mm / bend.angle.rad() - bend.inside_radius_mm) / thickness_mm;
}

// |c| ≤ at_zero + slope · c for all c between two values: exact when both have one sign, else the chord.
struct Chord {
    double at_zero;
    double slope;
};

Chord chordOverAmount(double least, double most) {
    if (least >= 0) return {0, 1};
    if (most <= 0) return {0, -1};
    return {-2 * least * most / (most - least), (most + least) / (most - least)};
}

}  // namespace

double stripDeviation_mm(const Bend& bend, double part_thickness_mm, const ToleranceBox& box) {
    const double angle_rad = bend.angle.rad();
    const double neutral_mm = bend.allowance_mm / angle_rad;
    return neutral_mm * box.bend_angle.rad() +
           (angle_rad + box.bend_angle.rad()) * neutralShare(bend, part_thickness_mm) * box.thickness_mm;
}

Deviation::Deviation(const PartBodies& bodies, const ToleranceBox& box, const DeviationState& state, std::size_t group)
    : angle_rad_(box.bend_angle.rad()), thickness_mm_(box.thickness_mm) {
    const Part& part = bodies.part();
    const Group& what = bodies.groups()[group];
    const Bend& line = part.bend(state.bend);
    const PanelId held = heldPanel(line, state.hold);
    const Rigid fold_from_held = foldFromBlank(line, state.hold, part.thickness_mm, bodies.inside_radius_mm());
    cutting_mm_ = box.cutting_mm[what.frame.index()];
    sources_.push_back({Vec3(0, box.bend_line_mm, 0), Vec3::Zero(), Vec3::Zero()});  // the sight line under the nose
    if (!line.up) lower_ = Vec3::UnitZ();  // the drawn face lies down: z = 0 of the panel is its upper face
    PanelId at = held;
    for (const PathBend& step : pathBetween(part, held, what.frame, bodies.path(held, what.frame))) {
        const Bend& bend = part.bend(step.bend);
        const PanelId next = step.from_parent ? bend.child : bend.parent;
        if (contains(state.formed, step.bend)) {
            const Rigid parent = fold_from_held * bodies.pose(held, bend.parent, state.formed);
            addBend(bodies, box, step.bend, parent, step.from_parent);
        }
        at = next;
    }
    const Rigid pose = fold_from_held * bodies.pose(held, at, state.formed);
    upper_ = lower_ + pose.linear().col(2);
    slope_ = static_cast<double>(formed_bends_) * angle_rad_ * (1 + static_cast<double>(formed_bends_) * angle_rad_);
    if (what.is_strip && contains(state.formed, what.bend)) {
        if (!contains(bodies.path(held, what.frame), what.bend)) ++formed_bends_;
        const Bend own = finished(part.bend(what.bend));
        const double end_rad = own.angle.rad() + angle_rad_;
        strip_mm_ = box.formedLine_mm(what.bend) + stripDeviation_mm(own, part.thickness_mm, box) +
                    box.thickness_mm * std::max(1.0, 1 - std::cos(end_rad)) +
                    angle_rad_ * (bodies.formedRadius_mm(what.bend) + part.thickness_mm + box.thickness_mm);
    } else {
        addOutline(part, box, what);
    }
}

// An outline is off by the cut, or where a strip begins by that. At a corner where both meet each counts along its own
// axis.
void Deviation::addOutline(const Part& part, const ToleranceBox& box, const Group& what) {
    bool has_axis = false;
    bool is_square = true;
    for (const Bend& bend : part.bends) {
        const bool is_own = what.is_strip && &bend == &part.bend(what.bend);
        if (what.is_strip ? !is_own : bend.parent != what.frame && bend.child != what.frame) continue;
        strip_mm_ = std::max(strip_mm_, box.bend_line_mm + stripDeviation_mm(bend, part.thickness_mm, box));
        if (!has_axis) axis_ = bend.along;
        has_axis = true;
        is_square = is_square && std::abs(axis_.dot(bend.along) * axis_.dot(bend.toward_child)) < kSquareBend;
    }
    outline_mm_ = is_square ? std::max(cutting_mm_, strip_mm_) : std::hypot(cutting_mm_, strip_mm_);
}

// The child's side of a bend goes to Cc + R(p - Cc - A u) in its parent's frame, Cc the arc's centre and u towards the
// child (pose.h). The line off by s, the strip wider by dA, the centre higher by dt of a bend up, the angle off by da:
// (I - R)(s u + dt z) - (I + R) u dA / 2 + da axis × (its place - Cc), and what is of second order.
void Deviation::addBend(const PartBodies& bodies, const ToleranceBox& box, BendId id, const Rigid& fold_from_parent,
                        bool from_parent) {
    const Part& part = bodies.part();
    const Bend bend = finished(part.bend(id));
    const double radius_mm = bodies.formedRadius_mm(id);
    const Eigen::Matrix3d turn = parentFromChild(bend, part.thickness_mm, bend.angle, radius_mm).linear();
    const Vec3 u(bend.toward_child.x(), bend.toward_child.y(), 0);
    const Vec2 tangent = bend.origin - 0.5 * bend.allowance_mm * bend.toward_child;
    const Vec3 centre(tangent.x(), tangent.y(), bend.up ? part.thickness_mm + radius_mm : -radius_mm);
    const Vec3 along(bend.along.x(), bend.along.y(), 0);
    const Eigen::Matrix3d& to_fold = fold_from_parent.linear();
    const double strip_mm = stripDeviation_mm(bend, part.thickness_mm, box);
    const double line_mm = box.formedLine_mm(id) + 0.5 * strip_mm;  // a strip starts where the held side's tangent line
                                                                    // was: either
    const Eigen::Matrix3d away = Eigen::Matrix3d::Identity() - turn;
    const Vec3 about = fold_from_parent * centre;
    sources_.push_back({to_fold * away * u * line_mm, Vec3::Zero(), Vec3::Zero()});
    sources_.push_back({to_fold * (u + turn * u) * (0.5 * strip_mm), Vec3::Zero(), Vec3::Zero()});
    sources_.push_back({Vec3::Zero(), to_fold * along * angle_rad_, about});
    const double rise_mm = bend.up ? box.thickness_mm : 0.0;
    // Told from the child's side the same vectors come with the other sign.
    if (bend.up) lower_ += (from_parent ? 1.0 : -1.0) * (to_fold * away.col(2));
    turned_.push_back({to_fold * along, about, angle_rad_ * (line_mm + rise_mm + 0.5 * strip_mm),
                       2 * (line_mm + rise_mm) + strip_mm});
    ++formed_bends_;
}

// A bend's displacement is turned by what the bends before it are off by; sine and cosine of its own angle are taken to
// first order.
double Deviation::remainder_mm(const Vec3& point) const {
    double sum = 0;
    double turned_rad = 0;
    for (const Turned& bend : turned_) {
        const double distance = bend.axis.cross(point - bend.about).norm();
        sum += turned_rad * (angle_rad_ * distance + bend.moved_mm) + bend.fixed_mm +
               0.5 * angle_rad_ * angle_rad_ * distance;
        turned_rad += angle_rad_;
    }
    return sum + turned_rad * (std::sqrt(2.0) * std::max(cutting_mm_, strip_mm_) + thickness_mm_);
}

double Deviation::along_mm(const Vec3& direction, const Vec3& point) const {
    double sum = remainder_mm(point);
    for (const Source& source : sources_) sum += std::abs(direction.dot(source.at(point)));
    return sum;
}

Deviation::Affine Deviation::affineAlong(const Vec3& direction, const std::vector<Vec3>& points) const {
    Affine sum;
    for (const Vec3& point : points) sum.at_origin_mm = std::max(sum.at_origin_mm, remainder_mm(point));
    for (const Source& source : sources_) {
        const Vec3 slope = direction.cross(source.turn);  // direction · (turn × r) = (direction × turn) · r
        const double at_origin = direction.dot(source.constant) - slope.dot(source.about);
        double least = std::numeric_limits<double>::infinity();
        double most = -least;
        for (const Vec3& point : points) {
            const double value = at_origin + slope.dot(point);
            least = std::min(least, value);
            most = std::max(most, value);
        }
        const Chord chord = chordOverAmount(least, most);
        sum.at_origin_mm += chord.at_zero + chord.slope * at_origin;
        sum.slope += chord.slope * slope;
    }
    return sum;
}

double Deviation::ofThickness_mm(const Vec3& direction, bool upper, SeenFrom from) const {
    const Vec3 up = from == SeenFrom::kBars ? Vec3(0, 0, 1) : Vec3(Vec3::Zero());
    return thickness_mm_ * std::abs(direction.dot((upper ? upper_ : lower_) - up));
}

double Deviation::most_mm(const Vec3& point) const {
    double sum = remainder_mm(point) + std::sqrt(2.0) * std::max(cutting_mm_, strip_mm_);
    for (const Source& source : sources_) sum += source.at(point).norm();
    const double of_thickness =
        std::max({lower_.norm(), upper_.norm(), (lower_ - Vec3::UnitZ()).norm(), (upper_ - Vec3::UnitZ()).norm()});
    return sum + thickness_mm_ * of_thickness;
}

}  // namespace tinwright
