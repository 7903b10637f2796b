// SPDX-License-Identifier: GPL-3.0-or-later
#include "measures/chords.h"

#include <algorithm>

namespace tinwright::forming {

Stretches chords(const Polygon& polygon, const CutLine& line) {
    std::vector<double> crossings;
    const Vec2 along = line.along();
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Vec2& a = polygon[i];
        const Vec2& b = polygon[i + 1 == polygon.size() ? 0 : i + 1];
        const double over_a = line.normal.dot(a) - line.offset_mm;
        const double over_b = line.normal.dot(b) - line.offset_mm;
        if ((over_a > 0) == (over_b > 0)) continue;
        const double share = over_a / (over_a - over_b);
        crossings.push_back(along.dot(a) + share * along.dot(b - a));
    }
    std::sort(crossings.begin(), crossings.end());
    Stretches inside;
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
        if (crossings[i + 1] > crossings[i]) inside.push_back({crossings[i], crossings[i + 1]});
    }
    return inside;
}

Stretches chords(const Region& region, const CutLine& line) {
    Stretches inside = chords(region.outline, line);
    for (const Polygon& hole : region.holes) inside = without(inside, chords(hole, line));
    return inside;
}

Stretches without(const Stretches& from, const Stretches& taken) {
    Stretches left = from;
    for (const Stretch& gap : taken) {
        Stretches next;
        for (const Stretch& piece : left) {
            if (gap.to_mm <= piece.from_mm || gap.from_mm >= piece.to_mm) {
                next.push_back(piece);
                continue;
            }
            if (gap.from_mm > piece.from_mm) next.push_back({piece.from_mm, gap.from_mm});
            if (gap.to_mm < piece.to_mm) next.push_back({gap.to_mm, piece.to_mm});
        }
        left = std::move(next);
    }
    return left;
}

double total_mm(const Stretches& stretches) {
    double total = 0;
    for (const Stretch& stretch : stretches) total += stretch.length_mm();
    return total;
}

}  // namespace tinwright::forming
