// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/plan/plan.h>

#include "machine/replayed_machine.h"

namespace tinwright::replay {

/// A tool over the sheet where it is when the hem is closed, and how far it goes up from there to stand open.
struct UpperTool {
    Body body;
    double rises_mm = 0;
    bool taken_off = false;  ///< a loose bar: it is gone while the part comes and goes
};

/// What a hem is closed between, in the frame of the closing: z = 0 the lower flat.
struct ClosingTools {
    std::vector<UpperTool> upper;
    std::vector<Body> lower;

    void addUpper(Body body, double rises_mm, bool taken_off = false);
};

/// How a kind of machine closes hems with the pieces of one step, which is told in the frame of the closing: all that
/// this room knows of the kind. Each has an implementation in a file of its own.
class ClosingMachine {
public:
    /// `step` and `machine` outlive it.
    ClosingMachine(BrakeInSetup brake, const FoldStep& step, const ReplayedMachine& machine)
        : brake_(std::move(brake)), step_(step), machine_(machine) {}
    virtual ~ClosingMachine() = default;
    ClosingMachine(const ClosingMachine&) = delete;
    ClosingMachine& operator=(const ClosingMachine&) = delete;

    /// Says what of the step's pieces closes no hems, or not together.
    virtual void checkPieces(std::vector<std::string>& wrong) const = 0;
    /// Between which a piece closes hems, with what is under it; depth 0: it has none. Nothing for pieces that only
    /// press.
    [[nodiscard]] virtual std::optional<HemFlats> flatsOf(ToolId piece) const = 0;
    /// How far the flats come apart; infinite where what is over the part is taken off.
    [[nodiscard]] virtual double opens_mm() const = 0;
    /// Whether nothing stays over the part, so that it can be lifted out.
    [[nodiscard]] virtual bool liftsOut() const = 0;
    /// All tools round a hem closed to `height_mm`; says in `wrong` what keeps them from closing it.
    [[nodiscard]] ClosingTools tools(double height_mm, std::vector<std::string>& wrong) const;

protected:
    /// All but the end frames.
    [[nodiscard]] virtual ClosingTools ownTools(double height_mm, std::vector<std::string>& wrong) const = 0;
    [[nodiscard]] const BrakeInSetup& brake() const { return brake_; }
    [[nodiscard]] const FoldStep& step() const { return step_; }
    [[nodiscard]] const ReplayedMachine& machine() const { return machine_; }

private:
    BrakeInSetup brake_;
    const FoldStep& step_;
    const ReplayedMachine& machine_;
};

[[nodiscard]] std::unique_ptr<const ClosingMachine> closingMachine(const BrakeInSetup& brake, const FoldStep& step,
                                                                   const ReplayedMachine& machine);

/// One for each alternative of `Brake::kind`.
[[nodiscard]] std::unique_ptr<const ClosingMachine> closingKind(const LeafBrake& leaf, const BrakeInSetup& brake,
                                                                const FoldStep& step, const ReplayedMachine& machine);
[[nodiscard]] std::unique_ptr<const ClosingMachine> closingKind(const PressBrake& press, const BrakeInSetup& brake,
                                                                const FoldStep& step, const ReplayedMachine& machine);

}  // namespace tinwright::replay
