#include "climate/places.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace sowtide::climate {
namespace {

TEST(Places, AreManyAndSoundAndCoverTheGardenClimates) {
  const auto& places = built_in_places();
  EXPECT_GE(places.size(), 60U);
  std::set<std::string> names;
  bool tropical = false, desert = false, arctic = false, southern = false, mediterranean = false,
       highland = false;
  for (const BuiltInPlace& built : places) {
    const MonthlyNormals& normals = built.place.normals;
    const Site& site = built.place.site;
    EXPECT_TRUE(names.insert(site.name + built.country).second) << site.name;
    EXPECT_FALSE(normals.source.empty()) << site.name;
    double rain_mm = 0.0, mean_c = 0.0;
    for (std::size_t m = 0; m < 12; ++m) {
      EXPECT_GT(normals.tmax_c[m], normals.tmin_c[m]) << site.name << m;
      EXPECT_GE(normals.precip_mm[m], 0.0) << site.name << m;
      if (normals.wet_days) {
        EXPECT_LE((*normals.wet_days)[m], 31.0) << site.name << m;
      }
      rain_mm += normals.precip_mm[m];
      mean_c += (normals.tmax_c[m] + normals.tmin_c[m]) / 24.0;
    }
    tropical |= mean_c > 24.0 && rain_mm > 700.0;
    desert |= rain_mm < 250.0;
    arctic |= site.latitude_deg > 65.0;
    southern |= site.latitude_deg < -35.0;
    highland |= site.elevation_m > 1500.0;
    mediterranean |= normals.precip_mm[6] < 10.0 && normals.precip_mm[0] > 40.0 && mean_c > 14.0;
    // Summer lies where it must.
    if (std::abs(site.latitude_deg) > 25.0) {
      EXPECT_EQ(normals.tmax_c[6] > normals.tmax_c[0], site.latitude_deg > 0.0) << site.name;
    }
  }
  EXPECT_TRUE(tropical && desert && arctic && southern && mediterranean && highland);
}

TEST(Places, AreFoundByNameInAnyCaseWithOrWithoutRegion) {
  for (const char* name :
       {"Olympia WA", "olympia wa", "Olympia, WA", "Olympia", "Olympia WA, United States"}) {
    const auto place = find_place(name);
    ASSERT_TRUE(place) << name;
    EXPECT_EQ(place->site.name, "Olympia WA");
    EXPECT_NEAR(place->site.latitude_deg, 46.97, 0.01);
  }
}

TEST(Places, WithSeveralReadingsAreRefusedWithTheChoices) {
  const auto place = find_place("Rochester");
  ASSERT_FALSE(place);
  EXPECT_EQ(place.error().code, base::ProblemCode::ambiguous);
  EXPECT_NE(place.error().remedy.find("Rochester NY"), std::string::npos);
  EXPECT_NE(place.error().remedy.find("Rochester MN"), std::string::npos);
}

TEST(Places, MisspelledAreAnsweredWithTheNearestName) {
  const auto place = find_place("Olimpia");
  ASSERT_FALSE(place);
  EXPECT_EQ(place.error().code, base::ProblemCode::not_found);
  EXPECT_NE(place.error().remedy.find("Olympia WA"), std::string::npos) << place.error().remedy;
  EXPECT_FALSE(find_place(""));
}

TEST(Places, AreNotOfferedForASharedWordThatIsNoNameOfItsOwn) {
  const auto place = find_place("San Diego");
  ASSERT_FALSE(place);
  EXPECT_EQ(place.error().remedy.find("San Salvador"), std::string::npos) << place.error().remedy;
  EXPECT_NE(place.error().remedy.find("LAT,LON"), std::string::npos) << place.error().remedy;
}

TEST(Places, FarFromAnyNameAreAnsweredWithTheWayOutInstead) {
  const auto place = find_place("Melbourne");
  ASSERT_FALSE(place);
  EXPECT_EQ(place.error().code, base::ProblemCode::not_found);
  EXPECT_EQ(place.error().remedy.find("Gisborne"), std::string::npos) << place.error().remedy;
  EXPECT_NE(place.error().remedy.find("LAT,LON"), std::string::npos) << place.error().remedy;
}

TEST(NearestPlace, AtAStationIsThatStationUnchanged) {
  const PlaceNormals station = find_place("Milwaukee WI").value();
  const NearestPlace nearest =
      nearest_place(station.site.latitude_deg, station.site.longitude_deg, station.site.elevation_m);
  EXPECT_EQ(nearest.station, "Milwaukee WI, United States");
  EXPECT_NEAR(nearest.distance_km, 0.0, 1e-6);
  EXPECT_EQ(nearest.place.normals.tmax_c, station.normals.tmax_c);
  EXPECT_NE(nearest.warning.find("0 km away"), std::string::npos);
}

// ISO 2533:1975 (standard atmosphere): 6.5 K per kilometre.
TEST(NearestPlace, HigherUpIsColderByTheStandardLapse) {
  const PlaceNormals station = find_place("Stuttgart").value();
  const NearestPlace nearest =
      nearest_place(station.site.latitude_deg, station.site.longitude_deg, station.site.elevation_m + 200.0);
  ASSERT_EQ(nearest.station, "Stuttgart, Germany");
  EXPECT_NEAR(nearest.temperature_shift_k, -1.3, 1e-9);
  EXPECT_NEAR(nearest.place.normals.tmin_c[0], station.normals.tmin_c[0] - 1.3, 1e-9);
  EXPECT_NE(nearest.warning.find("200 m lower"), std::string::npos) << nearest.warning;
  EXPECT_NE(nearest.warning.find("lowered by 1.3"), std::string::npos) << nearest.warning;
}

TEST(NearestPlace, FarAwayIsSaidPlainly) {
  const NearestPlace nearest = nearest_place(64.1, -21.9);  // Reykjavík
  EXPECT_GT(nearest.distance_km, 500.0);
  EXPECT_NE(nearest.warning.find("another climate"), std::string::npos) << nearest.warning;
  EXPECT_DOUBLE_EQ(nearest.temperature_shift_k, 0.0);
}

TEST(NearestPlace, SaysThatItTakesTheHeightOfAFarStation) {
  EXPECT_NE(nearest_place(1.35, 103.82).warning.find("Its height of 545 m is taken"), std::string::npos)
      << nearest_place(1.35, 103.82).warning;
  EXPECT_EQ(nearest_place(1.35, 103.82, 15.0).warning.find("Its height"), std::string::npos);
}

TEST(NormalsStation, IsKnownAgainAtAnotherHeightAndFarAway) {
  const NearestPlace nearest = nearest_place(1.35, 103.82, 15.0);
  const auto station = station_of_normals(nearest.place.normals, nearest.place.site);
  ASSERT_TRUE(station);
  EXPECT_EQ(station->name, nearest.station);
  EXPECT_DOUBLE_EQ(station->distance_km, nearest.distance_km);
  EXPECT_DOUBLE_EQ(station->height_difference_m, -nearest.elevation_difference_m);
  for (const BuiltInPlace& built : built_in_places()) {
    const auto own = station_of_normals(built.place.normals, built.place.site);
    ASSERT_TRUE(own);
    EXPECT_DOUBLE_EQ(own->distance_km, 0.0) << built.place.site.name << " is taken for " << own->name;
  }
  MonthlyNormals own = nearest.place.normals;
  own.source = "a neighbour's book";
  EXPECT_FALSE(station_of_normals(own, nearest.place.site));
}

TEST(NearestPlace, WorksOverTheDateLineAndAtThePoles) {
  EXPECT_NEAR(distance_km(0.0, 179.5, 0.0, -179.5), 111.19, 0.1);
  EXPECT_NEAR(distance_km(90.0, 0.0, -90.0, 10.0), 20015.1, 0.5);
  EXPECT_GT(nearest_place(90.0, 0.0).distance_km, 2000.0);
}

}  // namespace
}  // namespace sowtide::climate
