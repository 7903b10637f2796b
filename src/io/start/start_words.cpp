// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <iterator>

#include <tinwright/io/start/start_part.h>

namespace tinwright {

namespace {

constexpr std::string_view kShapes[] = {"housing", "tray", "channel", "hat", "bracket", "window-face"};
constexpr std::string_view kSides[] = {"bottom", "top", "front", "back", "left", "right"};

template <class Word, std::size_t Count>
std::optional<Word> named(const std::string_view (&words)[Count], std::string_view word) {
    const auto found = std::find(std::begin(words), std::end(words), word);
    if (found == std::end(words)) return std::nullopt;
    return static_cast<Word>(found - std::begin(words));
}

}  // namespace

std::string_view toText(StartShape shape) { return kShapes[static_cast<std::size_t>(shape)]; }
std::string_view toText(ComponentSide side) { return kSides[static_cast<std::size_t>(side)]; }
std::optional<StartShape> startShapeNamed(std::string_view word) { return named<StartShape>(kShapes, word); }
std::optional<ComponentSide> componentSideNamed(std::string_view word) { return named<ComponentSide>(kSides, word); }

}  // namespace tinwright
