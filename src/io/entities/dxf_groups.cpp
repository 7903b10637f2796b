// SPDX-License-Identifier: GPL-3.0-or-later
#include "entities/dxf_groups.h"

#include <fmt/format.h>

#include <charconv>

#include "entities/dxf_limits.h"
#include "entities/dxf_vet.h"

namespace tinwright {

namespace {

std::string_view trimmed(std::string_view text) {
    const auto from = text.find_first_not_of(" \t");
    if (from == std::string_view::npos) return {};
    return text.substr(from, text.find_last_not_of(" \t") - from + 1);
}

}  // namespace

Issue DxfGroups::issueAt(std::size_t line, const char* code, std::string found, std::string expected,
                         std::string hint) const {
    return {code, file_, fmt::format("line {}", line), std::move(found), std::move(expected), std::move(hint)};
}

std::optional<std::string_view> DxfGroups::nextLine() {
    if (at_ >= bytes_.size()) return std::nullopt;
    ++line_;
    const std::size_t end = std::min(bytes_.find_first_of("\r\n", at_), bytes_.size());
    const std::string_view line = bytes_.substr(at_, end - at_);
    at_ = end + 1;
    if (end + 1 < bytes_.size() && bytes_[end] == '\r' && bytes_[end + 1] == '\n') ++at_;
    if (line.size() > DxfLimits::kLine) {
        issues_.push_back(issueAt(line_, "dxf.line", fmt::format("a line of {} bytes", line.size()),
                                  fmt::format("lines of at most {} bytes", DxfLimits::kLine)));
        return std::nullopt;
    }
    return line;
}

std::optional<DxfGroup> DxfGroups::next() {
    if (!issues_.empty()) return std::nullopt;
    const auto code_line = nextLine();
    if (!code_line) return std::nullopt;
    const std::string_view code_text = trimmed(*code_line);
    DxfGroup group;
    const auto [rest, error] = std::from_chars(code_text.data(), code_text.data() + code_text.size(), group.code);
    if (error != std::errc{} || rest != code_text.data() + code_text.size() || group.code < -5 || group.code > 1071) {
        if (code_text.empty() && trimmed(bytes_.substr(std::min(at_, bytes_.size()))).find_first_not_of("\r\n\x1a") ==
                                     std::string_view::npos)
            return std::nullopt;
        issues_.push_back(
            issueAt(line_, "dxf.group", '"' + printable(code_text) + '"', "a group code, a whole number up to 1071"));
        return std::nullopt;
    }
    const auto value = nextLine();
    if (!value) {
        if (issues_.empty())
            issues_.push_back(issueAt(line_, "dxf.line", "the end of the file after a group code",
                                      "a value on the next line", "the file seems cut short"));
        return std::nullopt;
    }
    group.value = trimmed(*value);
    group.line = line_;
    return group;
}

}  // namespace tinwright
