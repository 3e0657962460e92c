// Every figure that can be worked out by itself, over all rooms.
#pragma once

#include <string>
#include <vector>

#include "base/explanation.hpp"
#include "base/figure.hpp"
#include "base/problem.hpp"

namespace sowtide::desk {

/// All figures of all rooms, by name.
[[nodiscard]] const std::vector<base::FigureDescription>& all_figures();

/// Works out one figure; a weather record that it asks for is read. not_found names the nearest; otherwise
/// the figure's own problems.
[[nodiscard]] base::Result<base::Explanation> figure(const std::string& name, const base::FigureInputs& inputs);

/// What a weather file (or garden file) holds, or a record compiled in that is named `built-in:NAME`.
/// not_found names those.
[[nodiscard]] base::Result<std::string> weather_bytes(const std::string& name);

/// All of them with their inputs, a line each, for a terminal.
[[nodiscard]] std::string figure_list_text();
/// {"figures":[{"name","summary","keys":[{"name","unit","required","text"}],"example"}]}
[[nodiscard]] std::string figure_list_json();
/// A figure worked out step by step, for a terminal.
[[nodiscard]] std::string explanation_text(const base::Explanation& explanation);

}  // namespace sowtide::desk
