// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/io/json/json_reading.h>

#include <fmt/format.h>

#include <algorithm>

#include <nlohmann/json.hpp>

namespace tinwright {

namespace {

using nlohmann::json;

constexpr std::size_t kMaxDuplicates = 20;

std::string lineAndColumn(std::string_view text, std::size_t position) {
    const std::string_view before = text.substr(0, std::min(position, text.size()));
    const auto lines = std::count(before.begin(), before.end(), '\n');
    const std::size_t start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
    return fmt::format("line {}, column {}", lines + 1, before.size() - start + 1);
}

// The byte the parser stopped at, printable.
std::string byteAt(std::string_view text, std::size_t position) {
    if (position >= text.size()) return "the end of the file";
    const auto byte = static_cast<unsigned char>(text[position]);
    if (byte > 0x20 && byte < 0x7f) return fmt::format("'{}'", text[position]);
    return fmt::format("byte 0x{:02x}", byte);
}

// The parser's own sentence after "syntax error", without its position, kept to printable ASCII.
std::string sentence(std::string words) {
    const std::size_t expected = words.find("expected ");
    words = expected == std::string::npos ? "valid JSON" : words.substr(expected + 9);
    for (char& c : words) {
        if (c < 0x20 || c > 0x7e) c = '?';
    }
    return words.substr(0, 80);
}

// Builds the document while it is parsed, so that limits and duplicate keys are seen before memory is spent.
class Builder : public json::json_sax_t {
public:
    Builder(std::string_view text, const std::string& file, const JsonLimits& limits)
        : text_(text), file_(file), limits_(limits) {}

    bool null() override { return put(json(nullptr)) != nullptr; }
    bool boolean(bool value) override { return put(json(value)) != nullptr; }
    bool number_integer(number_integer_t value) override { return put(json(value)) != nullptr; }
    bool number_unsigned(number_unsigned_t value) override { return put(json(value)) != nullptr; }
    bool number_float(number_float_t value, const string_t&) override { return put(json(value)) != nullptr; }
    bool string(string_t& value) override { return put(json(std::move(value))) != nullptr; }
    bool binary(binary_t&) override { return false; }
    bool start_object(std::size_t) override { return open(json::object()); }
    bool start_array(std::size_t) override { return open(json::array()); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }
    bool key(string_t& name) override;
    bool parse_error(std::size_t position, const std::string& token, const json::exception& error) override;

    Issues issues;
    json document;

private:
    json* put(json value);
    bool open(json container);
    bool close() {
        stack_.pop_back();
        return true;
    }
    std::string place() const;
    void report(std::string code, std::string where, std::string found, std::string expected) {
        issues.push_back({std::move(code), file_, std::move(where), std::move(found), std::move(expected), ""});
    }

    // Where we are: containers that are open, each with the key being read. Pointers stay valid, since a
    // container is not touched while one inside it is open.
    struct Level {
        json* container;
        std::string key;
    };
    std::string_view text_;
    const std::string& file_;
    JsonLimits limits_;
    std::vector<Level> stack_;
    std::size_t values_ = 0;
    std::size_t duplicates_ = 0;
};

std::string Builder::place() const {
    std::string pointer;
    for (const Level& level : stack_) {
        // An element of the innermost list is about to be put there; those of the lists around it are there already.
        const std::size_t placed = &level == &stack_.back() ? 0 : 1;
        pointer = level.container->is_object() ? pointerTo(pointer, level.key)
                                               : pointerTo(pointer, level.container->size() - placed);
    }
    return pointer;
}

json* Builder::put(json value) {
    if (++values_ > limits_.values) {
        report("json.too-many", place(), fmt::format("more than {} values", limits_.values),
               fmt::format("at most {} values in a file", limits_.values));
        return nullptr;
    }
    if (stack_.empty()) return &(document = std::move(value));
    Level& level = stack_.back();
    if (level.container->is_array()) return &level.container->emplace_back(std::move(value));
    return &((*level.container)[level.key] = std::move(value));
}

bool Builder::open(json container) {
    if (stack_.size() >= limits_.depth) {
        report("json.too-deep", place(), fmt::format("more than {} levels", limits_.depth),
               fmt::format("at most {} levels of objects and lists inside one another", limits_.depth));
        return false;
    }
    json* placed = put(std::move(container));
    if (placed == nullptr) return false;
    stack_.push_back({placed, ""});
    return true;
}

bool Builder::key(string_t& name) {
    Level& level = stack_.back();
    level.key = name;
    if (level.container->contains(name) && ++duplicates_ <= kMaxDuplicates) {
        report("json.duplicate-key", place(), "the same field twice", "each field once");
    }
    return true;
}

bool Builder::parse_error(std::size_t position, const std::string&, const json::exception& error) {
    const std::size_t at = position == 0 ? 0 : position - 1;  // the parser counts bytes read
    const std::string where = lineAndColumn(text_, at);
    if (dynamic_cast<const json::out_of_range*>(&error) != nullptr) {
        report("json.number", where, "a number too large for a double", "a number of ordinary size");
    } else {
        report("json.syntax", where, byteAt(text_, at), sentence(error.what()));
    }
    return false;
}

}  // namespace

Result<json> parseJson(std::string_view text, const std::string& file, const JsonLimits& limits) {
    if (text.size() > limits.bytes) {
        return Issue{"file.too-large",
                     file,
                     "",
                     fmt::format("{} bytes", text.size()),
                     fmt::format("at most {} bytes", limits.bytes),
                     ""};
    }
    Builder builder(text, file, limits);
    const bool parsed = json::sax_parse(text.begin(), text.end(), &builder);
    if (!builder.issues.empty()) return std::move(builder.issues);
    TINWRIGHT_REQUIRE(parsed, "a refused document says why");
    return std::move(builder.document);
}

}  // namespace tinwright
