// SPDX-License-Identifier: GPL-3.0-or-later
#include "paper/label_placing.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "paper/clipping.h"
#include "words/text_width.h"

namespace tinwright::report {
namespace {

constexpr double kApart_mm = 0.6;        // between the boxes of two labels
constexpr double kReadable_mm = 4.0;     // of lines under a label; on more it gets a paper ground
constexpr double kNeedsLeader_mm = 3.0;  // from this distance on it is not plain what a label means
constexpr std::array<double, 10> kRings_mm{0, 1.5, 3, 5, 8, 12, 17, 24, 33, 45};
constexpr std::array<std::array<double, 2>, 12> kSides{
    {{1, -1}, {1, 1}, {-1, -1}, {-1, 1}, {0, -1}, {0, 1}, {1, 0}, {-1, 0}, {0.5, -1}, {-0.5, -1}, {0.5, 1}, {-0.5, 1}}};

Vec2 nearestIn(const Box& box, const Vec2& point) { return point.cwiseMax(box.least).cwiseMin(box.most); }

/// A box of this size on that side of a point, `gap_mm` away.
Box beside(const Vec2& at, const Vec2& side, double gap_mm, const Vec2& size) {
    const Vec2 centre = at + Vec2(side.x() * (0.5 * size.x() + gap_mm), side.y() * (0.5 * size.y() + gap_mm));
    return {centre - 0.5 * size, centre + 0.5 * size};
}

bool crosses(const Vec2& from, const Vec2& to, const Box& box) { return !clippedRuns({from, to}, false, box).empty(); }

}  // namespace

LabelPlacing::LabelPlacing(Drawing& drawing) : drawing_(drawing), ink_(drawing.size()) {
    for (const Drawing::Line& stroke : drawing.lines_) ink_.add(stroke.from, stroke.to);
    ink_.sum();
}

void LabelPlacing::run() {
    drawing_.clip_ = {Vec2::Zero(), drawing_.size_};
    for (const LabelWish& wish : drawing_.wishes_) place(wish);
    drawing_.wishes_.clear();
}

bool LabelPlacing::allowed(const Box& box, const Vec2& at) const {
    if (!Box{Vec2::Zero(), drawing_.size_}.holds(box)) return false;
    const Box apart{box.least - Vec2::Constant(kApart_mm), box.most + Vec2::Constant(kApart_mm)};
    const auto crossed = [&](const Drawing::Line& leader) { return crosses(leader.from, leader.to, box); };
    if (std::any_of(leaders_.begin(), leaders_.end(), crossed)) return false;
    const Vec2 end = nearestIn(box, at);
    const bool has_leader = (end - at).norm() > kNeedsLeader_mm;
    return std::none_of(drawing_.labels_.begin(), drawing_.labels_.end(), [&](const PlacedLabel& other) {
        return apart.overlaps(other.box) || (has_leader && crosses(at, end, other.box));
    });
}

LabelPlacing::Candidate LabelPlacing::best(const LabelWish& wish, const Vec2& size) const {
    Candidate best;
    for (const double ring_mm : kRings_mm) {
        for (std::size_t i = 0; i < kSides.size(); ++i) {
            const Vec2 side(kSides[i][0], kSides[i][1]);
            const Box box = beside(wish.at, side, wish.least_gap_mm + ring_mm, size);
            const double turned_away = wish.towards.isZero() ? 0.0 : 1.0 - wish.towards.dot(side.normalized());
            const double cost = 4.0 * ink_.under(box) + ring_mm + 3.0 * turned_away + 0.01 * static_cast<double>(i);
            if (best.found && cost >= best.cost) continue;
            if (allowed(box, wish.at)) best = {box, cost, true};
        }
        if (best.found && best.cost <= ring_mm) break;  // further out nothing is cheaper
    }
    return best;
}

Box LabelPlacing::atFoot(const Vec2& at, const Vec2& size) {
    drawing_.size_.y() += size.y() + kApart_mm;
    const double x = std::clamp(at.x() - 0.5 * size.x(), 0.0, drawing_.size_.x() - size.x());
    const Vec2 most(x + size.x(), drawing_.size_.y());
    return {most - size, most};
}

void LabelPlacing::settle(const LabelWish& wish, const std::string& text, const Box& box) {
    drawing_.clip_ = {Vec2::Zero(), drawing_.size_};
    const Vec2 end = nearestIn(box, wish.at);
    if ((end - wish.at).norm() > kNeedsLeader_mm) {
        drawing_.line(wish.at, end, Pen::kThin);
        leaders_.push_back({wish.at, end});
        drawing_.circle(wish.at, 0.35, Pen::kNone, Fill::kSolid);
    }
    const bool on_lines = ink_.under(box) > kReadable_mm;
    if (wish.ringed || on_lines) {
        const Polygon back{box.least, {box.most.x(), box.least.y()}, box.most, {box.least.x(), box.most.y()}};
        drawing_.polygon(back, wish.ringed ? Pen::kOutline : Pen::kNone, Fill::kPaper);
    }
    drawing_.addLabel({text, box, wish.bold, wish.ringed, false, {}});
}

void LabelPlacing::place(const LabelWish& wish) {
    const double room_mm = (drawing_.size_.x() - 2 * kRingRoom_mm) / boldness(wish.bold);
    const std::string text = fitted(wish.text, room_mm);
    Vec2 size(textWidth_mm(text) * boldness(wish.bold), labelHeight_mm());
    if (wish.ringed) size.x() += 2 * kRingRoom_mm;
    const Candidate found = best(wish, size);
    settle(wish, text, found.found ? found.box : atFoot(wish.at, size));
}

}  // namespace tinwright::report
