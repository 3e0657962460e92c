#include "desk/figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <map>
#include <nlohmann/json.hpp>
#include <numeric>
#include <optional>
#include <string_view>

#include "base/file.hpp"
#include "book/garden_file.hpp"
#include "climate/figures.hpp"
#include "climate/gaps.hpp"
#include "climate/quality.hpp"
#include "climate/readers.hpp"
#include "crop/crop.hpp"
#include "crop/figures.hpp"
#include "desk/present.hpp"
#include "keep/figures.hpp"
#include "stand/emergence_figure.hpp"
#include "stand/figures.hpp"
#include "stand/trial_figures.hpp"
#include "stand/window_figures.hpp"

namespace sowtide::desk {
namespace detail {
/// The data of proof/records/*.csv by file name, made by cmake/embed_text.cmake.
const std::map<std::string, std::string_view>& proof_records();
}  // namespace detail

namespace {

/// A record compiled in is named by this and its file's name.
constexpr std::string_view kBuiltIn = "built-in:";
/// Longer lists than a month of days are nothing that anybody reads in a line.
constexpr std::size_t kShownValues = 31;
/// Months of a daily series that are shown: three years.
constexpr std::size_t kShownMonths = 36;

/// One room's figures: its list and the function that works them out.
struct RoomFigures {
  std::vector<base::FigureDescription> list;
  std::function<base::Result<base::Explanation>(const std::string&, const base::FigureInputs&)> work_out;
};

}  // namespace

base::Result<std::string> weather_bytes(const std::string& name) {
  if (name.rfind(kBuiltIn, 0) != 0) return base::read_file(name);
  const auto& records = detail::proof_records();
  const auto record = records.find(name.substr(kBuiltIn.size()));
  if (record != records.end()) return std::string(record->second);
  std::string known;
  for (const auto& each : records) known += (known.empty() ? "" : ", ") + each.first;
  return base::fail(base::ProblemCode::not_found, fmt::format("no record \"{}\" is built in", name), {.field = "weather"},
                    "Built in: " + known);
}

namespace {

base::Result<climate::WeatherRecord> garden_record(const std::string& path) {
  const auto file = book::GardenFile::open(path);
  if (!file) return tl::make_unexpected(file.error());
  auto garden = file->description();
  if (!garden) return tl::make_unexpected(garden.error());
  if (garden->weather.day_count() == 0) {
    return base::fail(base::ProblemCode::insufficient_data, "the garden has no weather record", {.file = path},
                      "Add one: sowtide weather GARDEN add FILE");
  }
  return std::move(garden->weather);
}

/// Files that need to be told what they are can be taken into a garden first: figures have no such options.
base::Problem with_garden_hint(base::Problem problem) {
  if (problem.code == base::ProblemCode::ambiguous || problem.code == base::ProblemCode::wrong_unit ||
      problem.code == base::ProblemCode::missing_field) {
    problem.remedy = "Take the file into a garden with `weather GARDEN add`, which can be told, and give weather=GARDEN";
  }
  return problem;
}

base::Result<climate::WeatherRecord> record_of(const std::string& name) {
  const auto bytes = weather_bytes(name);
  if (!bytes) return tl::make_unexpected(bytes.error());
  if (book::looks_like_garden_file(*bytes)) return garden_record(name);
  auto read = climate::read_weather(*bytes, name);
  if (!read) return tl::make_unexpected(with_garden_hint(read.error()));
  return climate::control_quality(std::move(read->record)).record;
}

/// The record named by the input `weather`, checked and without short holes; nothing when the input is absent.
base::Result<std::optional<climate::WeatherRecord>> weather_input(const base::FigureInputs& inputs) {
  const auto found = inputs.find("weather");
  if (found == inputs.end()) return std::optional<climate::WeatherRecord>{};
  auto record = record_of(found->second);
  if (!record) return tl::make_unexpected(record.error());
  return std::optional(climate::fill_gaps(std::move(*record)).record);
}

/// Figures of the climate room: those with a key `weather` want the record read from that file.
base::Result<base::Explanation> climate_figure(const std::string& name, const base::FigureInputs& inputs) {
  auto record = weather_input(inputs);
  if (!record) return tl::make_unexpected(record.error());
  return climate::climate_figure(name, inputs, *record ? &**record : nullptr);
}

/// Figures of the crop room; emergence in weather is worked out by the stand room, where soil and seed meet.
base::Result<base::Explanation> crop_figure(const std::string& name, const base::FigureInputs& inputs) {
  if (name == "emergence" && (inputs.contains("weather") || inputs.contains("place"))) {
    for (const base::FigureDescription& figure : crop::crop_figures()) {
      if (figure.name != name) continue;
      if (const auto known = base::check_keys(figure, inputs); !known) return tl::make_unexpected(known.error());
    }
    auto record = weather_input(inputs);
    if (!record) return tl::make_unexpected(record.error());
    return stand::emergence_in_weather(inputs, crop::built_in_library(), *record ? &**record : nullptr);
  }
  return crop::crop_figure(name, inputs, crop::built_in_library());
}

base::Result<base::Explanation> stand_figure(const std::string& name, const base::FigureInputs& inputs) {
  auto record = weather_input(inputs);
  if (!record) return tl::make_unexpected(record.error());
  return stand::stand_figure(name, inputs, crop::built_in_library(), *record ? &**record : nullptr);
}

base::Result<base::Explanation> trial_figure(const std::string& name, const base::FigureInputs& inputs) {
  auto record = weather_input(inputs);
  if (!record) return tl::make_unexpected(record.error());
  return stand::trial_figure(name, inputs, crop::built_in_library(), *record ? &**record : nullptr);
}

base::Result<base::Explanation> keep_figure(const std::string& name, const base::FigureInputs& inputs) {
  return keep::keep_figure(name, inputs, crop::built_in_library());
}

base::Result<base::Explanation> window_figure(const std::string& name, const base::FigureInputs& inputs) {
  return stand::window_figure(name, inputs, crop::built_in_library());
}

const std::vector<RoomFigures>& rooms() {
  static const std::vector<RoomFigures> all{{climate::climate_figures(), climate_figure},
                                            {crop::crop_figures(), crop_figure},
                                            {stand::stand_figures(), stand_figure},
                                            {stand::trial_figures(), trial_figure},
                                            {stand::window_figures(), window_figure},
                                            {keep::keep_figures(), keep_figure}};
  return all;
}

bool has(const std::vector<base::FigureDescription>& list, const std::string& name) {
  return std::any_of(list.begin(), list.end(), [&](const base::FigureDescription& figure) { return figure.name == name; });
}

std::string value_text(const base::ExplainedValue& value) {
  struct Writer {
    std::string operator()(double number) const { return fmt::format("{:.6g}", number); }
    std::string operator()(const std::string& text) const { return text; }
    std::string operator()(const std::vector<double>& numbers) const {
      std::string text;
      if (numbers.size() > kShownValues) return too_many(numbers.size());
      for (const double number : numbers) text += fmt::format("{}{:.6g}", text.empty() ? "" : ", ", number);
      return text;
    }
    std::string operator()(const std::vector<std::string>& texts) const {
      return texts.size() > kShownValues ? too_many(texts.size()) : fmt::format("{}", fmt::join(texts, ", "));
    }
    static std::string too_many(std::size_t count) {
      return fmt::format("{} values; --json gives them all", count);
    }
  };
  return std::visit(Writer{}, value);
}

/// The field's name, with its unit where the name does not tell it.
std::string column_title(const base::ExplainedField& field) {
  return field.unit.empty() || field.name.ends_with("_" + field.unit) ? field.name
                                                                      : field.name + ", " + field.unit;
}

/// A daily series as the means of its calendar months, where the result holds dates and series beside them;
/// empty for other figures and short series.
std::string monthly_table(const base::Explanation& explanation) {
  const std::vector<std::string>* dates = nullptr;
  std::vector<std::pair<std::string, const std::vector<double>*>> series;
  for (const base::ExplainedField& field : explanation.result) {
    if (field.name == "date") dates = std::get_if<std::vector<std::string>>(&field.value);
    if (const auto* numbers = std::get_if<std::vector<double>>(&field.value)) {
      series.emplace_back(column_title(field), numbers);
    }
  }
  if (dates == nullptr || dates->size() <= kShownValues) return {};
  std::erase_if(series, [&](const auto& each) { return each.second->size() != dates->size(); });
  std::vector<std::string> header{"month", "days"};
  std::vector<TextTable::Align> align{TextTable::Align::left, TextTable::Align::right};
  for (const auto& each : series) header.push_back(each.first);
  align.resize(header.size(), TextTable::Align::right);
  TextTable table(header, align);
  std::size_t months = 0;
  for (std::size_t i = 0; i < dates->size() && months < kShownMonths;) {
    const std::string month = (*dates)[i].substr(0, 7);
    std::size_t end = i;
    while (end < dates->size() && (*dates)[end].substr(0, 7) == month) ++end;
    std::vector<std::string> row{month, std::to_string(end - i)};
    for (const auto& each : series) {
      const double sum = std::accumulate(each.second->begin() + static_cast<std::ptrdiff_t>(i),
                                         each.second->begin() + static_cast<std::ptrdiff_t>(end), 0.0);
      row.push_back(fmt::format("{:.1f}", sum / static_cast<double>(end - i)));
    }
    table.add(std::move(row));
    ++months;
    i = end;
  }
  return fmt::format("means of each month{}; --json gives every day\n{}",
                     months == kShownMonths ? fmt::format(", the first {}", kShownMonths) : "", table.text());
}

/// The fields whose series are told side by side, a row a place: two or more of one length; none where there
/// are fewer, or where they are too long to show.
std::vector<const base::ExplainedField*> side_by_side(const base::Explanation& explanation) {
  constexpr std::size_t kFewestRows = 5;
  std::vector<const base::ExplainedField*> found;
  for (const base::ExplainedField& field : explanation.result) {
    const auto* numbers = std::get_if<std::vector<double>>(&field.value);
    if (numbers == nullptr || numbers->size() < kFewestRows || numbers->size() > kShownValues) continue;
    if (!found.empty() && std::get<std::vector<double>>(found.front()->value).size() != numbers->size())
      return {};
    found.push_back(&field);
  }
  return found.size() < 2 ? std::vector<const base::ExplainedField*>{} : found;
}

std::string series_table(const std::vector<const base::ExplainedField*>& series) {
  if (series.empty()) return {};
  std::vector<std::string> header;
  for (const base::ExplainedField* field : series) header.push_back(column_title(*field));
  TextTable table(header, std::vector<TextTable::Align>(header.size(), TextTable::Align::right));
  const std::size_t rows = std::get<std::vector<double>>(series.front()->value).size();
  for (std::size_t i = 0; i < rows; ++i) {
    std::vector<std::string> row;
    for (const base::ExplainedField* field : series)
      row.push_back(fmt::format("{:.4g}", std::get<std::vector<double>>(field->value)[i]));
    table.add(std::move(row));
  }
  return table.text();
}

}  // namespace

const std::vector<base::FigureDescription>& all_figures() {
  static const std::vector<base::FigureDescription> all = [] {
    std::vector<base::FigureDescription> list;
    for (const RoomFigures& room : rooms()) list.insert(list.end(), room.list.begin(), room.list.end());
    std::sort(list.begin(), list.end(), [](const auto& a, const auto& b) { return a.name < b.name; });
    return list;
  }();
  return all;
}

base::Result<base::Explanation> figure(const std::string& name, const base::FigureInputs& inputs) {
  for (const RoomFigures& room : rooms()) {
    if (has(room.list, name)) return room.work_out(name, inputs);
  }
  return base::fail(base::ProblemCode::not_found, fmt::format("there is no figure \"{}\"", name), {.field = "NAME"},
                    "`sowtide figure --list` names them all");
}

std::string figure_list_text() {
  std::string text;
  for (const base::FigureDescription& figure : all_figures()) {
    text += fmt::format("{}\n  {}\n", figure.name, figure.summary);
    for (const base::FigureKey& key : figure.keys) {
      text += fmt::format("    {:<20} {:<10} {}{}\n", key.name, key.unit, key.required ? "" : "(optional) ", key.text);
    }
    text += fmt::format("  example: sowtide figure {} {}\n\n", figure.name, figure.example);
  }
  return text;
}

std::string figure_list_json() {
  using Json = nlohmann::ordered_json;
  Json list = Json::array();
  for (const base::FigureDescription& figure : all_figures()) {
    Json keys = Json::array();
    for (const base::FigureKey& key : figure.keys) {
      keys.push_back({{"name", key.name}, {"unit", key.unit}, {"required", key.required}, {"text", key.text}});
    }
    list.push_back({{"name", figure.name}, {"summary", figure.summary}, {"keys", keys}, {"example", figure.example}});
  }
  return Json{{"figures", list}}.dump(2);
}

std::string explanation_text(const base::Explanation& explanation) {
  const std::vector<const base::ExplainedField*> series = side_by_side(explanation);
  const auto fields = [&](const std::vector<base::ExplainedField>& list) {
    std::string text;
    for (const base::ExplainedField& field : list) {
      if (std::find(series.begin(), series.end(), &field) != series.end()) continue;
      text += fmt::format("  {:<22} {}{}{}\n", field.name, value_text(field.value), field.unit.empty() ? "" : " ", field.unit);
    }
    return text;
  };
  std::string text =
      fmt::format("{}\n{}given\n{}", explanation.name,
                  fields(explanation.result) + series_table(series) + monthly_table(explanation),
                  fields(explanation.inputs));
  text += "worked out\n";
  for (const std::string& step : explanation.working) text += "  " + step + "\n";
  text += "after\n";
  for (const std::string& source : explanation.source) text += "  " + source + "\n";
  return text;
}

}  // namespace sowtide::desk
