// SPDX-License-Identifier: GPL-3.0-or-later
#include "traps.h"

#include <algorithm>
#include <bit>

#include <tinwright/base/contract.h>

#include "bits.h"

namespace tinwright::search {

namespace {

/// Bends that may lie on one line with so many others have too many strokes to go through.
constexpr int kMostCompany = 7;

void sortUnique(std::vector<std::uint32_t>& list) {
    std::sort(list.begin(), list.end());
    list.erase(std::unique(list.begin(), list.end()), list.end());
}

/// First few bends that are not settled yet and are not formed, then few at all.
int priceOf(BendMask settled, BendMask mask, BendMask formed) {
    const BendMask added = mask & ~settled;
    return 64 * std::popcount(added & ~formed) + std::popcount(added);
}

}  // namespace

/// A trap as it grows.
struct Traps::Closure {
    BendMask state = 0;  ///< that it is learned from
    Trap trap;
    BendMask closed = 0;             ///< unformed bends of the trap whose strokes are all seen to
    bool alone[2] = {false, false};  ///< of the bend being closed: the fact in hand means any company that is not in
                                     ///< `company_barred`
    BendMask company_barred = 0;

    void settle(BendMask mask) {
        trap.mask |= mask;
        trap.formed = state & trap.mask;
    }
    [[nodiscard]] BendMask open() const { return trap.mask & ~trap.formed & ~closed; }
};

Traps::Traps(StateTable& table, Undecided undecided) : table_(table), undecided_(undecided) {
    facts_of_.resize(2 * table.joins().with.size());
}

std::optional<std::uint32_t> Traps::caught(BendMask formed) const {
    for (const std::uint32_t index : standing_) {
        if (traps_[index].holds(formed)) return index;
    }
    return std::nullopt;
}

void Traps::addState(BendMask formed) { add({table_.all(), formed, {}, {}}); }

bool Traps::learn(BendMask formed) {
    std::optional<Closure> best;
    int fewest = static_cast<int>(kMaxBends) + 1;
    forEachBend(table_.all() & ~formed, [&](std::size_t seed) {
        if (auto found = closure(formed, seed, fewest)) {
            fewest = std::popcount(found->trap.mask);
            best = std::move(found);
        }
    });
    TINWRIGHT_REQUIRE(best.has_value(), "a dead state is in some trap");
    const bool general = best->trap.mask != table_.all();
    add(std::move(best->trap));
    return general;
}

/// The trap itself and all that it rests on.
std::vector<std::uint32_t> Traps::trapsUnder(std::uint32_t trap) const {
    std::vector<bool> seen(traps_.size(), false);
    std::vector<std::uint32_t> open{trap};
    std::vector<std::uint32_t> under;
    while (!open.empty()) {
        const std::uint32_t index = open.back();
        open.pop_back();
        if (seen[index]) continue;
        seen[index] = true;
        under.push_back(index);
        open.insert(open.end(), traps_[index].traps.begin(), traps_[index].traps.end());
    }
    return under;
}

std::vector<std::uint32_t> Traps::factsUnder(std::uint32_t trap) const {
    std::vector<std::uint32_t> facts;
    for (const std::uint32_t index : trapsUnder(trap))
        facts.insert(facts.end(), traps_[index].facts.begin(), traps_[index].facts.end());
    sortUnique(facts);
    return facts;
}

bool Traps::isProven(std::uint32_t trap) const {
    const std::vector<std::uint32_t> under = trapsUnder(trap);
    return std::none_of(under.begin(), under.end(), [&](std::uint32_t index) {
        return traps_[index].facts.empty() && traps_[index].traps.empty();
    });
}

/// The trap that comes of one unformed bend and all that its strokes need; nothing when it gets as large as the best
/// one known.
std::optional<Traps::Closure> Traps::closure(BendMask formed, std::size_t seed, int fewer_than) {
    Closure result;
    result.state = formed;
    result.settle(bit(idAt<BendId>(seed)));
    while (result.open() != 0) {
        const auto bend = static_cast<std::size_t>(std::countr_zero(result.open()));
        if (!closeBend(result, bend)) result.settle(table_.all());
        if (std::popcount(result.trap.mask) >= fewer_than) return std::nullopt;
        result.closed |= bit(idAt<BendId>(bend));
    }
    sortUnique(result.trap.facts);
    sortUnique(result.trap.traps);
    return result;
}

/// Sees to every stroke that may ever fold the bend, alone first. False when they are too many.
bool Traps::closeBend(Closure& closure, std::size_t bend) {
    const BendMask one = bit(idAt<BendId>(bend));
    const BendMask company = table_.joins().with[bend] & ~one;
    closure.alone[0] = closure.alone[1] = false;
    closure.company_barred = 0;
    for (const std::uint8_t hold : {std::uint8_t{0}, std::uint8_t{1}}) closeStroke(closure, one, hold);
    const bool both_alone = closure.alone[0] && closure.alone[1];
    if (both_alone && (closure.company_barred & company) == 0) return true;
    if (std::popcount(company) > kMostCompany) return false;
    // Company that is formed here may be unformed in other states of the trap: so it is settled that it is formed.
    closure.settle(company & closure.state);
    for (BendMask others = company; others != 0; others = (others - 1) & company) {
        if ((others & closure.trap.formed) != 0 || !table_.joins().joinable(one | others)) continue;
        if (both_alone && (closure.company_barred & others) == 0) continue;
        TINWRIGHT_REQUIRE((others & closure.state) == 0, "company that matters and is formed is settled");
        for (const std::uint8_t hold : {std::uint8_t{0}, std::uint8_t{1}}) closeStroke(closure, one | others, hold);
    }
    return true;
}

void Traps::closeStroke(Closure& closure, BendMask bends, std::uint8_t hold) {
    if (takeFact(closure, bends, hold)) return;
    // Where the step leads into a trap it is not asked for whether it is possible: that is what costs.
    const std::optional<std::size_t> index = indexOf(closure.state, bends, hold);
    if (index && !table_.isAnswered(closure.state, *index) && takeTrap(closure, bends)) return;
    if (index && mayPass(table_.answered(closure.state, *index))) {
        const bool taken = takeTrap(closure, bends);
        TINWRIGHT_REQUIRE(taken, "what a dead state leads to is in some trap");
        return;
    }
    const std::uint32_t fact = factFor(closure.state, bends, hold);
    TINWRIGHT_REQUIRE(facts_[fact].holdsIn(closure.state), "what forbids a stroke holds where it was asked");
    static_cast<void>(takeFact(closure, bends, hold));
}

/// An older trap that catches the state after these bends; of several the one that settles least.
bool Traps::takeTrap(Closure& closure, BendMask bends) {
    const BendMask after = closure.state | bends;
    std::optional<std::uint32_t> best;
    int least = 0;
    for (const std::uint32_t index : standing_) {
        const Trap& trap = traps_[index];
        if (!trap.holds(after)) continue;
        const int price = priceOf(closure.trap.mask, trap.mask & ~bends, trap.formed);
        if (!best || price < least) best = index, least = price;
    }
    if (!best) return false;
    closure.trap.traps.push_back(*best);
    closure.settle(traps_[*best].mask & ~bends);
    return true;
}

/// A fact that forbids the stroke in the state; of several the one that settles least.
bool Traps::takeFact(Closure& closure, BendMask bends, std::uint8_t hold) {
    std::optional<std::uint32_t> best;
    int least = 0;
    const auto offer = [&](std::uint32_t index) {
        const ForbiddenStroke& fact = facts_[index];
        if (!fact.holdsIn(closure.state)) return;
        if (!fact.means(bends)) return;
        const int price = priceOf(closure.trap.mask, fact.mask, fact.formed) * 2 + (fact.any_company ? 0 : 1);
        if (!best || price < least) best = index, least = price;
    };
    const auto first = static_cast<std::size_t>(std::countr_zero(bends));
    // How bends in company are held is settled by the state; only what is told for this very stroke, or for one bend
    // alone, is sure.
    for (const std::uint32_t index : facts_of_[2 * first + hold]) {
        if (!facts_[index].any_company || bends == facts_[index].bends) offer(index);
    }
    if (!best) return false;
    const ForbiddenStroke& fact = facts_[*best];
    closure.trap.facts.push_back(*best);
    closure.settle(fact.mask);
    if (fact.any_company && std::has_single_bit(bends)) {
        closure.alone[hold] = true;
        closure.company_barred |= fact.mask | fact.not_with;
    }
    return true;
}

std::uint32_t Traps::factFor(BendMask formed, BendMask bends, std::uint8_t hold) {
    ForbiddenStroke fact = table_.why(formed, bends, hold);
    // In company a bend's own hold is that of the stroke only when it is the first.
    if (fact.any_company && fact.bends != bends) fact = {bends, hold, false, fact.mask, fact.formed, 0};
    facts_.push_back(fact);
    const auto index = static_cast<std::uint32_t>(facts_.size() - 1);
    facts_of_[2 * static_cast<std::size_t>(std::countr_zero(fact.bends)) + fact.hold].push_back(index);
    return index;
}

bool Traps::mayPass(const FoldMove& move) const {
    return move.answer == FoldAnswer::kPossible ||
           (move.answer == FoldAnswer::kUndecided && undecided_ == Undecided::kPossible);
}

std::optional<std::size_t> Traps::indexOf(BendMask formed, BendMask bends, std::uint8_t hold) {
    const std::vector<FoldMove>* listed = table_.listed(formed);
    TINWRIGHT_REQUIRE(listed != nullptr, "a dead state was opened");
    const auto found =
        std::lower_bound(listed->begin(), listed->end(), std::pair(bends, hold),
                         [](const FoldMove& move, const auto& key) { return std::pair(move.bends, move.hold) < key; });
    if (found == listed->end() || found->bends != bends || found->hold != hold) return std::nullopt;
    return static_cast<std::size_t>(found - listed->begin());
}

/// Enters a trap; those that it includes need not be looked at any more.
void Traps::add(Trap trap) {
    const auto includes = [&](std::uint32_t index) {
        return within(trap.mask, traps_[index].mask) && (traps_[index].formed & trap.mask) == trap.formed;
    };
    std::erase_if(standing_, includes);
    standing_.push_back(static_cast<std::uint32_t>(traps_.size()));
    traps_.push_back(std::move(trap));
}

}  // namespace tinwright::search
