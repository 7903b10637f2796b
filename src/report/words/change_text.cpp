// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/change_text.h"

#include <algorithm>

#include <fmt/format.h>

#include "words/words.h"
#include "words/wrap.h"

namespace tinwright::report {

std::string changeText(const std::string& name, double from_mm, double to_mm) {
    return fmt::format("{} {} -> {} mm ({:+.4g})", printable(name), millimetres(from_mm), millimetres(to_mm),
                       to_mm - from_mm);
}

std::string alsoChanges(const std::vector<DimensionChange>& changes, const std::vector<std::string>& names) {
    std::vector<std::string> others;
    for (const DimensionChange& one : changes) {
        if (std::find(names.begin(), names.end(), one.name) == names.end())
            others.push_back(changeText(one.name, one.from_mm, one.to_mm));
    }
    return others.empty() ? "nothing else changes" : "changes with it: " + listed(others);
}

}  // namespace tinwright::report
