// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/io/json/json_reading.h>

#include <fmt/format.h>

#include <filesystem>
#include <fstream>

#include <nlohmann/json.hpp>

namespace tinwright {

namespace {

Issue fileIssue(const std::string& path, std::string code, std::string found, std::string expected) {
    return Issue{std::move(code), path, "", std::move(found), std::move(expected), ""};
}

std::string escaped(std::string_view key) {
    std::string out;
    for (const char c : key) {
        if (c == '~')
            out += "~0";
        else if (c == '/')
            out += "~1";
        else
            out += c;
    }
    return out;
}

std::string kindOf(const nlohmann::json& value) {
    switch (value.type()) {
        case nlohmann::json::value_t::null: return "null";
        case nlohmann::json::value_t::object: return fmt::format("an object with {} fields", value.size());
        case nlohmann::json::value_t::array: return fmt::format("a list of {}", value.size());
        case nlohmann::json::value_t::string: return "text";
        case nlohmann::json::value_t::boolean: return "";
        default: return "";
    }
}

}  // namespace

Result<std::string> readTextFile(const std::string& path, const JsonLimits& limits) {
    std::error_code error;
    if (std::filesystem::is_directory(path, error)) {
        return fileIssue(path, "file.unreadable", "a folder", "a JSON file");
    }
    std::ifstream file(path, std::ios::binary);
    if (!file) return fileIssue(path, "file.unreadable", "no file that can be read", "a JSON file");
    // Block by block: the size is not asked for, since pipes have none, and a buffer of the largest size would take
    // longer to clear than a usual file takes to read.
    std::string text;
    std::string block(std::size_t{1} << 16, '\0');
    while (text.size() <= limits.bytes && file) {
        file.read(block.data(), static_cast<std::streamsize>(block.size()));
        text.append(block, 0, static_cast<std::size_t>(file.gcount()));
    }
    if (file.bad()) return fileIssue(path, "file.unreadable", "an error while reading", "a JSON file");
    if (text.size() > limits.bytes) {
        return fileIssue(path, "file.too-large", fmt::format("more than {} bytes", limits.bytes),
                         fmt::format("at most {} bytes", limits.bytes));
    }
    return text;
}

std::string pointerTo(const std::string& place, std::string_view key) { return place + "/" + escaped(key); }

std::string pointerTo(const std::string& place, std::size_t index) { return fmt::format("{}/{}", place, index); }

bool isAtOrAbove(const std::string& above, const std::string& place) {
    return place.compare(0, above.size(), above) == 0 && (above.size() == place.size() || place[above.size()] == '/');
}

std::string foundText(const nlohmann::json& value) {
    if (value.is_object() || value.is_array() || value.is_null()) return kindOf(value);
    // ASCII escapes keep the text valid and printable whatever bytes came in.
    std::string text = value.dump(-1, ' ', true, nlohmann::json::error_handler_t::replace);
    if (text.size() > 52) text = text.substr(0, 48) + "...";
    const std::string kind = kindOf(value);
    return kind.empty() ? text : kind + " " + text;
}

}  // namespace tinwright
