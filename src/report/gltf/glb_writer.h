// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include <tinwright/part/model/pose.h>

#include "scene/fold_scene.h"

namespace tinwright::report {

/// Values of one node over one animation.
struct GlbTrack {
    std::size_t node = 0;
    std::vector<float> times_s;
    std::vector<Rigid> poses;    ///< one for each time; empty: scale instead
    std::vector<double> scales;  ///< one for each time, held until the next
};

/// Gathers nodes, meshes and animations and writes them as one binary glTF file. Lengths of what is added are mm with z
/// up; the root node makes metres with y up of them.
class GlbWriter {
public:
    explicit GlbWriter(const std::string& name);

    /// A kind of surface: linear red, green, blue from 0 to 1.
    std::size_t addMaterial(const std::string& name, const std::array<double, 3>& colour);
    /// A node with a mesh of its own; `scale` 0 hides it.
    std::size_t addNode(const std::string& name, const std::vector<Slab>& slabs, std::size_t material,
                        const Rigid& pose, double scale = 1);
    void addAnimation(const std::string& name, const std::vector<GlbTrack>& tracks);

    [[nodiscard]] std::string file() const;

private:
    std::size_t addAccessor(const std::vector<float>& values, std::size_t width, bool vertices, bool with_bounds);

    nlohmann::json document_;
    std::string bytes_;
};

}  // namespace tinwright::report
