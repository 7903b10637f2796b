// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace tinwright::report {

/// Letters of drawings: a font size of 3.5 mm makes capitals of 2.5 mm, the least that is read at arm's length on
/// paper.
inline constexpr double kLetter_mm = 3.5;

/// A width that no common sans font exceeds: the greater of the advance widths of two free fonts (DejaVu Sans,
/// Liberation Sans) for each character, so that a label that fits here fits on any screen.
[[nodiscard]] double textWidth_mm(std::string_view text, double letter_mm = kLetter_mm);

/// Bold letters are wider, by no more than this factor.
[[nodiscard]] constexpr double boldness(bool bold) { return bold ? 1.15 : 1.0; }

/// The text, or as much of it as fits with "…" at its end.
[[nodiscard]] std::string fitted(std::string_view text, double width_mm, double letter_mm = kLetter_mm);

/// `text` as content or attribute of XML: markup escaped, and what may not stand in XML at all as '?'.
[[nodiscard]] std::string xmlText(std::string_view text);

}  // namespace tinwright::report
