// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/words/brake_warnings.h>

#include <algorithm>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake.h>

#include "words/words.h"

namespace tinwright {
namespace {

using namespace report;

/// "/bars/B30/height" -> "bars": in a shop file nearly every figure may be marked, and the field is enough to look it
/// up.
std::string fieldOf(const std::string& pointer) {
    return pointer.size() < 2 ? pointer : pointer.substr(1, pointer.find('/', 1) - 1);
}

std::string uncertainWarning(const Brake& brake, bool has_hems) {
    std::vector<std::string> fields;
    for (const std::string& pointer : brake.uncertain) {
        const std::string field = fieldOf(pointer);
        if (field == "hem_thickness" && !has_hems) continue;
        if (std::find(fields.begin(), fields.end(), field) == fields.end()) fields.push_back(field);
    }
    if (fields.empty()) return {};
    return fmt::format(
        "{}: the shop file has figures that nobody has measured, in {}: measure them before you rely on a close fit",
        brake.name, listed(fields));
}

}  // namespace

std::vector<std::string> brakeWarnings(const Brake& brake, bool has_hems) {
    std::string warning = uncertainWarning(brake, has_hems);
    return warning.empty() ? std::vector<std::string>{} : std::vector<std::string>{std::move(warning)};
}

}  // namespace tinwright
