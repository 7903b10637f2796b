// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include <tinwright/base/result.h>

/// What every JSON input goes through before its own reader sees it. All of it is safe on any bytes: size,
/// depth and number of values are limited while parsing, and nothing here recurses on input deeper than the limit.
///
///     Result<std::string> text = readTextFile("part.json");
///     Result<nlohmann::json> document = parseJson(text.value(), "part.json");
///     ReadContext context{.file = "part.json", .code = "recipe"};       // json_cursor.h
///     ... read through a JsonCursor, which collects issues in context ...
namespace tinwright {

/// Limits of one JSON input.
struct JsonLimits {
    std::size_t bytes = 4u << 20;
    std::size_t depth = 32;        ///< of nested objects and lists
    std::size_t values = 200'000;  ///< of all kinds together
};

/// The bytes of a file. Issue "file.unreadable" or "file.too-large".
[[nodiscard]] Result<std::string> readTextFile(const std::string& path, const JsonLimits& limits = {});

/// Parses strict JSON (RFC 8259). Issues: "json.syntax" (place "line 3, column 7"), "json.too-deep", "json.too-many",
/// "json.number" (does not fit a double), "json.duplicate-key" (place: JSON pointer; all of them at once).
[[nodiscard]] Result<nlohmann::json> parseJson(std::string_view text, const std::string& file,
                                               const JsonLimits& limits = {});

/// One step further down a JSON pointer (RFC 6901), with ~ and / escaped.
[[nodiscard]] std::string pointerTo(const std::string& place, std::string_view key);
[[nodiscard]] std::string pointerTo(const std::string& place, std::size_t index);

/// True when JSON pointer `above` is `place` itself or a place that contains it.
[[nodiscard]] bool isAtOrAbove(const std::string& above, const std::string& place);

/// A value as text for "found": its kind and, when short, itself. Always valid UTF-8, one line, at most 60 characters.
[[nodiscard]] std::string foundText(const nlohmann::json& value);

}  // namespace tinwright
