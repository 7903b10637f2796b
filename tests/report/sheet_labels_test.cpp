// SPDX-License-Identifier: GPL-3.0-or-later
// Words on drawings: none overlaps another, none leaves the frame, none is too small to read.
#include <catch2/catch.hpp>

#include <filesystem>
#include <string>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/vee_choice.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/part/developing/develop.h>
#include <tinwright/report/data/bar_datum.h>
#include <tinwright/sequence/plan/planner.h>

#include "drawings/blank_drawing.h"
#include "drawings/blank_marks.h"
#include "drawings/handling_drawing.h"
#include "drawings/part_picture.h"
#include "fold_drawings/fold_drawings.h"
#include "paper/ordinates.h"
#include "scene/fold_view.h"
#include "sentences/search_words.h"
#include "sheet_cases.h"
#include "words/text_width.h"

using namespace tinwright;
using namespace tinwright::report;

namespace {

void checkLabels(const Drawing& drawing) {
    INFO(drawing.title());
    const std::vector<PlacedLabel>& labels = drawing.labels();
    for (std::size_t i = 0; i < labels.size(); ++i) {
        INFO(labels[i].text << " at " << labels[i].box.least.transpose() << " .. " << labels[i].box.most.transpose()
                            << " in " << drawing.frame().least.transpose() << " .. "
                            << drawing.frame().most.transpose());
        CHECK(drawing.frame().holds(labels[i].box));
        // The box is wide enough for the words and high enough for letters of 3.5 mm, capitals of 2.5 mm.
        const Vec2 size =
            labels[i].turned ? Vec2(labels[i].box.size().y(), labels[i].box.size().x()) : labels[i].box.size();
        CHECK(size.x() >= textWidth_mm(labels[i].text) - 1e-6);
        CHECK(size.y() >= 3.5);
        for (std::size_t j = 0; j < i; ++j) {
            INFO("and " << labels[j].text);
            CHECK_FALSE(labels[i].box.overlaps(labels[j].box));
        }
    }
}

void checkFold(const Part& part, const PartShapes& shapes, const ToolShapes& tools, const FoldStep& step,
               BendMask formed) {
    const FoldScene scene(shapes, tools.brake, {formed, step.stroke, step.set_angle});
    const FoldView view = viewOf(scene, tools, step);
    checkLabels(drawingsFor(*view.scene.brake()).section(view, "section"));
    checkLabels(drawingsFor(*view.scene.brake())
                    .fromAbove(view, barDatum(part, formed, tools.brake.inside_radius_mm(), step), "top"));
    checkLabels(partPicture(scene, "part"));
    checkLabels(handlingDrawing(step));
}

void checkPlan(const Part& part, const Shop& shop, const BrakeInSetup& brake, const Plan& plan) {
    const PartOnBrake folded = partOnBrake(part, shop, brake);
    const PartShapes shapes(folded);
    const ToolShapes tools(brake);
    const std::vector<BendMark> marks = bendMarks(part, brake, &plan);
    checkLabels(blankDrawing(part, marks));
    checkLabels(otherFaceDrawing(part, marks));
    BendMask formed = 0;
    for (const FoldStep& step : plan.folds) {
        checkFold(part, shapes, tools, step, formed);
        formed |= step.stroke.bends;
    }
}

std::size_t checkContacts(const Part& part, const Shop& shop, const BrakeInSetup& brake,
                          const std::vector<const Reason*>& reasons) {
    const PartOnBrake folded = partOnBrake(part, shop, brake);
    const PartShapes shapes(folded);
    const ToolShapes tools(brake);
    for (const Reason* told : reasons) {
        const Reason& reason = *told;
        const FoldScene scene(shapes, brake, {reason.formed, reason.stroke, part.bend(reason.stroke.first()).angle});
        const FoldView view = viewOf(scene, tools, reason);
        checkLabels(drawingsFor(*view.scene.brake()).contact(view, "contact", reason.depth_mm));
        checkLabels(drawingsFor(*view.scene.brake()).contactFromAbove(view, "contact from above"));
    }
    return reasons.size();
}

Part examplePart(const std::string& file) {
    return develop(readRecipeFile(std::string(TINWRIGHT_SOURCE_DIR "/examples/") + file).value()).value();
}

}  // namespace

TEST_CASE("labels of every shipped example, planned or stuck, neither overlap nor leave the frame") {
    std::size_t contacts = 0;
    for (const char* folder : {"roaster-pod", "tray-lips", "hat-channel", "deep-housing"}) {
        const std::string path = std::string(folder) + "/";
        const Shop shop = readShop(std::string(TINWRIGHT_SOURCE_DIR "/examples/") + path + "shop.json").value();
        for (const char* file : {"part.json", "part-suited.json"}) {
            if (!std::filesystem::exists(std::string(TINWRIGHT_SOURCE_DIR "/examples/") + path + file)) continue;
            const Part part = examplePart(path + file);
            for (std::size_t brake = 0; brake < shop.brakes.size(); ++brake) {
                INFO(path << file << " on " << shop.brakes[brake].name);
                const BrakeResult result = planOnBrake(part, shop, brake, {});
                for (const Plan& plan : result.plans) checkPlan(part, shop, result.brake, plan);
                contacts += checkContacts(part, shop, result.brake, report::toldReasons(result));
            }
        }
    }
    CHECK(contacts > 2);
}

