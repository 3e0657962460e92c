// The size of a plant by eye, as the text of a `measured` entry tells it.
#pragma once

#include <optional>
#include <string_view>

#include "stand/judge.hpp"

namespace sowtide::book {

/// The class named by the text, word for word: "too small", "small", "large" or "over-size"; nothing for
/// others.
[[nodiscard]] std::optional<stand::SizeClass> size_class_of(std::string_view text) noexcept;

/// Weight that stands for a class, g: half of the smallest worth taking, the goal of the size, or where
/// over-size begins.
[[nodiscard]] double weight_of_class(stand::SizeClass size, const crop::Harvest& harvest) noexcept;

}  // namespace sowtide::book
