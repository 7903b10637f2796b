// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

namespace tinwright::test {

/// What a published schema (src/io/schema/NAME.schema.json) says against a document: "place: words", one a line; empty
/// when it accepts the document. Throws when there is no such schema or it is not valid itself.
[[nodiscard]] std::string schemaComplaints(const nlohmann::json& document, const std::string& name);

}  // namespace tinwright::test
