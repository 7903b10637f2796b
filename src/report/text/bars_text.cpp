// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/text/bars_text.h>

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/report/text/text.h>

#include "kinds/brake_words.h"
#include "words/wrap.h"

namespace tinwright {

namespace {

constexpr double kReach_mm = 200;  // how far the nearest widths are looked for

// Of a range that lies wholly below: its largest width. Of one that holds the width asked about or reaches past it: its
// least, where its string just fits.
double nearestBelow_mm(const WidthRange& range, double width_mm, bool suited) {
    return suited || range.most_mm >= width_mm ? range.least_mm : range.most_mm;
}

std::string strings(const BarsAnswer& answer) {
    const report::ToolTerms& tools = report::wordsFor(*answer.brake).terms.tools;
    std::string text =
        fmt::format("  {:<8}{:>10}{:>9}{:>8}  {}\n", "pieces", "together", "slack", "cover", tools.upper);
    const std::size_t most = tools.strings_shown;
    for (std::size_t i = 0; i < std::min(answer.fits.size(), most); ++i) {
        const BarFit& fit = answer.fits[i];
        const std::string first = fmt::format("  {:<8}{:>7.1f} mm{:>6.1f} mm{:>6.0f} %  ", fit.pieces, fit.width_mm,
                                              fit.slack_mm, std::floor(100 * fit.covered_share));
        std::string names = answer.names[i];
        if (fit.gaps_mm > 0) names += fmt::format(", gaps {:.1f} mm in all", fit.gaps_mm);
        if (!fit.comfortable) names += ", tight";
        text += report::wrapped(first, std::string(first.size(), ' '), names, kReportColumns);
    }
    if (answer.fits.size() > most) text += fmt::format("  and {} more\n", answer.fits.size() - most);
    return text;
}

std::string title(const BarsAnswer& answer) {
    std::string text =
        fmt::format("Inside width {:.1f} mm on {}", answer.inside_width_mm, report::printable(answer.brake->name));
    if (answer.brake.vee() != nullptr)
        text += fmt::format(", V {:.4g} of {:.4g}°, walls of inside radius {:.2f} mm", answer.brake.vee()->opening_mm,
                            answer.brake.vee()->angle.deg(), answer.wall_radius_mm);
    return report::heading(text, '-');
}

/// What is to be known of the kinds of brake that are answered for, each once.
std::vector<std::string> whatStringsAre(const std::vector<BarsAnswer>& answers) {
    std::vector<std::string> all;
    for (const BarsAnswer& answer : answers) {
        const std::string words = report::wordsFor(*answer.brake).terms.tools.strings_are;
        if (!words.empty() && std::find(all.begin(), all.end(), words) == all.end()) all.push_back(words);
    }
    return all;
}

nlohmann::ordered_json rangeJson(const std::optional<NamedWidths>& range) {
    if (!range) return nullptr;
    return {{"least_mm", range->widths.least_mm},
            {"most_mm", range->widths.most_mm},
            {"bars", range->bars},
            {"pieces", range->widths.with.pieces}};
}

std::string rangeText(const std::optional<NamedWidths>& range) {
    if (!range) return "none within 200 mm";
    return fmt::format("{:.1f} to {:.1f} mm: {}", range->widths.least_mm, range->widths.most_mm, range->bars);
}

}  // namespace

BarsAnswer barsAnswer(const BrakeInSetup& brake, const Limits& limits, double inside_width_mm) {
    BarsAnswer answer;
    answer.brake = brake;
    answer.wall_radius_mm = brake.inside_radius_mm();
    answer.inside_width_mm = inside_width_mm;
    answer.fits = barFits(brake, limits, inside_width_mm);
    for (const BarFit& fit : answer.fits) answer.names.push_back(toolNames(*brake, fit.counts));
    const bool suited = !answer.fits.empty() && answer.fits.front().comfortable;
    double below_mm = -1;
    for (const WidthRange& range :
         suitedWidths(brake, limits, std::max(0.0, inside_width_mm - kReach_mm), inside_width_mm + kReach_mm)) {
        if (range.least_mm > inside_width_mm) {  // ascending: the first is the nearest
            answer.above = {range, toolNames(*brake, range.with.counts)};
            break;
        }
        const double nearest_mm = nearestBelow_mm(range, inside_width_mm, suited);
        if (nearest_mm >= inside_width_mm || nearest_mm <= below_mm) continue;
        below_mm = nearest_mm;
        answer.below = {range, toolNames(*brake, range.with.counts)};
    }
    return answer;
}

std::string barsText(const std::vector<BarsAnswer>& answers, const Limits& limits) {
    std::string text;
    for (const BarsAnswer& answer : answers) {
        if (!text.empty()) text += "\n";
        text += title(answer);
        const report::ToolTerms& tools = report::wordsFor(*answer.brake).terms.tools;
        const char* label = tools.upper_label;
        if (answer.fits.empty()) {
            text +=
                report::labelled(label, fmt::format("no string of the {} comes under it and covers it", tools.upper));
        } else if (!answer.fits.front().comfortable) {
            text += report::labelled(label,
                                     fmt::format("only tightly: less than {:.1f} mm at each end", limits.clearance_mm));
        } else {
            text += report::labelled(
                label, fmt::format("{} {}: {}", answer.fits.front().pieces,
                                   answer.fits.front().pieces == 1 ? "piece" : "pieces", answer.names.front()));
        }
        text += report::labelled("Next below", rangeText(answer.below));
        text += report::labelled("Next above", rangeText(answer.above));
        if (!answer.fits.empty()) text += strings(answer);
    }
    text +=
        "\n" + report::wrapped(
                   "", "",
                   fmt::format("A string stays {:.1f} mm under the inside width at least ({:.1f} mm at each end to be "
                               "comfortable), clear of the walls' inside radius; "
                               "up to {:.1f} mm of bend may stick out at each end, with gaps of up to {:.1f} mm. The "
                               "bend is shorter than the inside width by that radius at each end.",
                               limits.plus_side_mm, limits.clearance_mm, limits.uncovered_end_mm, limits.bar_gap_mm),
                   kReportColumns);
    for (const std::string& words : whatStringsAre(answers)) text += report::wrapped("", "", words, kReportColumns);
    return text;
}

std::string barsJson(const std::vector<BarsAnswer>& answers) {
    nlohmann::ordered_json document{{"format", "tinwright-bars/1"}, {"brakes", nlohmann::ordered_json::array()}};
    for (const BarsAnswer& answer : answers) {
        nlohmann::ordered_json strings = nlohmann::ordered_json::array();
        for (std::size_t i = 0; i < answer.fits.size(); ++i) {
            const BarFit& fit = answer.fits[i];
            strings.push_back({{"bars", answer.names[i]},
                               {"pieces", fit.pieces},
                               {"width_mm", fit.width_mm},
                               {"end_room_mm", fit.end_room_mm},
                               {"slack_mm", fit.slack_mm},
                               {"gaps_mm", fit.gaps_mm},
                               {"covered_share", std::round(fit.covered_share * 1e4) / 1e4},
                               {"comfortable", fit.comfortable}});
        }
        nlohmann::ordered_json brake{{"name", answer.brake->name}, {"inside_width_mm", answer.inside_width_mm}};
        if (answer.brake.vee() != nullptr)
            brake.update(
                {{"vee_mm", answer.brake.vee()->opening_mm}, {"vee_angle_deg", answer.brake.vee()->angle.deg()}});
        brake.update(
            {{"strings", strings}, {"next_below", rangeJson(answer.below)}, {"next_above", rangeJson(answer.above)}});
        document["brakes"].push_back(std::move(brake));
    }
    return document.dump(2) + "\n";
}

}  // namespace tinwright
