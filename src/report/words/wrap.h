// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace tinwright::report {

/// Text fit for a terminal: control characters and bytes that are not UTF-8 become '?', so that a name in an input
/// file can neither move the cursor nor break the columns.
[[nodiscard]] std::string printable(std::string_view text);

/// Characters, not bytes; the text is UTF-8.
[[nodiscard]] std::size_t columns(std::string_view text);

/// Breaks `text` at blanks so that no line is longer than `width`; the first begins with `first`, the others with
/// `rest`. A word that does not fit is cut. Ends with a line break.
[[nodiscard]] std::string wrapped(std::string_view first, std::string_view rest, std::string_view text,
                                  std::size_t width);

/// "Label     text …" with the text wrapped beside the label, at the width of a report.
[[nodiscard]] std::string labelled(std::string_view label, std::string_view text);

/// "  - text …", wrapped.
[[nodiscard]] std::string bullet(std::string_view text);

/// A line and a rule of the same length below it.
[[nodiscard]] std::string heading(std::string_view text, char rule);

}  // namespace tinwright::report
