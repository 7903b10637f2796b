// SPDX-License-Identifier: GPL-3.0-or-later
// Hems closed under the clamp of a leaf brake.
#include <fmt/format.h>

#include <limits>

#include "closing/closing_tools.h"
#include "machine/leaf_tools.h"

namespace tinwright::replay {

namespace {

constexpr double kTakenOff_mm = 3000.0;

class LeafClosing final : public ClosingMachine {
public:
    LeafClosing(const LeafBrake& leaf, const BrakeInSetup& brake, const FoldStep& step, const ReplayedMachine& machine)
        : ClosingMachine(brake, step, machine), leaf_(leaf) {}

    void checkPieces(std::vector<std::string>& /*wrong*/) const override {}  // any bar clamps

    [[nodiscard]] std::optional<HemFlats> flatsOf(ToolId piece) const override {
        return clampFlats(brake(), *brake()->bar(piece));
    }

    [[nodiscard]] double opens_mm() const override {
        return leaf_.clamp == ClampKind::kOnBeam ? leaf_.opening_mm + thickness_mm()
                                                 : std::numeric_limits<double>::infinity();
    }

    [[nodiscard]] bool liftsOut() const override { return loose(); }

protected:
    // The clamp comes down to the hem as it does to the sheet, and opens from the sheet.
    [[nodiscard]] ClosingTools ownTools(double height_mm, std::vector<std::string>& wrong) const override {
        const double opens_mm = thickness_mm() + leaf_.opening_mm - height_mm;
        if (!loose() && opens_mm < 0)
            wrong.push_back(fmt::format("the clamp opens to {:.3f} mm, the closed hem is {:.3f} mm high",
                                        thickness_mm() + leaf_.opening_mm, height_mm));
        ClosingTools tools;
        for (Body& bar : machine().pieceBodies(step(), height_mm))
            tools.addUpper(std::move(bar), loose() ? kTakenOff_mm : opens_mm, loose());
        if (leaf_.beam.has_value()) tools.addUpper(beamBody(brake(), step(), height_mm), loose() ? 0 : opens_mm);
        const Hinge hinge = hingeOf(leaf_, step(), thickness_mm());
        tools.lower.push_back(bedBody(brake(), step(), hinge));
        tools.lower.push_back(leafBody(brake(), step(), *faceOf(leaf_, step()), hinge));
        return tools;
    }

private:
    [[nodiscard]] bool loose() const { return leaf_.clamp == ClampKind::kLooseBars; }
    [[nodiscard]] double thickness_mm() const { return machine().stroke().thickness_mm; }

    const LeafBrake& leaf_;
};

}  // namespace

std::unique_ptr<const ClosingMachine> closingKind(const LeafBrake& leaf, const BrakeInSetup& brake,
                                                  const FoldStep& step, const ReplayedMachine& machine) {
    return std::make_unique<const LeafClosing>(leaf, brake, step, machine);
}

}  // namespace tinwright::replay
