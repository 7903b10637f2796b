// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/geometry/interval_set.h>

#include <algorithm>
#include <cmath>

namespace tinwright {

namespace {

Micron clampToMicron(double micron) {
    const double far = static_cast<double>(kFar);
    if (!(micron < far)) return kFar;  // NaN goes far too
    if (!(micron > -far)) return -kFar;
    return static_cast<Micron>(micron);
}

}  // namespace

Micron micronFloor(double mm) { return clampToMicron(std::floor(mm * kMicronPerMm)); }
Micron micronCeil(double mm) { return clampToMicron(std::ceil(mm * kMicronPerMm)); }
Micron micronNearest(double mm) { return clampToMicron(std::round(mm * kMicronPerMm)); }

void IntervalSet::add(Interval interval) {
    if (interval.empty()) return;
    auto first = std::lower_bound(items_.begin(), items_.end(), interval.lo,
                                  [](const Interval& item, Micron lo) { return item.hi < lo; });
    auto last = first;
    while (last != items_.end() && last->lo <= interval.hi) {
        interval.lo = std::min(interval.lo, last->lo);
        interval.hi = std::max(interval.hi, last->hi);
        ++last;
    }
    if (first == last) {
        items_.insert(first, interval);
        return;
    }
    *first = interval;
    items_.erase(first + 1, last);
}

void IntervalSet::addShifted(const IntervalSet& other, Micron by) {
    if (items_.empty()) items_.reserve(other.items_.size());
    for (const Interval& item : other.items_) add(Interval{item.lo + by, item.hi + by});
}

void IntervalSet::subtract(const IntervalSet& other) {
    std::vector<Interval> left;
    for (Interval item : items_) {
        for (const Interval& cut : other.items_) {
            if (cut.hi <= item.lo || cut.lo >= item.hi) continue;
            if (cut.lo > item.lo) left.push_back({item.lo, cut.lo});
            item.lo = std::max(item.lo, cut.hi);
        }
        if (!item.empty()) left.push_back(item);
    }
    items_ = std::move(left);
}

IntervalSet IntervalSet::intersect(const IntervalSet& other) const {
    IntervalSet both;
    auto a = items_.begin();
    auto b = other.items_.begin();
    while (a != items_.end() && b != other.items_.end()) {
        const Interval common{std::max(a->lo, b->lo), std::min(a->hi, b->hi)};
        if (!common.empty()) both.items_.push_back(common);
        (a->hi < b->hi) ? ++a : ++b;
    }
    return both;
}

IntervalSet IntervalSet::gapsIn(Interval within) const {
    IntervalSet gaps(within);
    gaps.subtract(*this);
    return gaps;
}

IntervalSet IntervalSet::grown(Micron by) const {
    IntervalSet result;
    for (const Interval& item : items_) result.add(Interval{item.lo - by, item.hi + by});
    return result;
}

IntervalSet IntervalSet::shifted(Micron by) const {
    IntervalSet result = *this;
    for (Interval& item : result.items_) item = {item.lo + by, item.hi + by};
    return result;
}

bool IntervalSet::meets(Interval interval) const {
    return std::any_of(items_.begin(), items_.end(), [&](const Interval& item) {
        return std::max(item.lo, interval.lo) < std::min(item.hi, interval.hi);
    });
}

bool IntervalSet::covers(Interval interval) const {
    if (interval.empty()) return true;
    return std::any_of(items_.begin(), items_.end(),
                       [&](const Interval& item) { return item.lo <= interval.lo && interval.hi <= item.hi; });
}

Micron IntervalSet::length() const {
    Micron sum = 0;
    for (const Interval& item : items_) sum += item.length();
    return sum;
}

}  // namespace tinwright
