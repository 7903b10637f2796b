// SPDX-License-Identifier: GPL-3.0-or-later
#include "contact/tool_fits.h"

namespace tinwright {

namespace {

/// Slices of a bend's strip as they are kept.
class OwnStrip final : public StripSlices {
public:
    OwnStrip(const StrokeGeometry& geometry, OwnStrips& strips, BendId bend, Side hold)
        : geometry_(geometry), strips_(strips), bend_(bend), hold_(hold) {}
    [[nodiscard]] std::vector<Solid> at(Angle angle, const Rigid& then) const override {
        return geometry_.slicesAt(bend_, hold_, angle, 0, then);
    }
    [[nodiscard]] const std::vector<Solid>& bent() const override { return strips_.bent(bend_, hold_); }

private:
    const StrokeGeometry& geometry_;
    OwnStrips& strips_;
    BendId bend_;
    Side hold_;
};

}  // namespace

bool ToolFits::fits(BendId bend, Side hold, std::size_t family, std::size_t face) {
    const Machine& machine = geometry_.machine();
    const auto [entry, is_new] =
        known_.try_emplace({bend.index(), static_cast<std::size_t>(hold), machine.families()[family].high, face}, true);
    if (!is_new) return entry->second;
    const OwnStrip strip(geometry_, strips_, bend, hold);
    return entry->second = machine.fits(family, face, geometry_.motions(bend), strip);
}

bool ToolFits::drivenClearsBeam(BendId bend, std::size_t face) {
    const Machine& machine = geometry_.machine();
    if (machine.beam() < 0) return true;
    const auto beam = static_cast<std::size_t>(machine.beam());
    const auto [entry, is_new] = known_.try_emplace({bend.index(), 0, beam, face}, true);
    if (is_new) {
        entry->second = machine.drivenClears(machine.driven(face), beam,
                                             geometry_.motions(bend).from_driven[machine.packingOf(face)].standing);
    }
    return entry->second;
}

}  // namespace tinwright
