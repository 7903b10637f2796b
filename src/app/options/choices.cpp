// SPDX-License-Identifier: GPL-3.0-or-later
#include "options/choices.h"

namespace tinwright::app {
namespace {

std::vector<Option> drawingOptions(DrawingChoice& drawing) {
    const char* const kGroup = "For a part in a .dxf file";
    const auto names = [&](const char* option, std::vector<std::string>& values, const char* meaning) {
        return Option{.name = option,
                      .target = &values,
                      .meaning = meaning,
                      .type = "NAME",
                      .group = kGroup,
                      .style = ListStyle::kEach};
    };
    return {{.name = "--bends",
             .target = &drawing.bends_path,
             .meaning = "how its lines are bent (default: PART.bends.json beside it)",
             .type = "FILE",
             .group = kGroup},
            {.name = "--units",
             .target = &drawing.units,
             .meaning = "mm or in, whatever the drawing says",
             .type = "UNITS",
             .group = kGroup,
             .words = {"mm", "in"}},
            names("--cut-layer", drawing.cut_layers, "a layer of cut lines; * at the end for any rest"),
            names("--bend-layer", drawing.bend_layers, "a layer of bend lines"),
            names("--ignore-layer", drawing.ignored_layers, "a layer to leave out"),
            names("--bend-line-type", drawing.bend_line_types, "a line type of bend lines")};
}

}  // namespace

std::vector<Option> partOptions(PartChoice& part) {
    std::vector<Option> options{{.name = "PART",
                                 .target = &part.path,
                                 .meaning = "the part: a recipe (JSON), or a flat blank (.dxf)",
                                 .required = true}};
    append(options, drawingOptions(part.drawing));
    options.push_back(logOption());
    return options;
}

std::vector<Option> optionalShopOptions(ShopChoice& shop, const char* meaning) {
    return {{.name = "--shop", .target = &shop.path, .meaning = meaning, .type = "FILE"},
            {.name = "--brake",
             .target = &shop.brake,
             .meaning = "only this brake of the shop (default: every one)",
             .type = "NAME"}};
}

std::vector<Option> shopOptions(ShopChoice& shop) {
    std::vector<Option> options = optionalShopOptions(shop, "the shop file (JSON): brakes and their tools");
    options.front().required = true;
    return options;
}

std::vector<Option> pinOptions(PinChoice& pins, bool of_order) {
    const char* const kGroup = "What you settle; the rest is planned";
    const auto list = [&](const char* name, std::vector<std::string>& values, const char* meaning, const char* type) {
        return Option{.name = name,
                      .target = &values,
                      .meaning = meaning,
                      .type = type,
                      .group = kGroup,
                      .style = ListStyle::kEach};
    };
    std::vector<Option> options{
        list("--hold", pins.holds,
             "make this bend only with the side held on which the panel lies; on a press brake: at the back",
             "BEND=PANEL,...")};
    if (of_order) {
        options.push_back({.name = "--first",
                           .target = &pins.first,
                           .meaning = "fold these first, in this order; bends made in one stroke are joined by +",
                           .type = "a,b+c,...",
                           .group = kGroup});
        options.push_back(
            list("--before", pins.before, "fold a before b and b before c, or in one stroke with it", "a,b,c,..."));
    }
    Option vee = numberOption(kUseVeeOption, pins.vee_mm);
    vee.group = kGroup;
    append(options, {std::move(vee), list("--use-bar", pins.bars, "make strings of these bars alone", "ID,..."),
                     list("--avoid-bar", pins.without_bars, "make strings without these bars", "ID,..."),
                     list("--use-punch", pins.punches, "fold with these punches alone", "ID,...")});
    return options;
}

std::vector<Option> jobOptions(JobChoice& job) {
    std::vector<Option> options = partOptions(job.part);
    append(options, shopOptions(job.shop));
    options.push_back(
        {.name = "--formed", .target = &job.formed, .meaning = "bends that are already folded", .type = "a,b,..."});
    return options;
}

std::vector<Option> madeOptions(JobChoice& job) {
    return {
        {.name = "--made",
         .target = &job.made_sizes,
         .meaning = "outside sizes in mm as measured, of flanges whose bends are folded already: from the free edge, "
                    "or the outside of the next folded bend, to the outside of the panel beyond the bend",
         .type = "a=MM,...",
         .style = ListStyle::kEach},
        {.name = "--made-angle",
         .target = &job.made_angles,
         .meaning = "angles as measured of bends that are folded already, turned from flat",
         .type = "a=DEG,...",
         .style = ListStyle::kEach}};
}

}  // namespace tinwright::app
