// SPDX-License-Identifier: GPL-3.0-or-later
#include "swing_tables.h"

#include <algorithm>
#include <bit>
#include <set>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

namespace tinwright::bench {

namespace {

using Answer = SwingTables::Answer;

Answer worse(Answer a, Answer b) { return std::max(a, b); }

// The bits of a value that a mask lets through, moved together.
std::size_t packed(BendMask value, BendMask mask) {
    std::size_t result = 0;
    for (int at = 0; mask != 0; mask &= mask - 1, ++at) {
        if ((value & mask & (~mask + 1)) != 0) result |= std::size_t{1} << at;
    }
    return result;
}

template <class Take>
void eachSubset(BendMask mask, Take take) {
    BendMask subset = 0;
    do {
        take(subset);
        subset = (subset - mask) & mask;
    } while (subset != 0);
}

}  // namespace

std::vector<Pattern> reduced(std::vector<Pattern> patterns) {
    std::set<Pattern> known(patterns.begin(), patterns.end());
    std::vector<Pattern> fresh(known.begin(), known.end());
    while (!fresh.empty()) {
        std::vector<Pattern> next;
        for (const Pattern& pattern : fresh) {
            for (BendMask left = pattern.mask; left != 0; left &= left - 1) {
                const BendMask one = left & (~left + 1);
                if (!known.contains({pattern.mask, pattern.value ^ one})) continue;
                const Pattern wider{pattern.mask & ~one, pattern.value & ~one};
                if (known.insert(wider).second) next.push_back(wider);
            }
        }
        fresh = std::move(next);
    }
    std::vector<Pattern> list(known.begin(), known.end());
    std::stable_sort(list.begin(), list.end(),
                     [](const Pattern& a, const Pattern& b) { return std::popcount(a.mask) < std::popcount(b.mask); });
    std::vector<Pattern> result;
    for (const Pattern& pattern : list) {
        const bool held = std::any_of(result.begin(), result.end(), [&](const Pattern& wider) {
            return (wider.mask & ~pattern.mask) == 0 && (pattern.value & wider.mask) == wider.value;
        });
        if (!held) result.push_back(pattern);
    }
    return result;
}

SwingTables::SwingTables(const Part& part, const Shop& shop, const BrakeInSetup& brake)
    : folded_(partOnBrake(part, shop, brake)), table_(folded_, shop, brake) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        for (const Side hold : kBothSides) fill(folds_.emplace_back(), idAt<BendId>(i), hold);
    }
}

std::uint32_t SwingTables::Member::record(BendMask formed) const { return records[packed(formed, path)]; }

std::vector<SwingTables::Member> SwingTables::members(BendId bend, Side hold) {
    const PartBodies& bodies = table_.bodies();
    const PanelId held = heldPanel(bodies.part().bend(bend), hold);
    std::vector<Member> result;
    for (std::size_t group = 0; group < bodies.groups().size(); ++group) {
        if (group == bodies.stripGroup(bend)) continue;
        const Group& what = bodies.groups()[group];
        Member member{group, (bodies.path(held, what.frame) | (what.is_strip ? bit(what.bend) : 0)) & ~bit(bend), {}};
        eachSubset(member.path,
                   [&](BendMask formed) { member.records.push_back(table_.records().of(bend, hold, group, formed)); });
        result.push_back(std::move(member));
    }
    return result;
}

void SwingTables::addStates(Fold& fold, BendMask mask, const std::function<Answer(BendMask)>& answer) {
    eachSubset(mask, [&](BendMask formed) {
        const Answer now = answer(formed);
        if (now != Answer::kClear) (now == Answer::kHit ? fold.hits : fold.unclear).push_back({mask, formed});
    });
}

void SwingTables::fill(Fold& fold, BendId bend, Side hold) {
    const std::vector<Member> all = members(bend, hold);
    const Interval bar = barAt(bend, hold);
    for (const Member& member : all) {
        addStates(fold, member.path,
                  [&](BendMask formed) { return toolAnswer(member.record(formed), bend, hold, bar); });
    }
    for (const Member& a : all) {
        if (!table_.at(a.records[0]).moving) continue;
        for (const Member& b : all) {
            if (table_.at(b.records[0]).moving) continue;
            addStates(fold, a.path | b.path,
                      [&](BendMask formed) { return pairAnswer(a.record(formed), b.record(formed)); });
        }
    }
    fold.hits = reduced(std::move(fold.hits));
    fold.unclear = reduced(std::move(fold.unclear));
}

Interval SwingTables::barAt(BendId bend, Side hold) const {
    const PartBodies& bodies = table_.bodies();
    const Bend& line = bodies.part().bend(bend);
    const Rigid frame = foldFromBlank(line, hold, bodies.part().thickness_mm, bodies.inside_radius_mm());
    const double along = (frame.linear() * Vec3(line.along.x(), line.along.y(), 0)).x() > 0 ? 1 : -1;
    double lo = along * line.spans[0].from_mm;
    double hi = lo;
    for (const StripSpan& span : line.spans) {
        lo = std::min({lo, along * span.from_mm, along * span.to_mm});
        hi = std::max({hi, along * span.from_mm, along * span.to_mm});
    }
    return {micronNearest(lo), micronNearest(hi)};
}

Answer SwingTables::toolAnswer(std::uint32_t record, BendId bend, Side hold, Interval bar) {
    const auto ask = [&](std::size_t body, Interval at) {
        const Shadow& shadow = table_.contacts().contact(record, body).shadow;
        if (shadow.inner.meets(at)) return Answer::kHit;
        return shadow.outer.meets(at) ? Answer::kUnclear : Answer::kClear;
    };
    const Machine& machine = table_.machine();
    const Interval everywhere{-kFar, kFar};
    Answer answer = worse(ask(machine.bed(), everywhere), ask(machine.driven(0), everywhere));
    if (machine.beam() >= 0) answer = worse(answer, ask(static_cast<std::size_t>(machine.beam()), everywhere));
    const ToolFamily& family = machine.families()[0];
    answer = worse(answer, ask(family.high, bar));
    if (family.low >= 0)
        answer = worse(answer, ask(static_cast<std::size_t>(family.low), family.relief.shortened(bar)));
    if (table_.at(record).moving) return answer;
    const StripContact strip = table_.strips().contact(bend, hold, record, 0);
    return worse(answer, strip == StripContact::kHit       ? Answer::kHit
                         : strip == StripContact::kUnclear ? Answer::kUnclear
                                                           : Answer::kClear);
}

// Groups that keep apart by x, or by the rings about the swing's centre in which they stay, are not swept; so the
// engine does.
Answer SwingTables::pairAnswer(std::uint32_t a, std::uint32_t b) {
    const GroupRecord& moving = table_.at(a);
    const GroupRecord& held = table_.at(b);
    if (moving.x_lo_mm > held.x_hi_mm || held.x_lo_mm > moving.x_hi_mm) return Answer::kClear;
    if (moving.ring.least_mm - moving.reach_mm > held.ring.most_mm ||
        held.ring.least_mm - moving.reach_mm > moving.ring.most_mm)
        return Answer::kClear;
    const PairVerdict& verdict = table_.pairs().of(a, b, 0).verdict;
    return verdict.hit ? Answer::kHit : verdict.clear ? Answer::kClear : Answer::kUnclear;
}

std::size_t SwingTables::patterns() const {
    std::size_t count = 0;
    for (const Fold& fold : folds_) count += fold.hits.size() + fold.unclear.size();
    return count;
}

}  // namespace tinwright::bench
