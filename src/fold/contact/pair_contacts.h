// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <unordered_map>

#include <tinwright/base/hash.h>

#include "contact/group_records.h"
#include "contact/known_gap.h"
#include "kernel/solid_pair.h"

namespace tinwright {

struct PairContact {
    PairVerdict verdict;
    bool near = false;  ///< nearer than wanted, be it so drawn or not
    KnownGap gap;
};

/// Two records, and how far the frame of the first is from that of the second.
struct RecordPair {
    std::uint32_t first = 0;
    std::uint32_t second = 0;
    Micron shift_um = 0;
    friend bool operator==(const RecordPair&, const RecordPair&) = default;
    struct Hash {
        std::size_t operator()(const RecordPair& key) const {
            const std::uint64_t ids = (std::uint64_t{key.first} << 32) | key.second;
            return static_cast<std::size_t>(hashed(ids, static_cast<std::uint64_t>(key.shift_um)));
        }
    };
};

/// How the moving groups of a stroke pass the held ones, each pair computed once.
class PairContacts {
public:
    PairContacts(const StrokeGeometry& geometry, GroupRecords& records) : geometry_(geometry), records_(records) {}

    /// A moving and a held group; `shift_um` takes the moving one's bend frame to the held one's.
    const PairContact& of(std::uint32_t moving, std::uint32_t held, Micron shift_um);
    /// Their clearance in (y, z); none when it is proven to be at least `cap_mm`. What comes back does not depend on
    /// the cap.
    std::optional<GapBound> gapUnder(double cap_mm, std::uint32_t moving, std::uint32_t held, Micron shift_um);
    [[nodiscard]] std::size_t count() const { return pairs_.size(); }

private:
    /// The pair of congruent records that tells what a pair meets: first the moving one.
    [[nodiscard]] RecordPair congruentOf(std::uint32_t moving, std::uint32_t held, Micron shift_um) const;
    PairContact& known(const RecordPair& congruents);
    [[nodiscard]] PairContact compute(const RecordPair& congruents);
    [[nodiscard]] bool quicklyBeyond(double cap_mm, const RecordPair& congruents) const;
    [[nodiscard]] const Motion& motionOf(const RecordPair& pair) const {
        return geometry_.motions(records_.at(pair.first).bend).pair;
    }

    const StrokeGeometry& geometry_;
    GroupRecords& records_;
    std::unordered_map<RecordPair, PairContact, RecordPair::Hash> pairs_;  // of congruent records
};

}  // namespace tinwright
