#include "desk/proof.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "base/csv.hpp"
#include "base/date.hpp"
#include "base/quantile.hpp"
#include "crop/crop.hpp"
#include "desk/figures.hpp"
#include "desk/present.hpp"

namespace sowtide::desk {
namespace detail {
/// The data of proof/*.csv by file name, made by cmake/embed_text.cmake.
const std::map<std::string, std::string_view>& proof_files();
}  // namespace detail

namespace {

using base::Result;

/// Goal of the design for days to emergence: median error over a crop's working range, per cent.
constexpr double kEmergenceMedianErrorPct = 15.0;
const std::string kEmergenceFile = "emergence_days";
const std::string kEmergenceGroup = "emergence";

/// Words "key=value"; a value that has spaces stands in double quotes.
base::FigureInputs parse_inputs(const std::string& text) {
  base::FigureInputs inputs;
  std::istringstream stream(text);
  for (std::string key; std::getline(stream >> std::ws, key, '=');) {
    std::string value;
    if (stream.peek() == '"') {
      stream >> std::quoted(value);
    } else {
      stream >> value;
    }
    inputs.emplace(std::move(key), std::move(value));
  }
  return inputs;
}

/// The named number of a figure's result.
Result<double> result_of(const std::string& name, const std::string& inputs, const std::string& key) {
  const auto explained = figure(name, parse_inputs(inputs));
  if (!explained) return tl::make_unexpected(explained.error());
  for (const base::ExplainedField& field : explained->result) {
    if (field.name != key) continue;
    if (const double* number = std::get_if<double>(&field.value)) return *number;
    // A date of the year ("04-23") is compared as the day of a year without a leap day.
    const std::string* text = std::get_if<std::string>(&field.value);
    if (text && *text == "never") return base::fail(base::ProblemCode::infeasible, name + " never gives " + key);
    if (const auto date = base::parse_month_day(text ? *text : "")) return base::climatological_day(*date);
  }
  return base::fail(base::ProblemCode::internal, fmt::format("figure {} gives no number \"{}\"", name, key));
}

/// Root mean square difference of a figure's daily series `key` from the column `measured` of the record it was
/// worked out of; days without a measured value do not count.
Result<double> rmse_of(const std::string& name, const std::string& inputs, const std::string& key,
                       const std::string& measured) {
  const base::FigureInputs parsed = parse_inputs(inputs);
  const auto explained = figure(name, parsed);
  if (!explained) return tl::make_unexpected(explained.error());
  const auto bytes = weather_bytes(parsed.at("weather"));
  if (!bytes) return tl::make_unexpected(bytes.error());
  const auto table = base::parse_csv(*bytes, parsed.at("weather"));
  if (!table) return tl::make_unexpected(table.error());
  const std::vector<double>* series = nullptr;
  for (const base::ExplainedField& field : explained->result) {
    if (field.name == key) series = std::get_if<std::vector<double>>(&field.value);
  }
  const auto column = table->column(measured);
  if (series == nullptr || !column || series->size() != table->rows.size()) {
    return base::fail(base::ProblemCode::internal, fmt::format("{} has no daily \"{}\" beside \"{}\"", name, key, measured));
  }
  double squares = 0.0;
  std::size_t days = 0;
  for (std::size_t i = 0; i < series->size(); ++i) {
    const auto value = base::parse_number(table->rows[i].cells.at(*column));
    if (!value) continue;
    squares += (*value - (*series)[i]) * (*value - (*series)[i]);
    ++days;
  }
  const double rmse = std::sqrt(squares / static_cast<double>(days));
  if (!std::isfinite(rmse)) {
    return base::fail(base::ProblemCode::internal, fmt::format("{} cannot be held against \"{}\"", name, measured));
  }
  return rmse;
}

double outside(double value, double low, double high) {
  if (value < low) return value - low;
  return value > high ? value - high : 0.0;
}

/// Reads the cells of a proof file by column name; the files are ours, so a hole is a defect.
class ProofCells {
 public:
  ProofCells(const base::CsvTable& table, const base::CsvRow& row) : table_(table), row_(row) {}
  [[nodiscard]] std::string text(std::string_view column) const {
    const auto index = table_.column(column);
    return index && *index < row_.cells.size() ? row_.cells[*index] : std::string{};
  }
  [[nodiscard]] double number(std::string_view column) const {
    return base::parse_number(text(column)).value_or(std::nan(""));
  }

