// SPDX-License-Identifier: GPL-3.0-or-later
// Random parts on the shipped press brake, in every V and both modes: what is proposed cures what it was proposed for.
#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include <tinwright/forming/rules/rules.h>
#include <tinwright/geometry/box.h>

#include "press_brakes.h"
#include "sample_parts.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

constexpr unsigned kSeed = 20'811;
constexpr int kParts = 60;

const Shop kShop{};

class Dice {
public:
    double between(double least, double most) { return std::uniform_real_distribution<double>(least, most)(engine_); }
    std::size_t below(std::size_t count) { return std::uniform_int_distribution<std::size_t>(0, count - 1)(engine_); }

private:
    std::mt19937 engine_{kSeed};
};

Part randomPart(Dice& dice) {
    Section section = angleSection(60, 40, dice.between(50, 1600));
    section.thickness_mm = dice.between(0.5, 4);
    section.inside_radius_mm = dice.between(0.3, 4);
    section.flats_mm = {dice.between(3, 60), dice.between(1, 30), dice.between(3, 60)};
    const double angle_deg = dice.below(3) == 0 ? dice.between(10, 150) : 90;
    section.angles_deg = {angle_deg, dice.below(2) == 0 ? 90.0 : -90.0};
    const char* const materials[] = {"mild-steel", "1.4301", "s355jr"};
    section.material = materials[dice.below(3)];
    Part part = sectionPart(section);
    const Polygon panel = part.panels[2].region.outline;
    const double low = boxOf(panel).min().y();
    const double from = low + dice.between(0.2, 8);
    const double to = from + dice.between(0.5, 6);
    const double width_mm = dice.between(4, 0.9 * section.length_mm);
    if (to < boxOf(panel).max().y() - 0.5) cut(part, 2, "window", rectangle(3, from, 3 + width_mm, to));
    return part;
}

const Finding* same(const std::vector<Finding>& findings, const Finding& as) {
    for (const Finding& finding : findings) {
        if (finding.id == as.id && finding.feature == as.feature && finding.bends == as.bends) return &finding;
    }
    return nullptr;
}

/// The V that a remedy names first thing; none when it names none.
std::optional<double> veeNamed(const std::string& remedy) {
    if (remedy.rfind("a V of ", 0) != 0) return std::nullopt;
    return std::stod(remedy.substr(7));
}

}  // namespace

TEST_CASE("a V that is proposed leaves nothing to warn of where it was proposed") {
    INFO("seed " << kSeed);
    Dice dice;
    std::size_t proposed = 0;
    for (const char* mode : {R"("bending": "air")", R"("bending": "bottoming", "bottoming_factor": 3)"}) {
        const Brake press = shippedPress(mode);
        for (int i = 0; i < kParts; ++i) {
            const Part part = randomPart(dice);
            const Material metal = shipped(part.material);
            for (const Vee& vee : veesOf(press)) {
                for (const Finding& finding : brakeFindings(partOnBrake(part, kShop, usedIn(press, vee.opening_mm)),
                                                            &metal, kShop, usedIn(press, vee.opening_mm))) {
                    INFO("part " << i << ", V " << vee.opening_mm << ": " << finding.id << ": " << finding.words);
                    CHECK(findRule(finding.id));
                    for (const Figure& figure : finding.figures) CHECK(std::isfinite(figure.value));
                    CHECK((finding.severity == Severity::kNote || !finding.remedies.empty()));
                    for (const std::string& remedy : finding.remedies) {
                        const std::optional<double> other_mm = veeNamed(remedy);
                        if (!other_mm) continue;
                        INFO(remedy);
                        const std::vector<Finding> again =
                            brakeFindings(partOnBrake(part, kShop, usedIn(press, *other_mm)), &metal, kShop,
                                          usedIn(press, *other_mm));
                        const Finding* left = same(again, finding);
                        CHECK((!left || (finding.severity != Severity::kNote && left->severity == Severity::kNote)));
                        ++proposed;
                    }
                }
            }
        }
    }
    CHECK(proposed > 100);
}
