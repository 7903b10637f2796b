// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tinwright/base/issue.h>

namespace tinwright {

/// A pair of lines of a DXF file: group code and value.
struct DxfGroup {
    int code = 0;
    std::string_view value;  ///< without blanks at its ends
    std::size_t line = 0;    ///< of the value, from 1
};

/// Cuts a text into groups, one at a time. Lines end in LF, CR LF or CR.
class DxfGroups {
public:
    DxfGroups(std::string_view bytes, std::string file) : bytes_(bytes), file_(std::move(file)) {}
    /// Nothing at the end of the text, and after an issue.
    [[nodiscard]] std::optional<DxfGroup> next();
    [[nodiscard]] const Issues& issues() const { return issues_; }
    [[nodiscard]] Issue issueAt(std::size_t line, const char* code, std::string found, std::string expected,
                                std::string hint = {}) const;

private:
    std::optional<std::string_view> nextLine();
    std::string_view bytes_;
    std::string file_;
    std::size_t at_ = 0;
    std::size_t line_ = 0;
    Issues issues_;
};

}  // namespace tinwright
