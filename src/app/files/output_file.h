// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include <tinwright/base/issue.h>

namespace tinwright::app {

/// Writes all of `text` or nothing: to a file beside `path` that then takes its name. What is not a plain file (a pipe,
/// a device) is written to directly. Issues: "output.write"; "output.input" when `path` is one of the files read.
[[nodiscard]] Issues writeFile(const std::string& path, const std::string& text,
                               const std::vector<std::string>& inputs);

/// Issue "output.input" when `path` is one of the files read.
[[nodiscard]] Issues refuseInput(const std::string& path, const std::vector<std::string>& inputs);

/// Issue "output.write" when standard output does not take it all.
[[nodiscard]] Issues writeStandardOutput(const std::string& text);

/// What a command answers: `text` on standard output, and `json` in its file, if one is named, before it: when that
/// cannot be written no text claims that all went well. "-" as name is standard output, with `json` alone.
[[nodiscard]] Issues writeAnswer(const std::optional<std::string>& json_path, const std::vector<std::string>& inputs,
                                 const std::function<std::string()>& json, const std::function<std::string()>& text);

}  // namespace tinwright::app
