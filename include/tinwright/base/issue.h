// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace tinwright {

/// One thing wrong with an input: where it is, what was found, what was expected.
struct Issue {
    std::string code;      ///< stable short name, e.g. "recipe.flange.height"
    std::string file;      ///< file name as the user gave it; empty when it did not come from a file
    std::string place;     ///< JSON pointer ("/base/edges/0/height_mm"), or "line 3, column 7"
    std::string found;     ///< what is there, as text
    std::string expected;  ///< what would be right
    std::string hint;      ///< a suggestion, may be empty
};

using Issues = std::vector<Issue>;

inline void append(Issues& all, const Issues& more) { all.insert(all.end(), more.begin(), more.end()); }

/// "FILE: PLACE: found …, expected … (hint) [code]", one line, no line break at its end.
[[nodiscard]] std::string toText(const Issue& issue);

}  // namespace tinwright
