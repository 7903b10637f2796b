// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>
#include <string>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/press_bend.h>
#include <tinwright/io/shop/shop_io.h>

namespace tinwright::test {

/// The shipped press brake (400 kN; tools of 800 kN/m, goosenecks of 400) with fields of its own, as JSON (`"force_kn":
/// 100`).
inline Brake shippedPress(const std::string& fields = "") {
    const std::string entry = R"({"tooling": "tooling:press-brake.json")" + (fields.empty() ? "" : ", " + fields) + "}";
    const OpenReference open = [](const ReferringFile&, const std::string& reference) -> Result<ReferencedFile> {
        const std::string name = reference.substr(reference.find(':') + 1);
        std::ifstream file(std::string(TINWRIGHT_SOURCE_DIR "/tooling/") + name, std::ios::binary);
        return ReferencedFile{name, name, std::string(std::istreambuf_iterator<char>(file), {})};
    };
    const Result<Shop> shop =
        readShopText(R"({"format": "tinwright-shop/1", "units": "mm", "brakes": [)" + entry + "]}", "shop.json", open);
    REQUIRE(shop);
    return shop.value().brakes.front();
}

inline Vee veeOf(const Brake& brake, double opening_mm) {
    for (const Vee& vee : veesOf(brake)) {
        if (vee.opening_mm == opening_mm) return vee;
    }
    FAIL("no V of " << opening_mm);
    return {};
}

/// A press brake as it is used with its V of that opening.
inline BrakeInSetup usedIn(const Brake& brake, double opening_mm) {
    const Vee vee = veeOf(brake, opening_mm);
    return inVee(brake, vee, pressRadius_mm(brake.press(), vee));
}

}  // namespace tinwright::test
