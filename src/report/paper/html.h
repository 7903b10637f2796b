// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tinwright::report {

/// "<tag class=name>text</tag>" with the text escaped.
[[nodiscard]] std::string element(std::string_view tag, std::string_view text, std::string_view name = {});
/// The same round markup that is finished already.
[[nodiscard]] std::string wrap(std::string_view tag, std::string_view markup, std::string_view name = {});
/// A list of sentences; nothing when there are none.
[[nodiscard]] std::string list(const std::vector<std::string>& sentences, std::string_view tag = "ul");
/// "<tr>" with a first cell as heading.
[[nodiscard]] std::string row(std::string_view heading, const std::vector<std::string>& cells);
/// A box to tick.
[[nodiscard]] std::string tickBox();
/// Text that was wrapped for a terminal as one line.
[[nodiscard]] std::string unwrapped(std::string_view text);

/// Head of the page up to <body>, with all of its style.
[[nodiscard]] std::string pageHead(std::string_view title);

}  // namespace tinwright::report
