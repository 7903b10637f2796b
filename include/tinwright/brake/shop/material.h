// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tinwright/base/units.h>

namespace tinwright {

/// What the numbers of a material are. The two are never mixed in one entry: a limit that a standard guarantees is not
/// a value to expect, and for forces the upper tensile limit counts.
enum class ValueKind {
    kMinimum,  ///< limits of a standard: at least `least`, at most `most`
    kTypical,  ///< what is usually found; `least` and `most` are equal
};

/// A published number, or the limits of one, with where it was published.
struct Property {
    std::optional<double> least;  ///< unit: see Material; absent: no lower limit
    std::optional<double> most;
    std::string source;
    bool from_memory = false;  ///< not seen in the source when it was written down
    [[nodiscard]] bool known() const { return least.has_value() || most.has_value(); }
};

/// A sheet material with its published properties. Does not change once made.
struct Material {
    std::string id;                    ///< what recipes and shop files say, e.g. "dc01"
    std::string name;                  ///< with temper and standard
    std::string family;                ///< "steel", "stainless" or "aluminium"
    std::vector<std::string> aliases;  ///< other ids that mean this entry, e.g. "mild-steel"
    ValueKind kind = ValueKind::kMinimum;
    double over_thickness_mm = 0;  ///< the values hold for sheet thicker than this
    double to_thickness_mm = 0;    ///< up to and with this; 0: not said
    Property yield_mpa;            ///< Re or Rp0.2
    Property tensile_mpa;          ///< Rm
    Property elongation_percent;   ///< at fracture
    Property youngs_modulus_gpa;
    Property density_g_per_cm3;
    std::string note;
};

/// All materials of a materials file, in its order.
struct Materials {
    std::vector<Material> entries;

    /// By id or alias; nullptr when there is none.
    [[nodiscard]] const Material* find(std::string_view id) const;
    /// Every id and alias, in the file's order, for messages.
    [[nodiscard]] std::vector<std::string> ids() const;
};

/// Exact by definition of the pound-force and the inch: 1 ksi = 6.894757… MPa.
inline constexpr double kMpaPerKsi = 4.4482216152605 / (kMmPerInch * kMmPerInch) * 1000.0;

}  // namespace tinwright
