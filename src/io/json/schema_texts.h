// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>
#include <vector>

namespace tinwright {

struct SchemaText {
    std::string_view name;
    std::string_view text;
};

/// The schemas built into the library; their source is made from src/io/schema at build time.
const std::vector<SchemaText>& schemaTexts();

}  // namespace tinwright
