// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/machines/packing.h>

#include <algorithm>
#include <cmath>

namespace tinwright {

namespace {

constexpr double kRounding_mm = 1e-6;

}  // namespace

std::vector<double> packingHeights_mm(const Part& part) {
    std::vector<int> counts;
    for (const Bend& bend : part.bends) {
        if (!bend.hem) continue;
        const double hangs_mm = part.thickness_mm + bend.hem->gap_mm;
        const double strips = std::ceil((hangs_mm - kRounding_mm) / part.thickness_mm);
        if (strips <= kMostPackingStrips) counts.push_back(static_cast<int>(strips));
    }
    std::sort(counts.begin(), counts.end());
    counts.erase(std::unique(counts.begin(), counts.end()), counts.end());
    std::vector<double> heights_mm;
    for (const int count : counts) heights_mm.push_back(count * part.thickness_mm);
    return heights_mm;
}

int packingStrips(double packing_mm, double thickness_mm) {
    return static_cast<int>(std::lround(packing_mm / thickness_mm));
}

}  // namespace tinwright
