#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "climate/detail/figure_reader.hpp"
#include "climate/figures.hpp"
#include "climate/radiation.hpp"

namespace sowtide::climate {
namespace {

using base::Degrees;
using base::Explanation;
using base::FigureInputs;
using base::Result;
using detail::FigureReader;

constexpr double kMostGlobalWM2 = 1700.0;
/// Clouds beside the sun gather light for moments, and the sky is not dark when the sun has set.
constexpr double kGatheredLight = 1.2;
constexpr double kTwilightWM2 = 25.0;
constexpr double kMostDailyMJM2 = 50.0;
/// Grass and bare soil throw back about a quarter and less; the usual figure.
constexpr double kUsualAlbedo = 0.23;

struct Plane {
  Degrees slope = Degrees::of(0.0);
  Degrees incidence = Degrees::of(0.0);
  double albedo = kUsualAlbedo;
};

std::optional<Plane> read_plane(FigureReader& in) {
  const auto slope = in.maybe("slope_deg", 0.0, 180.0);
  if (!slope) return std::nullopt;
  Plane plane;
  plane.slope = Degrees::of(*slope);
  plane.incidence = Degrees::of(in.number("incidence_deg", 0.0, 180.0));
  plane.albedo = in.number_or("albedo", 0.0, 1.0, kUsualAlbedo);
  return plane;
}

void add_plane(const Plane& plane, double global_w_m2, const BeamAndDiffuse& split, Explanation& out) {
  const double beam = beam_on_plane_w_m2(split.beam_normal_w_m2, plane.incidence);
  const double sky = sky_light_on_slope_w_m2(split.diffuse_level_w_m2, plane.slope);
  const double ground = ground_light_on_slope_w_m2(global_w_m2, plane.albedo, plane.slope);
  out.result.push_back({"plane_w_m2", beam + sky + ground, "W/m²"});
  out.working.push_back(fmt::format("on the plane: beam · cos i = {:.1f}, sky · (1 + cos s)/2 = {:.1f}, ground {:.2f} · "
                                    "global · (1 - cos s)/2 = {:.1f} W/m²",
                                    beam, sky, plane.albedo, ground));
}

}  // namespace

Result<Explanation> explain_beam_and_diffuse(const FigureInputs& inputs) {
  FigureReader in(detail::described("beam-and-diffuse"), inputs);
  const auto zenith = Degrees::of(in.number("zenith_deg", 0.0, 180.0));
  const int day = base::day_of_year(in.date("date"));
  const auto measured = in.maybe("global_w_m2", 0.0, kMostGlobalWM2);
  const auto plane = read_plane(in);
  if (in.problem()) return in.failure();
  const double level_w_m2 = extraterrestrial_normal_w_m2(day) * std::max(0.0, std::cos(zenith.value() * std::numbers::pi / 180.0));
  if (measured && *measured > kGatheredLight * level_w_m2 + kTwilightWM2) {
    in.refuse(base::ProblemCode::contradiction, "global_w_m2",
              fmt::format("{} W/m² is more than the sun gives at that height ({:.0f} at the top of the air)", *measured, level_w_m2),
              "Check the moment and the angle");
    return in.failure();
  }
  const double global = measured.value_or(clear_sky_global_w_m2(zenith));
  const BeamAndDiffuse split = split_beam_and_diffuse(global, zenith, day);
  Explanation out = in.explanation();
  out.result = {{"global_w_m2", global, "W/m²"},
                {"beam_normal_w_m2", split.beam_normal_w_m2, "W/m²"},
                {"diffuse_w_m2", split.diffuse_level_w_m2, "W/m²"},
                {"clearness", split.clearness, "1"},
                {"air_mass", relative_air_mass(zenith), "1"}};
  if (!measured) out.working.push_back(fmt::format("clear sky: 1098 cos z exp(-0.059/cos z) = {:.1f} W/m²", global));
  out.working.push_back(fmt::format("at the top of the air, facing the sun: {:.1f} W/m²; clearness {:.4f}",
                                    extraterrestrial_normal_w_m2(day), split.clearness));
  out.working.push_back(fmt::format("diffuse {:.1f} W/m² on the level; beam (global - diffuse)/cos z = {:.1f} W/m²",
                                    split.diffuse_level_w_m2, split.beam_normal_w_m2));
  if (plane) add_plane(*plane, global, split, out);
  out.source = {"D. G. Erbs, S. A. Klein and J. A. Duffie 1982, Solar Energy 28:293",
                "J. W. Spencer 1971, Search 2:172", "F. Kasten and A. T. Young 1989, Applied Optics 28:4735"};
  if (!measured) out.source.emplace_back("B. Haurwitz 1945, J. Meteorol. 2:154");
  return out;
}

Result<Explanation> explain_daily_light(const FigureInputs& inputs) {
  FigureReader in(detail::described("daily-light"), inputs);
  const auto solar = base::DailyRadiation::of(in.number("radiation_mj_m2", 0.0, kMostDailyMJM2));
  const double share = in.number_or("share", 0.3, 0.7, kPhotosyntheticShare);
  if (in.problem()) return in.failure();
  const double active = photosynthetically_active(solar, share).value();
  const double photons = daily_light_integral_mol_m2(solar, share);
  Explanation out = in.explanation();
  out.result = {{"par_mj_m2", active, "MJ/m²/d"}, {"light_mol_m2", photons, "mol/m²/d"}};
  out.working = {fmt::format("light that plants use: {:.2f} · {:.2f} = {:.2f} MJ/m²/d", share, solar.value(), active),
                 fmt::format("in photons: {:.2f} mol/MJ · {:.2f} = {:.2f} mol/m²/d", kPhotonsMolPerMegajoule, active, photons)};
  out.source = {"share 0.45 to 0.50 of solar energy by sky: common practice",
                "K. J. McCree 1972, Agric. Meteorol. 10:443 (from memory)"};
  return out;
}

}  // namespace sowtide::climate