 private:
  const base::CsvTable& table_;
  const base::CsvRow& row_;
};

Result<ProofRow> prove_row(const std::string& group, const ProofCells& cells) {
  ProofRow row;
  row.group = group;
  row.what = cells.text("what");
  row.figure = cells.text("figure");
  row.inputs = cells.text("inputs");
  row.published_low = cells.number("low");
  row.published_high = cells.number("high");
  row.unit = cells.text("unit");
  row.tolerance = cells.number("tolerance");
  row.source = cells.text("source");
  row.mark = cells.text("mark");
  const std::string measured = cells.text("measured");
  row.judged = cells.text("judged") != "no";
  row.known_miss = cells.text("known_miss") == "yes";
  row.use = cells.text("use");
  const auto computed = measured.empty() ? result_of(row.figure, row.inputs, cells.text("result"))
                                         : rmse_of(row.figure, row.inputs, cells.text("result"), measured);
  // A crop that gives nothing where it is published to give something is a miss, not a broken row.
  const bool gives_nothing = !computed && computed.error().code == base::ProblemCode::infeasible;
  if (!computed && !gives_nothing) return tl::make_unexpected(computed.error());
  row.computed = computed.value_or(std::nan(""));
  row.difference = gives_nothing ? row.computed : outside(row.computed, row.published_low, row.published_high);
  // The half unit of the last digit is itself a printed number, so allow for its rounding in binary.
  constexpr double kRounding = 1e-9;
  row.pass = !gives_nothing && std::abs(row.difference) <= row.tolerance + kRounding;
  return row;
}

Result<std::vector<ProofRow>> prove_table(const std::string& group, const base::CsvTable& table) {
  std::vector<ProofRow> rows;
  for (const base::CsvRow& line : table.rows) {
    auto row = prove_row(group, ProofCells(table, line));
    if (!row) {
      base::Problem problem = row.error();
      problem.where.file = table.file;
      problem.where.line = line.line;
      return tl::make_unexpected(problem);
    }
    rows.push_back(std::move(*row));
  }
  return rows;
}

/// True between the coldest soil in which the crop is sown and the hottest at which it is still as quick as it can be.
bool in_working_range(const crop::Crop& crop, double temp_c) {
  return temp_c >= crop.limits.soil_min_sow_c && temp_c <= crop.germination.cardinal.optimum_high_c;
}

ProofRow emergence_cell(const crop::Crop& crop, double temp_c, double days, const ProofCells& cells) {
  ProofRow row;
  row.group = kEmergenceGroup;
  row.what = fmt::format("{} at {:.0f} °C{}", crop.name, temp_c, in_working_range(crop, temp_c) ? "" : " (outside its working range)");
  row.figure = "emergence";
  row.inputs = fmt::format("crop={} temp_c={}", crop.id, temp_c);
  row.published_low = row.published_high = days;
  row.unit = "d";
  row.source = cells.text("source");
  row.mark = cells.text("mark");
  row.judged = false;
  row.computed = result_of(row.figure, row.inputs, "days").value_or(std::nan(""));
  row.difference = row.computed - days;
  return row;
}

ProofRow emergence_verdict(const crop::Crop& crop, std::vector<double> errors_pct, const ProofRow& cell) {
  ProofRow row;
  row.group = kEmergenceGroup;
  row.what = fmt::format("{}: median error over {} temperatures", crop.name, errors_pct.size());
  row.figure = "emergence";
  row.inputs = "crop=" + crop.id;
  row.unit = "%";
  row.tolerance = kEmergenceMedianErrorPct;
  row.source = cell.source;
  row.mark = cell.mark;
  std::sort(errors_pct.begin(), errors_pct.end());
  row.computed = base::quantile_of_sorted(errors_pct, 0.5);
  row.difference = row.computed;
  row.pass = row.computed <= kEmergenceMedianErrorPct;
  return row;
}

Result<std::vector<ProofRow>> prove_emergence(const base::CsvTable& table) {
  const crop::CropLibrary& library = crop::built_in_library();
  std::vector<ProofRow> rows;
  std::map<std::string, std::vector<ProofRow>> by_crop;
  std::map<std::string, std::vector<double>> errors_pct;
  for (const base::CsvRow& line : table.rows) {
    const ProofCells cells(table, line);
    const auto found = library.find(cells.text("crop"));
    if (!found) continue;  // the table holds crops that the library does not have yet
    const double temp_c = cells.number("temp_c");
    ProofRow row = emergence_cell(**found, temp_c, cells.number("days"), cells);
    if (in_working_range(**found, temp_c)) {
      const double error = 100.0 * std::abs(row.difference) / row.published_low;
      errors_pct[(*found)->id].push_back(std::isfinite(error) ? error : 100.0);
    }
    by_crop[(*found)->id].push_back(std::move(row));
  }
  for (auto& [id, cells] : by_crop) {
    if (const auto errors = errors_pct.find(id); errors != errors_pct.end()) {
      rows.push_back(emergence_verdict(library.crops.find(id)->second, errors->second, cells.front()));
    }
    rows.insert(rows.end(), cells.begin(), cells.end());
  }
  return rows;
}

}  // namespace

Result<std::vector<ProofRow>> prove(const std::string& group) {
  std::vector<ProofRow> all;
  std::string known;
  for (const auto& [name, text] : detail::proof_files()) {
    const bool is_emergence = name == kEmergenceFile;
    const std::string& group_name = is_emergence ? kEmergenceGroup : name;
    known += (known.empty() ? "" : ", ") + group_name;
    if (!group.empty() && group != group_name) continue;
    const auto table = base::parse_csv(text, "proof/" + name + ".csv");
    if (!table) return tl::make_unexpected(table.error());
    auto rows = is_emergence ? prove_emergence(*table) : prove_table(group_name, *table);
    if (!rows) return tl::make_unexpected(rows.error());
    all.insert(all.end(), rows->begin(), rows->end());
  }
  if (all.empty()) {
    return base::fail(base::ProblemCode::not_found, fmt::format("there is no group of checks \"{}\"", group),
                      {.field = "--group"}, "Groups: " + known);
  }
  return all;
}

namespace {

struct Tally {
  std::size_t judged = 0, passed = 0, known_misses = 0;
};

Tally tally_of(const std::vector<ProofRow>& rows) {
  Tally tally;
  for (const ProofRow& row : rows) {
    if (!row.judged) continue;
    ++tally.judged;
    tally.passed += row.pass ? 1U : 0U;
    tally.known_misses += !row.pass && row.known_miss ? 1U : 0U;
  }
  return tally;
}

}  // namespace

std::string proof_text(const std::vector<ProofRow>& rows) {
  using Align = TextTable::Align;
  TextTable table({"group", "what", "published", "computed", "off by", "allowed", "unit", "pass", "use", "source"},
                  {Align::left, Align::left, Align::right, Align::right, Align::right, Align::right, Align::left,
                   Align::left, Align::left, Align::left});
  for (const ProofRow& row : rows) {
    const std::string published = row.published_low == row.published_high
                                      ? fmt::format("{:.5g}", row.published_low)
                                      : fmt::format("{:.5g} to {:.5g}", row.published_low, row.published_high);
    table.add({row.group, row.what, published, std::isfinite(row.computed) ? fmt::format("{:.5g}", row.computed) : "nothing", std::isfinite(row.difference) ? fmt::format("{:.3g}", row.difference) : "",
               row.judged ? fmt::format("{:.3g}", row.tolerance) : "", row.unit, row.judged ? (row.pass ? "yes" : "NO") : "-", row.use,
               row.mark == "common practice" ? row.source : fmt::format("{} [{}]", row.source, row.mark)});
  }
  const Tally tally = tally_of(rows);
  std::string text = table.text() + fmt::format("\n{} of {} judged checks agree with the published figure; rows marked - are shown "
                                                "for information.\n",
                                                tally.passed, tally.judged);
  if (tally.known_misses > 0)
    text += fmt::format("{} lie outside and are known to: docs/models tells why.\n", tally.known_misses);
  return text;
}

std::string proof_json(const std::vector<ProofRow>& rows) {
  using Json = nlohmann::ordered_json;
  Json list = Json::array();
  for (const ProofRow& row : rows) {
    list.push_back({{"group", row.group},
                    {"what", row.what},
                    {"figure", row.figure},
                    {"inputs", row.inputs},
                    {"published_low", row.published_low},
                    {"published_high", row.published_high},
                    {"unit", row.unit},
                    {"tolerance", row.tolerance},
                    {"computed", row.computed},
                    {"difference", row.difference},
                    {"judged", row.judged},
                    {"pass", row.judged ? Json(row.pass) : Json(nullptr)},
                    {"known_miss", row.known_miss},
                    {"use", row.use},
                    {"source", row.source},
                    {"mark", row.mark}});
  }
  const Tally tally = tally_of(rows);
  return Json{{"rows", list}, {"judged", tally.judged}, {"passed", tally.passed}, {"known_misses", tally.known_misses}}.dump(2);
}

}  // namespace sowtide::desk
