// A hundred years of daily weather: reading it in the forms people have, checking it, filling its holes.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <random>
#include <string>

#include "climate/gaps.hpp"
#include "climate/quality.hpp"
#include "climate/readers.hpp"

namespace {

using namespace sowtide;

constexpr int kFirstYear = 1921, kYears = 100;

struct Day {
  base::Date date;
  int tmin, tmax, rain;  // tenths
};

const std::vector<Day>& century() {
  static const std::vector<Day> days = [] {
    std::mt19937 engine(1);
    std::normal_distribution<double> noise(0.0, 30.0);
    std::vector<Day> out;
    const base::Date end = base::date_of(kFirstYear + kYears, 1, 1);
    for (base::Date date = base::date_of(kFirstYear, 1, 1); date < end; date += base::Days{1}) {
      const double mean = 90.0 - 100.0 * std::cos(base::day_of_year(date) * 0.0172) + noise(engine);
      const int low = static_cast<int>(mean) - 45;
      out.push_back(
          {date, low, low + 90, noise(engine) > 20.0 ? static_cast<int>(std::abs(noise(engine))) : 0});
    }
    return out;
  }();
  return days;
}

std::string as_dly() {
  std::string text;
  const auto& days = century();
  for (std::size_t i = 0; i < days.size();) {
    const int year = base::year_of(days[i].date), month = base::month_of(days[i].date);
    const auto length = static_cast<std::size_t>(base::days_in_month(year, month));
    for (const auto& [name, field] :
         {std::pair{"TMAX", &Day::tmax}, {"TMIN", &Day::tmin}, {"PRCP", &Day::rain}}) {
      text += fmt::format("USW00099999{}{:02}{}", year, month, name);
      for (std::size_t day = 0; day < 31; ++day) {
        text += day < length ? fmt::format("{:5}  Z", days[i + day].*field) : std::string("-9999   ");
      }
      text += '\n';
    }
    i += length;
  }
  return text;
}

std::string as_access() {
  std::string text =
      "STATION,DATE,LATITUDE,LONGITUDE,ELEVATION,NAME,PRCP,PRCP_ATTRIBUTES,TMAX,TMAX_ATTRIBUTES,TMIN,TMIN_"
      "ATTRIBUTES\n";
  for (const Day& day : century()) {
    text +=
        fmt::format("USW00099999,{},47.0,-122.0,100.0,\"SOMEWHERE, US\",{},\",,Z,\",{},\",,Z\",{},\",,Z\"\n",
                    base::to_iso(day.date), day.rain, day.tmax, day.tmin);
  }
  return text;
}

std::string as_table() {
  std::string text = "date,tmin_c,tmax_c,rain_mm\n";
  for (const Day& day : century()) {
    text += fmt::format("{},{:.1f},{:.1f},{:.1f}\n", base::to_iso(day.date), day.tmin / 10.0, day.tmax / 10.0,
                        day.rain / 10.0);
  }
  return text;
}

std::string as_json() {
  std::string times, low, high, rain;
  for (const Day& day : century()) {
    const char* comma = times.empty() ? "" : ",";
    times += fmt::format("{}\"{}\"", comma, base::to_iso(day.date));
    low += fmt::format("{}{:.1f}", comma, day.tmin / 10.0);
    high += fmt::format("{}{:.1f}", comma, day.tmax / 10.0);
    rain += fmt::format("{}{:.1f}", comma, day.rain / 10.0);
  }
  return fmt::format(
      R"({{"daily":{{"time":[{}],"temperature_2m_min":[{}],"temperature_2m_max":[{}],"precipitation_sum":[{}]}}}})",
      times, low, high, rain);
}

void read_a_century(benchmark::State& state, const std::string& text) {
  for (auto _ : state) {
    const auto read = climate::read_weather(text, "bench");
    if (!read || read->record.day_count() != century().size()) std::abort();
    benchmark::DoNotOptimize(read->record.values(climate::Variable::rain).back());
  }
  state.SetBytesProcessed(static_cast<std::int64_t>(state.iterations()) *
                          static_cast<std::int64_t>(text.size()));
}

BENCHMARK_CAPTURE(read_a_century, dly, as_dly())->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(read_a_century, access_csv, as_access())->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(read_a_century, plain_table, as_table())->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(read_a_century, json, as_json())->Unit(benchmark::kMillisecond);

void check_a_century(benchmark::State& state) {
  const auto read = climate::read_weather(as_table(), "bench");
  if (!read) std::abort();
  for (auto _ : state) benchmark::DoNotOptimize(climate::control_quality(read->record).findings.size());
}
BENCHMARK(check_a_century)->Unit(benchmark::kMillisecond);

void fill_a_century(benchmark::State& state) {
  auto read = climate::read_weather(as_table(), "bench");
  if (!read) std::abort();
  for (std::size_t i = 30; i + 30 < read->record.day_count(); i += 40) {
    for (const auto variable : {climate::Variable::tmin, climate::Variable::tmax, climate::Variable::rain}) {
      read->record.set(variable, read->record.date_at(i), std::nan(""), climate::ValueOrigin::missing);
    }
  }
  for (auto _ : state) {
    const auto filled = climate::fill_gaps(read->record);
    if (filled.findings.size() < 2000) std::abort();
    benchmark::DoNotOptimize(filled.record.values(climate::Variable::tmin).back());
  }
}
BENCHMARK(fill_a_century)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
