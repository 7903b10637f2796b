// SPDX-License-Identifier: GPL-3.0-or-later
#include "reach/no_goods.h"

#include <algorithm>
#include <bit>

#include <tinwright/base/contract.h>

#include "states/bits.h"

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

/// A no-good as it grows.
struct NoGoods::Closure {
    BendMask state = 0;  ///< that it is learned from
    NoGood no_good;
    BendMask closed = 0;             ///< unformed bends of the no-good whose strokes are all seen to
    bool alone[2] = {false, false};  ///< of the bend being closed: the forbidden stroke in hand means any company that
                                     ///< is not in `company_barred`
    BendMask company_barred = 0;

    void settle(BendMask mask) {
        no_good.mask |= mask;
        no_good.formed = state & no_good.mask;
    }
    [[nodiscard]] BendMask open() const { return no_good.mask & ~no_good.formed & ~closed; }
};

NoGoods::NoGoods(StateTable& table, Undecided undecided) : table_(table), undecided_(undecided) {
    forbidden_by_bend_.resize(2 * table.coFoldable().with.size());
}

std::optional<std::uint32_t> NoGoods::caught(BendMask formed) const {
    for (const std::uint32_t index : current_) {
        if (no_goods_[index].holds(formed)) return index;
    }
    return std::nullopt;
}

void NoGoods::addState(BendMask formed) { add({table_.all(), formed, {}, {}}); }

bool NoGoods::learn(BendMask formed) {
    std::optional<Closure> best;
    int fewest = static_cast<int>(kMaxBends) + 1;
    forEachBend(table_.all() & ~formed, [&](std::size_t seed) {
        if (auto found = closure(formed, seed, fewest)) {
            fewest = std::popcount(found->no_good.mask);
            best = std::move(found);
        }
    });
    TINWRIGHT_REQUIRE(best.has_value(), "a dead state is in some trap");
    const bool general = best->no_good.mask != table_.all();
    add(std::move(best->no_good));
    return general;
}

/// The no-good itself and all that it rests on.
std::vector<std::uint32_t> NoGoods::noGoodsUnder(std::uint32_t no_good) const {
    std::vector<bool> seen(no_goods_.size(), false);
    std::vector<std::uint32_t> open{no_good};
    std::vector<std::uint32_t> under;
    while (!open.empty()) {
        const std::uint32_t index = open.back();
        open.pop_back();
        if (seen[index]) continue;
        seen[index] = true;
        under.push_back(index);
        open.insert(open.end(), no_goods_[index].no_goods.begin(), no_goods_[index].no_goods.end());
    }
    return under;
}

std::vector<std::uint32_t> NoGoods::forbiddenUnder(std::uint32_t no_good) const {
    std::vector<std::uint32_t> forbidden_strokes;
    for (const std::uint32_t index : noGoodsUnder(no_good))
        forbidden_strokes.insert(forbidden_strokes.end(), no_goods_[index].forbidden_strokes.begin(),
                                 no_goods_[index].forbidden_strokes.end());
    sortUnique(forbidden_strokes);
    return forbidden_strokes;
}

bool NoGoods::isProven(std::uint32_t no_good) const {
    const std::vector<std::uint32_t> under = noGoodsUnder(no_good);
    return std::none_of(under.begin(), under.end(), [&](std::uint32_t index) {
        return no_goods_[index].forbidden_strokes.empty() && no_goods_[index].no_goods.empty();
    });
}

/// The no-good that comes of one unformed bend and all that its strokes need; nothing when it gets as large as the best
/// one known.
std::optional<NoGoods::Closure> NoGoods::closure(BendMask formed, std::size_t seed, int fewer_than) {
    Closure result;
    result.state = formed;
    result.settle(bit(idAt<BendId>(seed)));
    while (result.open() != 0) {
        const auto bend = static_cast<std::size_t>(std::countr_zero(result.open()));
        if (!closeBend(result, bend)) result.settle(table_.all());
        if (std::popcount(result.no_good.mask) >= fewer_than) return std::nullopt;
        result.closed |= bit(idAt<BendId>(bend));
    }
    sortUnique(result.no_good.forbidden_strokes);
    sortUnique(result.no_good.no_goods);
    return result;
}

/// Sees to every stroke that may ever fold the bend, alone first. False when they are too many.
bool NoGoods::closeBend(Closure& closure, std::size_t bend) {
    const BendMask one = bit(idAt<BendId>(bend));
    const BendMask company = table_.coFoldable().with[bend] & ~one;
    closure.alone[0] = closure.alone[1] = false;
    closure.company_barred = 0;
    for (const Side hold : kBothSides) closeStroke(closure, {one, hold});
    const bool both_alone = closure.alone[0] && closure.alone[1];
    if (both_alone && (closure.company_barred & company) == 0) return true;
    if (std::popcount(company) > kMostCompany) return false;
    // Company that is formed here may be unformed in other states of the no-good: so it is settled that it is formed.
    closure.settle(company & closure.state);
    for (BendMask others = company; others != 0; others = (others - 1) & company) {
        if ((others & closure.no_good.formed) != 0 || !table_.coFoldable().mayFoldTogether(one | others)) continue;
        if (both_alone && (closure.company_barred & others) == 0) continue;
        TINWRIGHT_REQUIRE((others & closure.state) == 0, "company that matters and is formed is settled");
        for (const Side hold : kBothSides) closeStroke(closure, {one | others, hold});
    }
    return true;
}

