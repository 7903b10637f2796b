// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/report/data/made_report.h>

namespace tinwright::report {

inline constexpr const char* kMadeTitle = "As made";
inline constexpr const char* kMadeCureTitle = "What may be done about it";

/// "left: 35.2 mm measured to edge left.far instead of 36 mm; its bend line lies 0.8 mm towards left from where it is
/// drawn", then which finished sizes are others than drawn. `now`: the part as made.
[[nodiscard]] std::vector<std::string> madeLines(const Part& now, const MadeReport& made, BendMask formed);

/// Lines to move, each as it was planned with; then what remains: accept, or remake. None when no size has changed.
[[nodiscard]] std::vector<std::string> madeCures(const Part& now, const MadeReport& made);

/// "base comes out 80.8 mm instead of 80 mm between the outsides of left and right (77.8 instead of 77 mm inside)".
[[nodiscard]] std::string sizeChangeWords(const Part& part, const SizeChange& change);

/// By how much the bend's line lies elsewhere than drawn, positive towards the flange beyond it.
[[nodiscard]] double lineMoved_mm(const MadeReport& made, const Part& now, BendId bend);

}  // namespace tinwright::report
