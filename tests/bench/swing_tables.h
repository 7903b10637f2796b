// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The question that the library answers too, put to the kernel: one bar over all of the bend, a machine without ends.
// What the kernel finds once for each group or pair of groups and state of the bends on their path is reduced to
// patterns of formed bends; a state is then decided by comparing masks.

#include <cstdint>
#include <functional>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

#include "contact/contact_cache.h"
#include "library_lattice.h"

namespace tinwright::bench {

/// States in which the bends of `mask` are formed just as in `value`.
struct Pattern {
    BendMask mask = 0;
    BendMask value = 0;
    [[nodiscard]] bool holds(BendMask formed) const { return (formed & mask) == value; }
    friend auto operator<=>(const Pattern&, const Pattern&) = default;
};

/// Pairs that differ in one bend lose it; what another pattern holds goes.
[[nodiscard]] std::vector<Pattern> reduced(std::vector<Pattern> patterns);

class SwingTables {
public:
    enum class Answer { kClear, kUnclear, kHit };

    /// Casts every shadow and sweeps every pair, once each.
    SwingTables(const Part& part, const Shop& shop, const BrakeInSetup& brake);

    [[nodiscard]] Answer answer(const Question& question) const {
        const Fold& fold = folds_[question.bend.index() * 2 + static_cast<std::size_t>(question.hold)];
        for (const Pattern& pattern : fold.hits) {
            if (pattern.holds(question.formed)) return Answer::kHit;
        }
        for (const Pattern& pattern : fold.unclear) {
            if (pattern.holds(question.formed)) return Answer::kUnclear;
        }
        return Answer::kClear;
    }

    [[nodiscard]] std::size_t patterns() const;
    [[nodiscard]] std::size_t records() const { return table_.records().count(); }
    [[nodiscard]] std::size_t pairs() const { return table_.pairs().count(); }

private:
    struct Fold {
        std::vector<Pattern> hits, unclear;
    };
    // A group with the bends that its place depends on, and its record by the state of those.
    struct Member {
        std::size_t group = 0;
        BendMask path = 0;
        std::vector<std::uint32_t> records;
        [[nodiscard]] std::uint32_t record(BendMask formed) const;
    };
    void fill(Fold& fold, BendId bend, Side hold);
    [[nodiscard]] std::vector<Member> members(BendId bend, Side hold);
    static void addStates(Fold& fold, BendMask mask, const std::function<Answer(BendMask)>& answer);
    Answer toolAnswer(std::uint32_t record, BendId bend, Side hold, Interval bar);
    Answer pairAnswer(std::uint32_t a, std::uint32_t b);
    [[nodiscard]] Interval barAt(BendId bend, Side hold) const;

    PartOnBrake folded_;
    ContactCache table_;
    std::vector<Fold> folds_;
};

}  // namespace tinwright::bench