void NoGoods::closeStroke(Closure& closure, const Stroke& stroke) {
    if (takeForbidden(closure, stroke)) return;
    // Where the step leads into a no-good it is not asked for whether it is possible: that is what costs.
    const std::optional<std::size_t> index = indexOf(closure.state, stroke);
    if (index && !table_.isAnswered(closure.state, *index) && takeNoGood(closure, stroke.bends)) return;
    if (index && mayPass(table_.answered(closure.state, *index))) {
        const bool taken = takeNoGood(closure, stroke.bends);
        TINWRIGHT_REQUIRE(taken, "what a dead state leads to is in some trap");
        return;
    }
    const std::uint32_t forbidden = forbiddenFor(closure.state, stroke);
    TINWRIGHT_REQUIRE(forbidden_[forbidden].holdsIn(closure.state), "what forbids a stroke holds where it was asked");
    static_cast<void>(takeForbidden(closure, stroke));
}

/// An older no-good that catches the state after these bends; of several the one that settles least.
bool NoGoods::takeNoGood(Closure& closure, BendMask bends) {
    const BendMask after = closure.state | bends;
    std::optional<std::uint32_t> best;
    int least = 0;
    for (const std::uint32_t index : current_) {
        const NoGood& no_good = no_goods_[index];
        if (!no_good.holds(after)) continue;
        const int price = priceOf(closure.no_good.mask, no_good.mask & ~bends, no_good.formed);
        if (!best || price < least) best = index, least = price;
    }
    if (!best) return false;
    closure.no_good.no_goods.push_back(*best);
    closure.settle(no_goods_[*best].mask & ~bends);
    return true;
}

/// What forbids the stroke in the state; of several the one that settles least.
bool NoGoods::takeForbidden(Closure& closure, const Stroke& stroke) {
    std::optional<std::uint32_t> best;
    int least = 0;
    const auto offer = [&](std::uint32_t index) {
        const ForbiddenStroke& forbidden = forbidden_[index];
        if (!forbidden.holdsIn(closure.state)) return;
        if (!forbidden.means(stroke.bends)) return;
        const int price =
            priceOf(closure.no_good.mask, forbidden.mask, forbidden.formed) * 2 + (forbidden.any_company ? 0 : 1);
        if (!best || price < least) best = index, least = price;
    };
    // How bends in company are held is settled by the state; only what is told for this very stroke, or for one bend
    // alone, is sure.
    for (const std::uint32_t index : forbidden_by_bend_[slotOf(stroke.first(), stroke.hold)]) {
        if (!forbidden_[index].any_company || stroke.bends == forbidden_[index].bends) offer(index);
    }
    if (!best) return false;
    const ForbiddenStroke& forbidden = forbidden_[*best];
    closure.no_good.forbidden_strokes.push_back(*best);
    closure.settle(forbidden.mask);
    if (forbidden.any_company && std::has_single_bit(stroke.bends)) {
        closure.alone[static_cast<std::size_t>(stroke.hold)] = true;
        closure.company_barred |= forbidden.mask | forbidden.not_with;
    }
    return true;
}

std::uint32_t NoGoods::forbiddenFor(BendMask formed, const Stroke& stroke) {
    ForbiddenStroke forbidden = table_.why(formed, stroke);
    // In company a bend's own hold is that of the stroke only when it is the first.
    if (forbidden.any_company && forbidden.bends != stroke.bends)
        forbidden = {stroke, false, forbidden.mask, forbidden.formed, 0};
    forbidden_.push_back(forbidden);
    const auto index = static_cast<std::uint32_t>(forbidden_.size() - 1);
    forbidden_by_bend_[slotOf(forbidden.first(), forbidden.hold)].push_back(index);
    return index;
}

bool NoGoods::mayPass(const CandidateStroke& candidate) const {
    return candidate.answer == StrokeAnswer::kPossible ||
           (candidate.answer == StrokeAnswer::kUndecided && undecided_ == Undecided::kPossible);
}

std::optional<std::size_t> NoGoods::indexOf(BendMask formed, const Stroke& stroke) {
    const std::vector<CandidateStroke>* listed = table_.listed(formed);
    TINWRIGHT_REQUIRE(listed != nullptr, "a dead state was opened");
    const auto found = std::lower_bound(listed->begin(), listed->end(), stroke);
    if (found == listed->end() || *found != stroke) return std::nullopt;
    return static_cast<std::size_t>(found - listed->begin());
}

/// Enters a no-good; those that it includes need not be looked at any more.
void NoGoods::add(NoGood no_good) {
    const auto includes = [&](std::uint32_t index) {
        return within(no_good.mask, no_goods_[index].mask) &&
               (no_goods_[index].formed & no_good.mask) == no_good.formed;
    };
    std::erase_if(current_, includes);
    current_.push_back(static_cast<std::uint32_t>(no_goods_.size()));
    no_goods_.push_back(std::move(no_good));
}

}  // namespace tinwright::search
