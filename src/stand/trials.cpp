#include "stand/trials.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <stdexcept>

#include "base/csv.hpp"
#include "base/quantile.hpp"
#include "stand/simulate.hpp"

namespace sowtide::stand {
namespace detail {
/// The tables of proof/trials by name, made by cmake/embed_text.cmake.
const std::map<std::string, std::string_view>& trial_files();
}  // namespace detail

namespace {

constexpr std::size_t kClumps = 64;
constexpr double kJudgedFromShare = 0.05;  // of the greatest weight: below, weighing errs most (chosen)
constexpr double kNoFrostC = -30.0;
constexpr int kDaysBefore = 5;
constexpr int kLongestInTray = 90;
constexpr double kSmallestRatio = 1e-6;  // an organ that is not there yet has a logarithm too

/// Reads the cells of a table by column name; the tables are ours, so a hole is a defect.
class Cells {
 public:
  Cells(const base::CsvTable& table, const base::CsvRow& row) : table_(table), row_(row) {}
  [[nodiscard]] const std::string& text(const char* name) const {
    const auto column = table_.column(name);
    if (!column) throw std::runtime_error(table_.file + " has no column " + name);
    return row_.cells.at(*column);
  }
  [[nodiscard]] double number(const char* name) const { return base::parse_number(text(name)).value(); }
  [[nodiscard]] base::Date date(const char* name) const { return base::parse_iso_date(text(name)).value(); }

