// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/io/json/json_cursor.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include <nlohmann/json.hpp>

#include <tinwright/base/units.h>
#include <tinwright/base/words.h>
#include <tinwright/io/json/json_reading.h>

namespace tinwright {

namespace {

constexpr std::size_t kMaxIssues = 200;  // beyond this a list of issues helps nobody

std::string rangeText(const Range& range, double scale, std::string_view unit) {
    return fmt::format("a number {} {} and {} {}{}{}", range.above_least ? "over" : "from", range.least / scale,
                       range.below_most ? "under" : "up to", range.most / scale, unit.empty() ? "" : " ", unit);
}

std::string quoted(const std::vector<std::string_view>& words) {
    return joined(words, ", ", [](std::string_view word) { return fmt::format("\"{}\"", word); });
}

std::optional<double> finite(const nlohmann::json& value) {
    if (!value.is_number()) return std::nullopt;
    const double number = value.get<double>();
    return std::isfinite(number) ? std::optional(number) : std::nullopt;
}

}  // namespace

void ReadContext::report(std::string place, std::string_view what, std::string found, std::string expected,
                         std::string hint) {
    if (issues.size() >= kMaxIssues) return;
    issues.push_back({code + "." + std::string(what), file, std::move(place), std::move(found), std::move(expected),
                      std::move(hint)});
}

bool Range::holds(double value) const {
    return (above_least ? value > least : value >= least) && (below_most ? value < most : value <= most);
}

void JsonCursor::report(std::string_view what, std::string found, std::string expected, std::string hint) const {
    context_->report(place_, what, std::move(found), std::move(expected), std::move(hint));
}

void JsonCursor::wrong(std::string_view what, std::string expected, std::string hint) const {
    report(what, foundText(*value_), std::move(expected), std::move(hint));
}

bool JsonCursor::object(const std::vector<std::string_view>& keys) const {
    if (!value_->is_object()) {
        wrong("type", "an object with " + quoted(keys));
        return false;
    }
    const std::vector<std::string> known(keys.begin(), keys.end());
    for (const auto& [key, member] : value_->items()) {
        if (std::find(known.begin(), known.end(), key) != known.end()) continue;
        const std::string near = nearestWord(key, known);
        context_->report(pointerTo(place_, key), "unknown-field", foundText(member), "only the fields " + quoted(keys),
                         near.empty() ? "" : "perhaps \"" + near + "\"");
    }
    return true;
}

bool JsonCursor::has(std::string_view key) const { return value_->is_object() && value_->contains(std::string(key)); }

std::optional<JsonCursor> JsonCursor::get(std::string_view key) const {
    if (!has(key)) return std::nullopt;
    return JsonCursor(value_->at(std::string(key)), pointerTo(place_, key), *context_);
}

std::optional<JsonCursor> JsonCursor::need(std::string_view key, std::string_view expected) const {
    std::optional<JsonCursor> member = get(key);
    if (!member) context_->report(pointerTo(place_, key), "missing", "nothing", std::string(expected));
    return member;
}

std::vector<std::pair<std::string, JsonCursor>> JsonCursor::members() const {
    std::vector<std::pair<std::string, JsonCursor>> list;
    if (!value_->is_object()) return list;
    for (const auto& [key, member] : value_->items())
        list.emplace_back(key, JsonCursor(member, pointerTo(place_, key), *context_));
    return list;
}

std::vector<JsonCursor> JsonCursor::items(std::size_t least, std::size_t most) const {
    std::vector<JsonCursor> list;
    const std::string expected = fmt::format("a list of {} to {}", least, most);
    if (!value_->is_array()) {
        wrong("type", expected);
        return list;
    }
    if (value_->size() < least || value_->size() > most) {
        wrong("count", expected);
        return list;
    }
    for (std::size_t i = 0; i < value_->size(); ++i) list.emplace_back((*value_)[i], pointerTo(place_, i), *context_);
    return list;
}

std::optional<double> JsonCursor::number(Range range, std::string_view unit) const {
    const std::optional<double> value = finite(*value_);
    if (value && range.holds(*value)) return value;
    wrong(value ? "range" : "type", rangeText(range, 1.0, unit));
    return std::nullopt;
}

std::optional<double> JsonCursor::length_mm(Range range_mm) const {
    const double scale = context_->mm_per_unit;
    const std::optional<double> value = finite(*value_);
    if (value && range_mm.holds(*value * scale)) return *value * scale;
    wrong(value ? "range" : "type", rangeText(range_mm, scale, scale == 1.0 ? "mm" : "in"));
    return std::nullopt;
}

std::optional<int> JsonCursor::integer(int least, int most) const {
    const std::optional<double> value = finite(*value_);
    const bool whole = value && std::floor(*value) == *value;
    if (whole && *value >= least && *value <= most) return static_cast<int>(*value);
    wrong(whole ? "range" : "type", fmt::format("a whole number from {} to {}", least, most));
    return std::nullopt;
}

std::optional<bool> JsonCursor::boolean() const {
    if (value_->is_boolean()) return value_->get<bool>();
    wrong("type", "true or false");
    return std::nullopt;
}

std::optional<std::string> JsonCursor::text(std::size_t most) const {
    const std::string expected = fmt::format("a text of 1 to {} bytes without control characters", most);
    if (!value_->is_string()) {
        wrong("type", expected);
        return std::nullopt;
    }
    const std::string& text = value_->get_ref<const std::string&>();
    const bool clean = std::none_of(text.begin(), text.end(), [](char c) {
        const auto byte = static_cast<unsigned char>(c);
        return byte < 0x20 || byte == 0x7f;
    });
    if (!text.empty() && text.size() <= most && clean) return text;
    wrong("range", expected);
    return std::nullopt;
}

std::optional<std::string> JsonCursor::name() const {
    const std::string expected = "a name of 1 to 64 of the characters A-Z a-z 0-9 _ - . +, not starting with -";
    if (!value_->is_string()) {
        wrong("type", expected);
        return std::nullopt;
    }
    const std::string& text = value_->get_ref<const std::string&>();
    if (isName(text)) return text;
    wrong("name", expected);
    return std::nullopt;
}

std::optional<std::size_t> JsonCursor::choice(std::initializer_list<std::string_view> words) const {
    const std::string expected = "one of " + quoted(words);
    if (!value_->is_string()) {
        wrong("type", expected);
        return std::nullopt;
    }
    const std::string& text = value_->get_ref<const std::string&>();
    const auto it = std::find(words.begin(), words.end(), text);
    if (it != words.end()) return static_cast<std::size_t>(it - words.begin());
    const std::string near = nearestWord(text, {words.begin(), words.end()});
    wrong("choice", expected, near.empty() ? "" : "perhaps \"" + near + "\"");
    return std::nullopt;
}

double needLength_mm(const JsonCursor& object, std::string_view key, Range range_mm) {
    const auto member = object.need(key, "a length");
    return member ? member->length_mm(range_mm).value_or(0.0) : 0.0;
}

double lengthOr_mm(const JsonCursor& object, std::string_view key, Range range_mm, double fallback_mm) {
    const auto member = object.get(key);
    return member ? member->length_mm(range_mm).value_or(fallback_mm) : fallback_mm;
}

double needNumber(const JsonCursor& object, std::string_view key, Range range, std::string_view unit) {
    const auto member = object.need(key, rangeText(range, 1.0, unit));
    return member ? member->number(range, unit).value_or(0.0) : 0.0;
}

double numberOr(const JsonCursor& object, std::string_view key, Range range, double fallback, std::string_view unit) {
    const auto member = object.get(key);
    return member ? member->number(range, unit).value_or(fallback) : fallback;
}

int integerOr(const JsonCursor& object, std::string_view key, int least, int most, int fallback) {
    const auto member = object.get(key);
    return member ? member->integer(least, most).value_or(fallback) : fallback;
}

bool booleanOr(const JsonCursor& object, std::string_view key, bool fallback) {
    const auto member = object.get(key);
    return member ? member->boolean().value_or(fallback) : fallback;
}

std::string needText(const JsonCursor& object, std::string_view key) {
    const auto member = object.need(key, "a text");
    return member ? member->text().value_or("") : "";
}

std::string textOr(const JsonCursor& object, std::string_view key, std::string fallback) {
    const auto member = object.get(key);
    return member ? member->text().value_or(fallback) : fallback;
}

std::string needName(const JsonCursor& object, std::string_view key) {
    const auto member = object.need(key, "a name");
    return member ? member->name().value_or("") : "";
}

void readHeader(const JsonCursor& document, std::string_view format) {
    if (const auto tag = document.need("format", fmt::format("\"{}\"", format)))
        static_cast<void>(tag->choice({format}));
    if (const auto units = document.need("units", "\"mm\" or \"in\"")) {
        document.context().mm_per_unit = units->choice({"mm", "in"}).value_or(0) == 1 ? kMmPerInch : 1.0;
    }
}

}  // namespace tinwright
