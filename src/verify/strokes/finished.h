// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <utility>
#include <vector>

#include "solids/bodies.h"
#include "solids/sheet.h"

namespace tinwright::replay {

/// The finished part: which of its panels and strips are drawn so close to one another that no fold can keep them
/// farther apart.
class Finished {
public:
    Finished(const Part& part, const std::vector<double>& radii_mm, const std::vector<Shape>& panels, double wanted_mm);

    /// Whether two members (Body::member) come within the wanted clearance, and a little more for the facets of arcs.
    [[nodiscard]] bool drawnClose(std::size_t a, std::size_t b) const;

private:
    double within_mm_;
    std::vector<Body> members_;
    mutable std::map<std::pair<std::size_t, std::size_t>, bool> known_;
};

}  // namespace tinwright::replay