 private:
  const base::CsvTable& table_;
  const base::CsvRow& row_;
};

base::CsvTable table_of(const std::string& name) {
  return base::parse_csv(detail::trial_files().at(name), "proof/trials/" + name + ".csv", {.separator = ','})
      .value();
}

TrialCourse course_of(const Cells& cells) {
  TrialCourse course{.name = cells.text("trial"), .crop = cells.text("crop")};
  course.latitude_deg = cells.number("latitude_deg");
  course.plants_per_m2 = cells.number("plants_per_m2");
  if (!cells.text("set_out").empty()) course.set_out = cells.date("set_out");
  course.sown = cells.text("sown").empty() ? course.set_out.value() : cells.date("sown");
  if (!cells.text("transplant_dry_g").empty()) course.transplant_dry_g = cells.number("transplant_dry_g");
  course.used_for_setting = cells.text("use") == "set";
  course.source = cells.text("source");
  return course;
}

std::vector<TrialCourse> read_courses() {
  std::vector<TrialCourse> all;
  const base::CsvTable table = table_of("courses");
  for (const auto& row : table.rows) {
    const Cells cells(table, row);
    if (all.empty() || all.back().name != cells.text("trial")) all.push_back(course_of(cells));
    all.back().points.push_back(
        {cells.date("date"), cells.number("dry_g_m2"), cells.number("low_g_m2"), cells.number("high_g_m2")});
  }
  return all;
}

// The weather of the trial as the only member, from the first day that may be asked for; the days in the tray
// before it, which the tray's own warmth rules, are its first day again.
climate::WeatherEnsemble weather_of(const TrialCourse& course) {
  climate::WeatherEnsemble made;
  made.site.name = course.name;
  made.site.latitude_deg = course.latitude_deg;
  made.member_count = 1;
  made.member_names = {"the trial"};
  made.first = course.sown - base::Days{kDaysBefore};
  if (course.set_out)
    made.first = std::min(made.first, *course.set_out - base::Days{kLongestInTray + kDaysBefore});
  const auto next = [&] { return made.first + base::Days{static_cast<int>(made.day_count)}; };
  static const base::CsvTable table = table_of("weather");
  for (const auto& row : table.rows) {
    const Cells cells(table, row);
    if (cells.text("trial") != course.name) continue;
    for (const base::Date date = cells.date("date"); next() <= date;) {
      made.radiation_mj_m2.push_back(cells.number("solar_mj_m2"));
      made.tmax_c.push_back(cells.number("tmax_c"));
      made.tmin_c.push_back(cells.number("tmin_c"));
      made.rain_mm.push_back(0.0);
      made.et0_mm.push_back(2.0);  // the stand does not look at it
      ++made.day_count;
    }
  }
  return made;
}

crop::Crop unstressed(const std::string& id) {
  crop::Crop crop = **crop::built_in_library().find(id);
  crop.growth.field_efficiency.value = 1.0;
  crop.limits.kill_seedling_c.value = crop.limits.kill_mature_c.value = kNoFrostC;
  return crop;
}

std::vector<CoursePoint> judged_points(const TrialCourse& course) {
  double most = 0.0;
  for (const CoursePoint& point : course.points) most = std::max(most, point.dry_g_m2);
  std::vector<CoursePoint> judged;
  for (const CoursePoint& point : course.points)
    if (point.dry_g_m2 >= kJudgedFromShare * most) judged.push_back(point);
  return judged;
}

StandPlan plan_of(const TrialCourse& course, base::Date sown) {
  StandPlan plan;
  plan.id = course.name;
  plan.crop = course.crop;
  plan.clumps = kClumps;
  plan.sow = sown;
  plan.spacing_mm = 1000.0 / std::sqrt(course.plants_per_m2);
  plan.set_out = course.set_out;
  if (course.set_out) plan.method = Method::start_indoors;
  return plan;
}

/// Mean weight of the harvested part of a plant on each of the days, g fresh.
std::vector<double> weights_on(const CropWeather& weather, const StandPlan& plan,
                               std::vector<base::Date> days) {
  StandFacts facts;
  facts.sown = plan.sow;
  facts.set_out = plan.set_out;
  SimulationOptions options;
  options.sampled_clumps = kClumps;
  options.leave_standing = true;
  options.watch = std::move(days);
  const StandLives lives = simulate(weather, plan, facts, RaisingPlace{}, options);
  const auto plants = static_cast<std::ptrdiff_t>(lives.clumps * lives.ranks);
  std::vector<double> means;
  for (auto from = lives.watched_g.begin(); from != lives.watched_g.end(); from += plants)
    means.push_back(base::mean(std::vector<double>(from, from + plants)));
  return means;
}

// A transplant is weighed whole and dry.
crop::Crop as_seedling(crop::Crop crop) {
  crop.growth.organ_start_cd.value = 0.0;
  crop.growth.organ_share_max.value = 1.0;
  crop.growth.dry_matter_fraction.value = 1.0;
  crop.growth.marketable_fraction.value = 1.0;
  return crop;
}

// The day of sowing. Where the trial tells what a transplant weighed, the day from which the model's
// seedlings weigh as much when they are set out: in what warmth and light the trial's were raised is not
// told, so their age says less of how far they were.
base::Date sowing_of(const TrialCourse& course, const crop::Crop& crop,
                     const std::shared_ptr<const SeasonWeather>& season) {
  if (!course.transplant_dry_g || !course.set_out) return course.sown;
  const base::Date longest_ago = *course.set_out - base::Days{kLongestInTray};
  std::vector<base::Date> days;
  for (int day = 1; day < kLongestInTray; ++day) days.push_back(longest_ago + base::Days{day});
  const std::vector<double> grown =
      weights_on(CropWeather(as_seedling(crop), season), plan_of(course, longest_ago), days);
  const auto heavy =
      std::find_if(grown.begin(), grown.end(), [&](double g) { return g >= *course.transplant_dry_g; });
  if (heavy == grown.end()) throw std::runtime_error("no seedling gets as heavy as those of " + course.name);
  // The last day in the tray is the day before setting out.
  return *course.set_out - base::Days{static_cast<int>(heavy - grown.begin()) + 2};
}

void live_through(const TrialCourse& course, CourseAgreement& agreement) {
  const crop::Crop crop = unstressed(course.crop);
  const climate::WeatherEnsemble ensemble = weather_of(course);
  const auto season = std::make_shared<const SeasonWeather>(ensemble);
  std::vector<base::Date> days;
  for (const CoursePoint& point : agreement.observed) days.push_back(point.date);
  agreement.sown = sowing_of(course, crop, season);
  agreement.computed_g_m2 =
      weights_on(CropWeather(crop, season), plan_of(course, agreement.sown), std::move(days));
  const double dry_share = crop.growth.dry_matter_fraction / crop.growth.marketable_fraction;
  for (double& each : agreement.computed_g_m2) each *= course.plants_per_m2 * dry_share;
}

void add_spread(CourseAgreement& agreement) {
  std::vector<double> low, high;
  for (const CoursePoint& point : agreement.observed) {
    if (!(point.high_g_m2 > point.low_g_m2)) continue;
    low.push_back(point.low_g_m2 / point.dry_g_m2);
    high.push_back(point.high_g_m2 / point.dry_g_m2);
  }
  if (low.empty()) return;
  agreement.spread_low = base::quantiles(std::move(low)).p50;
  agreement.spread_high = base::quantiles(std::move(high)).p50;
}

}  // namespace

const std::vector<TrialCourse>& trial_courses() {
  static const std::vector<TrialCourse> all = read_courses();
  return all;
}

CourseAgreement agreement_with(const TrialCourse& course) {
  CourseAgreement agreement;
  agreement.observed = judged_points(course);
  live_through(course, agreement);
  std::vector<double> ratios;
  double logarithms = 0.0;
  for (std::size_t i = 0; i < agreement.observed.size(); ++i) {
    ratios.push_back(agreement.computed_g_m2[i] / agreement.observed[i].dry_g_m2);
    logarithms += std::log(std::max(ratios.back(), kSmallestRatio));
  }
  agreement.level = std::exp(logarithms / static_cast<double>(ratios.size()));
  for (double& ratio : ratios) ratio = std::abs(ratio / agreement.level - 1.0);
  agreement.shape = base::quantiles(std::move(ratios)).p50;
  add_spread(agreement);
  return agreement;
}

}  // namespace sowtide::stand
