// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <memory>
#include <unordered_map>
#include <vector>

#include "contact/group_records.h"
#include "contact/pair_contacts.h"

namespace tinwright {

/// Slices of arcs stand out by their sagitta: by so much an overlap may be theirs alone, and then nothing is known.
enum class StripContact { kClear, kUnclear, kHit };

/// The strips that strokes bend, and what lies in their way.
class OwnStrips {
public:
    OwnStrips(const StrokeGeometry& geometry, const GroupRecords& records);

    /// Whether the stroke's own strip, bent, keeps out of a group: a held one, or a moving one at the end of the
    /// stroke.
    StripContact contact(BendId bend, Side hold, std::uint32_t record, Micron shift_um);
    /// Its slices at the end of the stroke, in the bend's frame.
    const std::vector<Solid>& bent(BendId bend, Side hold);
    /// The same when the part has sprung back, where it then is.
    const std::vector<Solid>& sprungBack(BendId bend, Side hold);

private:
    using Slices = std::vector<std::unique_ptr<std::vector<Solid>>>;  // [bend * 2 + hold]
    [[nodiscard]] StripContact compute(const std::vector<Solid>& slices, const GroupRecord& group) const;

    const StrokeGeometry& geometry_;
    const GroupRecords& records_;
    Slices bent_;
    Slices sprung_back_;
    std::unordered_map<RecordPair, StripContact, RecordPair::Hash> contacts_;  // bend * 2 + hold, record
};

}  // namespace tinwright
