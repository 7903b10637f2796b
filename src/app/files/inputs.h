// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/shop/material.h>
#include <tinwright/part/model/part.h>
#include <tinwright/report/data/made_report.h>
#include <tinwright/sequence/plan/pins.h>

#include "options/choices.h"

namespace tinwright::app {

/// What every command works on, read and looked up.
struct Inputs {
    Part part;
    Shop shop;
    std::shared_ptr<const MeasuredBends> measured;  ///< those of the shop
    std::vector<std::size_t> brakes;                ///< asked about; into shop.brakes, in its order
    BendMask formed = 0;
    std::optional<Material> material;        ///< materialOf() the part
    std::optional<MadeReport> made;          ///< `part` is the part as made; its lines are not tried yet
    std::vector<std::vector<BendId>> order;  ///< for `try`
    Pins pins;                               ///< none until they are asked for; of `order` what is held in it
    std::vector<std::string> warnings;       ///< of the part, then of each brake asked about
    [[nodiscard]] const Material* sheet() const { return material ? &*material : nullptr; }
};

/// The brakes asked about, of a shop that is read.
[[nodiscard]] Result<std::vector<std::size_t>> chosenBrakes(const ShopChoice& choice, const Shop& shop);

/// Reads part and shop; the issues of both come at once. Where no shop is named, as some commands may: the part alone,
/// and no brakes. `order`: "a@face,b+c" to be looked up in the part, or null.
[[nodiscard]] Result<Inputs> readInputs(const JobChoice& job, const std::string* order = nullptr);

}  // namespace tinwright::app
