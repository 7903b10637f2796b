// SPDX-License-Identifier: GPL-3.0-or-later
#include "strokes/finished.h"

#include <algorithm>

#include "solids/shapes.h"

namespace tinwright::replay {

namespace {

constexpr double kFacets_mm = 0.05;

bool within(const Body& a, const Body& b, double by_mm) {
    for (const Prism& prism : a.shape.whole) {
        for (const Prism& larger : grownPrisms(prism, by_mm)) {
            const Solid solid = toSolid(larger);
            const bool met = std::any_of(b.whole.begin(), b.whole.end(), [&](const Solid& other) {
                return solid.box.intersects(other.box) && meet(solid, Rigid::Identity(), other, Rigid::Identity());
            });
            if (met) return true;
        }
    }
    return false;
}

}  // namespace

Finished::Finished(const Part& part, const std::vector<double>& radii_mm, const std::vector<Shape>& panels,
                   double wanted_mm)
    : within_mm_(wanted_mm + kFacets_mm) {
    Sheet sheet(part, radii_mm);
    for (std::size_t i = 0; i < part.bends.size(); ++i) sheet.form(idAt<BendId>(i), part.bends[i].angle);
    for (std::size_t i = 0; i < panels.size(); ++i) {
        members_.push_back(
            makeBody(part.panels[i].name, BodyKind::kPanel, moved(panels[i], sheet.spaceFromBlank(idAt<PanelId>(i)))));
    }
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Bend& bend = part.bends[i];
        const Shape strip = rolledStrip(part, bend, bend.angle, radii_mm[i], false);
        members_.push_back(makeBody(bend.name, BodyKind::kStrip, moved(strip, sheet.spaceFromBlank(bend.parent))));
    }
}

bool Finished::drawnClose(std::size_t a, std::size_t b) const {
    const auto [entry, is_new] = known_.try_emplace(std::minmax({a, b}), false);
    if (is_new) entry->second = within(members_[a], members_[b], within_mm_);
    return entry->second;
}

}  // namespace tinwright::replay
