// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include <tinwright/base/issue.h>

namespace tinwright {

/// What the reading of one document shares. Fill it, read through cursors, then look at `issues`.
struct ReadContext {
    std::string file;          ///< as the user gave it
    std::string code;          ///< first part of every issue code: "recipe", "shop"
    double mm_per_unit = 1.0;  ///< 25.4 once "units" said "in"
    Issues issues;

    /// Code is `code` + "." + what, e.g. "recipe.missing".
    void report(std::string place, std::string_view what, std::string found, std::string expected,
                std::string hint = {});
};

/// Bounds of a number, both included unless said otherwise. Lengths: in mm.
struct Range {
    double least = 0;
    double most = 0;
    bool above_least = false;  ///< least itself is not allowed
    bool below_most = false;   ///< most itself is not allowed
    [[nodiscard]] bool holds(double value) const;
};

/// A place in a document. Every read either gives the value or reports what is wrong with it (once) and gives
/// nothing; reading goes on, so that all issues come out at once. Cheap to copy; document and context must outlive it.
/// Codes: "missing", "type", "range", "unknown-field", "choice", "count".
class JsonCursor {
public:
    JsonCursor(const nlohmann::json& value, std::string place, ReadContext& context)
        : value_(&value), place_(std::move(place)), context_(&context) {}

    [[nodiscard]] const nlohmann::json& json() const { return *value_; }
    [[nodiscard]] const std::string& place() const { return place_; }
    [[nodiscard]] ReadContext& context() const { return *context_; }

    /// Reports at this place.
    void report(std::string_view what, std::string found, std::string expected, std::string hint = {}) const;
    /// Reports that this value should have been something else: found is the value.
    void wrong(std::string_view what, std::string expected, std::string hint = {}) const;

    /// True for an object; else reports. Every key not among `keys` is reported with the nearest known key as hint.
    [[nodiscard]] bool object(const std::vector<std::string_view>& keys) const;
    [[nodiscard]] bool has(std::string_view key) const;
    /// The member; reports "missing" (saying `expected`) and gives nothing when it is not there.
    [[nodiscard]] std::optional<JsonCursor> need(std::string_view key, std::string_view expected) const;
    /// The member, or nothing, without complaint.
    [[nodiscard]] std::optional<JsonCursor> get(std::string_view key) const;
    /// Members of an object in the order of their keys, as (key, cursor).
    [[nodiscard]] std::vector<std::pair<std::string, JsonCursor>> members() const;
    /// Elements of a list with `least`..`most` of them; else reports and gives none.
    [[nodiscard]] std::vector<JsonCursor> items(std::size_t least, std::size_t most) const;

    [[nodiscard]] std::optional<double> number(Range range, std::string_view unit = {}) const;
    /// A length in the units of the file, given back in mm.
    [[nodiscard]] std::optional<double> length_mm(Range range_mm) const;
    [[nodiscard]] std::optional<int> integer(int least, int most) const;
    [[nodiscard]] std::optional<bool> boolean() const;
    /// A text of 1..`most` bytes without control characters.
    [[nodiscard]] std::optional<std::string> text(std::size_t most = 200) const;
    /// A name that can be said on a command line: 1..64 of A-Z a-z 0-9 _ - . + and not starting with -.
    [[nodiscard]] std::optional<std::string> name() const;
    /// One of these words; gives its position.
    [[nodiscard]] std::optional<std::size_t> choice(std::initializer_list<std::string_view> words) const;

private:
    const nlohmann::json* value_;
    std::string place_;
    ReadContext* context_;
};

/// Members read straight away: reports when absent (`need…`), or gives the fallback when absent (`…Or`). A member that
/// is there but wrong is reported and the fallback (or 0) stands in, so that reading can go on.
[[nodiscard]] double needLength_mm(const JsonCursor& object, std::string_view key, Range range_mm);
[[nodiscard]] double lengthOr_mm(const JsonCursor& object, std::string_view key, Range range_mm, double fallback_mm);
[[nodiscard]] double needNumber(const JsonCursor& object, std::string_view key, Range range,
                                std::string_view unit = {});
[[nodiscard]] double numberOr(const JsonCursor& object, std::string_view key, Range range, double fallback,
                              std::string_view unit = {});
[[nodiscard]] int integerOr(const JsonCursor& object, std::string_view key, int least, int most, int fallback);
[[nodiscard]] bool booleanOr(const JsonCursor& object, std::string_view key, bool fallback);
[[nodiscard]] std::string needText(const JsonCursor& object, std::string_view key);
[[nodiscard]] std::string textOr(const JsonCursor& object, std::string_view key, std::string fallback);
[[nodiscard]] std::string needName(const JsonCursor& object, std::string_view key);

/// Reads "format" (must be `format`) and "units" ("mm" or "in", must be said) of a document and sets the context's
/// units.
void readHeader(const JsonCursor& document, std::string_view format);

}  // namespace tinwright