TEST_CASE("labels of 200 random parts neither overlap nor leave the frame") {
    const Shop shop = sample::smallShop();
    const ToolShapes tools(sample::inUse(shop.brakes[0]));
    for (unsigned seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        const Part part = sample::randomPart(seed);
        const Plan plan = sample::anyPlan(part, shop.brakes[0]);
        const PartOnBrake folded = partOnBrake(part, shop, sample::inUse(shop.brakes[0], part.thickness_mm));
        const PartShapes shapes(folded);
        const std::vector<BendMark> marks = bendMarks(part, sample::inUse(shop.brakes[0], part.thickness_mm), &plan);
        checkLabels(blankDrawing(part, marks));
        checkLabels(otherFaceDrawing(part, marks));
        BendMask formed = 0;
        for (const FoldStep& step : plan.folds) {
            checkFold(part, shapes, tools, step, formed);
            formed |= bit(step.bends()[0]);
        }
    }
}

TEST_CASE("labels of parts on a press brake, planned or stuck, neither overlap nor leave the frame") {
    const Shop shop = readShop(std::string(TINWRIGHT_SOURCE_DIR "/tests/plan/data/press-gooseneck.json")).value();
    std::size_t plans = 0;
    std::size_t contacts = 0;
    for (const char* file : {"hat-channel/part.json", "roaster-pod/part-suited.json", "tray-lips/part.json"}) {
        INFO(file);
        const Part part = examplePart(file);
        const BrakeResult result = planOnBrake(part, shop, 0, {});
        const BrakeInSetup& brake = result.brake;
        for (const Plan& plan : result.plans) checkPlan(part, shop, brake, plan);
        plans += result.plans.size();
        contacts += checkContacts(part, shop, brake, report::toldReasons(result));
    }
    CHECK(plans > 2);
    CHECK(contacts > 2);
}

TEST_CASE("labels of 200 random parts on a press brake neither overlap nor leave the frame") {
    const Shop shop = sample::pressShop();
    const ToolShapes tools(sample::inUse(shop.brakes[0]));
    for (unsigned seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        const Part part = sample::randomPart(seed);
        const PartOnBrake folded = partOnBrake(part, shop, sample::inUse(shop.brakes[0], part.thickness_mm));
        const PartShapes shapes(folded);
        BendMask formed = 0;
        for (const FoldStep& step : sample::anyPlan(part, shop.brakes[0]).folds) {
            checkFold(part, shapes, tools, step, formed);
            formed |= bit(step.bends()[0]);
        }
    }
}

TEST_CASE("more labels than there is room for make the drawing longer") {
    Drawing drawing("crowd", 40, 20);
    for (int i = 0; i < 60; ++i) {
        LabelWish wish;
        wish.text = "label " + std::to_string(i);
        wish.at = Vec2(20, 10);
        drawing.label(wish);
    }
    drawing.finish();
    CHECK(drawing.size().y() > 20);
    checkLabels(drawing);
}

TEST_CASE("arrows say the whole turn") {
    FoldStep step;
    step.flip = true;
    step.turn_deg = -123.4;
    const Drawing drawing = handlingDrawing(step);
    checkLabels(drawing);
    REQUIRE(drawing.labels().size() == 2);
    CHECK(drawing.labels()[0].text == "flip over");
    CHECK(drawing.labels()[1].text == "turn 123.4°");
}

TEST_CASE("places are spread out no more than needed") {
    CHECK(spreadOut({1, 5, 9}, 2, 0, 20) == std::vector<double>{1, 5, 9});
    CHECK(spreadOut({5, 5}, 2, 0, 20) == std::vector<double>{4, 6});
    CHECK(spreadOut({0, 0}, 2, 0, 20) == std::vector<double>{0, 2});
    CHECK(spreadOut({20, 20}, 2, 0, 20) == std::vector<double>{18, 20});
}

TEST_CASE("text that does not fit is cut with an ellipsis and stays UTF-8") {
    CHECK(fitted("short", 100) == "short");
    const std::string cut = fitted("eine Übergröße für Prüfzwecke", 25);
    CHECK(cut.ends_with("…"));
    CHECK(textWidth_mm(cut) <= 25);
    CHECK(xmlText("a<b>&\"'") == "a&lt;b&gt;&amp;&quot;&#39;");
    CHECK(xmlText(std::string("\x01\xff", 2)) == "??");
}
