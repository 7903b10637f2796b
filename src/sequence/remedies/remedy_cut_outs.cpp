// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/forming/checks/check.h>
#include <tinwright/forming/webs/cut_out_cures.h>

#include "remedies/remedy_trials.h"

namespace tinwright {

namespace {

class CutOutSearch {
public:
    CutOutSearch(RemedyTrials& trials, const BrakeResult& as_drawn) : trials_(trials), as_drawn_(as_drawn) {}

    std::vector<Remedy> run() {
        const std::vector<CutOutCure> cures = offered();
        for (const CutOutCure& cure : cures) tryOut({cure});
        if (found_.empty()) {
            tryOut(ofEach(cures, [](const CutOutCure&) { return true; }));
            tryOut(ofEach(cures, [](const CutOutCure& cure) { return cure.kind == CutOutCure::Kind::kCutAfter; }));
        }
        return std::move(found_);
    }

private:
    /// Of all that the best order spoils, and of what would be spoilt with the other side held.
    [[nodiscard]] std::vector<CutOutCure> offered() {
        const Part& part = trials_.part();
        const Material* material = trials_.options().material;
        const BrakeInSetup& brake = trials_.brake();
        const PartOnBrake folded = partOnBrake(part, trials_.shop(), brake);
        std::vector<CutOutCure> cures;
        const auto add = [&](const std::vector<Finding>& findings) {
            for (const Finding& finding : findings) {
                if (consequenceOf(finding) != Consequence::kSpoils) continue;
                for (const CutOutCure& cure : finding.cures) {
                    if (std::find(cures.begin(), cures.end(), cure) == cures.end()) cures.push_back(cure);
                }
            }
        };
        BendMask formed = trials_.options().formed;
        for (const FoldStep& fold : as_drawn_.plans.front().folds) {
            add(foldFindings(folded, material, trials_.shop(), brake, fold, formed));
            formed |= fold.stroke.bends;
        }
        add(brakeFindings(folded, material, trials_.shop(), brake));
        add(partFindings(part, material));
        return cures;
    }

    /// The first for every cut-out.
    template <class Wanted>
    [[nodiscard]] static std::vector<CutOutCure> ofEach(const std::vector<CutOutCure>& cures, Wanted wanted) {
        std::vector<CutOutCure> each;
        for (const CutOutCure& cure : cures) {
            const auto is_same = [&](const CutOutCure& other) { return other.cut_out == cure.cut_out; };
            if (wanted(cure) && std::none_of(each.begin(), each.end(), is_same)) each.push_back(cure);
        }
        return each;
    }

    void tryOut(std::vector<CutOutCure> cures) {
        if (cures.empty()) return;
        std::optional<Part> changed = withCures(trials_.part(), cures);
        if (!changed) return;
        Remedy remedy;
        remedy.kind = RemedyKind::kCutOut;
        remedy.brake = trials_.brakeIndex();
        remedy.cut_outs = std::move(cures);
        remedy.result = trials_.planInFull(*changed);
        if (remedy.result.level() > trials_.asDrawn().level()) found_.push_back(std::move(remedy));
    }

    RemedyTrials& trials_;
    const BrakeResult& as_drawn_;
    std::vector<Remedy> found_;
};

}  // namespace

std::vector<Remedy> cutOutRemedies(RemedyTrials& trials, const BrakeResult& as_drawn) {
    return CutOutSearch(trials, as_drawn).run();
}

}  // namespace tinwright
