#include "climate/merge.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "climate/quality.hpp"

namespace sowtide::climate {

namespace {

constexpr std::array kAllVariables{Variable::tmin,      Variable::tmax,     Variable::rain,
                                   Variable::radiation, Variable::sunshine, Variable::humidity,
                                   Variable::wind};

int rank_of(ValueOrigin origin) {
  switch (origin) {
    case ValueOrigin::observed:
      return 4;
    case ValueOrigin::estimated:
      return 3;
    case ValueOrigin::forecast:
      return 2;
    case ValueOrigin::filled:
      return 1;
    case ValueOrigin::missing:
      break;
  }
  return 0;
}

/// How far apart two observations may lie before it is worth telling: another hour of reading, another gauge.
double tolerance_of(Variable variable) {
  switch (variable) {
    case Variable::tmin:
    case Variable::tmax:
      return 5.0;
    case Variable::rain:
      return 25.0;
    default:
      return std::numeric_limits<double>::infinity();
  }
}

class Merger {
 public:
  Merger(const WeatherRecord& base, Precedence precedence) : made_{.record = base}, precedence_(precedence) {}

  MergeOutcome take(const WeatherRecord& addition) {
    WeatherRecord& record = made_.record;
    if (record.day_count() == 0) record.site = addition.site;
    if (addition.day_count() == 0) return std::move(made_);
    if (record.day_count() == 0) {
      record.resize(addition.first, addition.last());
    } else {
      record.resize(std::min(record.first, addition.first), std::max(record.last(), addition.last()));
    }
    const auto shift = static_cast<std::size_t>((addition.first - record.first).count());
    for (const Variable variable : kAllVariables) {
      for (std::size_t i = 0; i < addition.day_count(); ++i) {
        take_value(variable, i + shift, addition.of(variable).value[i], addition.of(variable).origin[i]);
      }
    }
    std::ranges::stable_sort(made_.findings, {}, &QualityFinding::date);
    return std::move(made_);
  }

 private:
  void take_value(Variable variable, std::size_t i, double value, ValueOrigin origin) {
    if (origin == ValueOrigin::missing) return;
    Series& series = made_.record.of(variable);
    const ValueOrigin there = series.origin[i];
    if (there == ValueOrigin::missing) {
      ++made_.added;
    } else if (wins(there, origin)) {
      tell_disagreement(variable, i, series.value[i], there, value, origin, true);
      if (series.value[i] == value && there == origin) return;
      ++made_.replaced;
    } else {
      tell_disagreement(variable, i, series.value[i], there, value, origin, false);
      made_.kept += series.value[i] != value ? 1 : 0;
      return;
    }
    series.value[i] = value;
    series.origin[i] = origin;
  }

  [[nodiscard]] bool wins(ValueOrigin there, ValueOrigin newer) const {
    if (rank_of(newer) != rank_of(there)) return rank_of(newer) > rank_of(there);
    return precedence_ == Precedence::addition || newer == ValueOrigin::forecast;
  }

  void tell_disagreement(Variable variable, std::size_t i, double old_value, ValueOrigin there, double value,
                         ValueOrigin origin, bool newer_taken) {
    const bool observed = there == ValueOrigin::observed && origin == ValueOrigin::observed;
    if (!observed || !(std::abs(old_value - value) > tolerance_of(variable))) return;
    made_.findings.push_back({made_.record.date_at(i), variable, newer_taken ? old_value : value,
                              "disagreement", "removed",
                              "the two records differ; the other value was taken"});
  }

  MergeOutcome made_;
  Precedence precedence_;
};

}  // namespace

MergeOutcome merge(const WeatherRecord& base, const WeatherRecord& addition, Precedence precedence) {
  return Merger(base, precedence).take(addition);
}

WeatherRecord without_forecast(WeatherRecord record) {
  for (Series& series : record.series) {
    for (std::size_t i = 0; i < series.origin.size(); ++i) {
      if (series.origin[i] != ValueOrigin::forecast) continue;
      series.origin[i] = ValueOrigin::missing;
      series.value[i] = std::numeric_limits<double>::quiet_NaN();
    }
  }
  return record;
}

}  // namespace sowtide::climate
