// SPDX-License-Identifier: GPL-3.0-or-later
// Each file of malformed/ must give exactly the issues (code and place) that malformed/manifest.json lists for it.
#include <catch2/catch.hpp>

#include "../malformed_corpus.h"
#include "reading.h"

using namespace tinwright;

TEST_CASE("malformed shop files give the issues of the manifest, all at once") {
    test::checkMalformed(TINWRIGHT_SOURCE_DIR "/tests/shop/malformed", [](const std::string& file) {
        const Result<Shop> shop = readShop(file, {{}});
        CHECK_FALSE(shop.ok());
        return shop.issues();
    });
}
