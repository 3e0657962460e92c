// The description of the API and the routes that are registered must name the same things.
#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>

#include "book/garden_file.hpp"
#include "serve/detail/api_documents.hpp"
#include "serve/detail/garden_desk.hpp"
#include "serve/detail/home_address.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {
namespace {

using nlohmann::json;
using Routes = std::set<std::pair<std::string, std::string>>;

json described() {
  for (const Asset& asset : api_documents()) {
    if (asset.path == "/api/openapi.json") return json::parse(asset.bytes);
  }
  return {};
}

Routes described_routes() {
  Routes routes;
  const json paths = described().at("paths");
  for (const auto& [path, operations] : paths.items()) {
    for (const auto& [method, operation] : operations.items()) {
      std::string upper = method;
      std::transform(upper.begin(), upper.end(), upper.begin(),
                     [](unsigned char c) { return std::toupper(c); });
      routes.emplace(upper, path);
    }
  }
  return routes;
}

Routes registered_routes() {
  const auto path = std::filesystem::temp_directory_path() / ("sowtide-routes-" + std::to_string(::getpid()));
  book::GardenDescription garden;
  garden.name = "Routes";
  garden.site = {"Routes", 50.0, 0.0, 0.0};
  auto file = book::GardenFile::create(path.string(), garden);
  EXPECT_TRUE(file);
  GardenDesk desk(std::move(*file), [] { return base::date_of(2027, 4, 20); });
  HttpServer server({});
  PlanJob plans([](const std::string&) {});
  auto pairing = Pairing::open(path.string() + ".devices");
  const Devices devices{*pairing, {}};
  add_garden_routes({server, desk, plans, devices});
  Routes routes{{"GET", "/api/openapi.json"}};  // a file among the page's
  for (const auto& route : server.routes()) routes.insert(route);
  for (const char* ending : {"", "-wal", "-shm"}) std::filesystem::remove(path.string() + ending);
  return routes;
}

TEST(DocumentedRoutes, AreExactlyTheRegisteredOnes) {
  const Routes in_document = described_routes();
  const Routes in_server = registered_routes();
  for (const auto& [method, path] : in_server)
    EXPECT_TRUE(in_document.contains({method, path}))
        << method << " " << path << " is not in docs/api/openapi.json";
  for (const auto& [method, path] : in_document)
    EXPECT_TRUE(in_server.contains({method, path}))
        << method << " " << path << " is described but not served";
}

void collect_references(const json& value, std::set<std::string>& references) {
  if (value.is_object() && value.contains("$ref")) references.insert(value["$ref"].get<std::string>());
  if (!value.is_structured()) return;
  for (const auto& each : value) collect_references(each, references);
}

TEST(DocumentedRoutes, ReferToSchemasThatAreServedBesideThem) {
  std::set<std::string> served;
  for (const Asset& asset : api_documents()) served.insert(asset.path);
  std::set<std::string> references;
  collect_references(described(), references);
  for (const std::string& reference : references) {
    if (reference.front() == '#') continue;
    EXPECT_TRUE(served.contains("/api/" + reference.substr(0, reference.find('#')))) << reference;
  }
}

TEST(Gate, LetsOtherMachinesInByTheirTokenOnly) {
  const auto path = std::filesystem::temp_directory_path() / ("sowtide-gate-" + std::to_string(::getpid()));
  auto pairing = Pairing::open(path.string());
  ASSERT_TRUE(pairing);
  const auto paired = pairing->pair(pairing->new_code(), "phone", base::date_of(2027, 4, 20));
  ASSERT_TRUE(paired);
  const auto status = [&](const std::string& target, const std::string& cookie, bool here = false, bool encrypted = false) {
    Request request;
    request.method = "GET";
    request.path = target;
    request.from_this_machine = here;
    if (!cookie.empty()) request.headers["cookie"] = cookie;
    const auto refusal = refuse_unpaired(*pairing, encrypted, request);
    return refusal ? refusal->status : 0;
  };
  const std::string cookie = "sowtide_session=" + paired->token;
  // Over TLS a session that went over the network in the open does not count, nor the other way round.
  EXPECT_EQ(status("/api/garden", cookie, false, true), 401);
  EXPECT_EQ(status("/api/garden", "__Host-" + cookie, false, true), 0);
  EXPECT_EQ(status("/api/garden", "__Host-" + cookie), 401);
  EXPECT_EQ(status("/api/garden", ""), 401);
  EXPECT_EQ(status("/api/changes", ""), 401);
  EXPECT_EQ(status("/api/garden", "sowtide_session=x"), 401);
  EXPECT_EQ(status("/api/garden", "other=" + paired->token), 401);
  EXPECT_EQ(status("/api/pair/", ""), 401);
  EXPECT_EQ(status("/", ""), 303);
  EXPECT_EQ(status("/index.html", ""), 303);
  EXPECT_EQ(status("/pair", ""), 0);
  EXPECT_EQ(status("/api/pair", ""), 0);
  EXPECT_EQ(status("/assets/x.js", ""), 0);
  EXPECT_EQ(status("/api/garden", cookie), 0);
  EXPECT_EQ(status("/api/garden", "a=b; " + cookie), 0);
  EXPECT_EQ(status("/api/garden", "", true), 0);
  ASSERT_TRUE(pairing->forget(paired->device));
  EXPECT_EQ(status("/api/garden", cookie), 401);
  std::filesystem::remove(path);
}

TEST(HomeAddress, KnowsThePrivateNetsToTheirEdges) {
  // RFC 1918, section 3; RFC 3927, section 2.1; RFC 1122, section 3.2.1.3. 192.0.2/24 is for documents (RFC
  // 5737).
  const auto ip = [](std::uint32_t a, std::uint32_t b, std::uint32_t c, std::uint32_t d) {
    return a << 24U | b << 16U | c << 8U | d;
  };
  for (const std::uint32_t home : {ip(10, 0, 0, 0), ip(10, 255, 255, 255), ip(172, 16, 0, 0),
                                   ip(172, 31, 255, 255), ip(192, 168, 0, 0), ip(192, 168, 255, 255)}) {
    EXPECT_TRUE(is_home_address(home));
    EXPECT_TRUE(is_private_address(home));
    EXPECT_FALSE(is_loopback_address(home));
  }
  for (const std::uint32_t other :
       {ip(9, 255, 255, 255), ip(11, 0, 0, 0), ip(172, 15, 255, 255), ip(172, 32, 0, 0),
        ip(192, 167, 255, 255), ip(192, 169, 0, 0), ip(192, 0, 2, 1), ip(0, 0, 0, 0), ip(169, 253, 0, 1),
        ip(128, 0, 0, 1), ip(8, 8, 8, 8)})
    EXPECT_FALSE(is_private_address(other)) << other;
  EXPECT_TRUE(is_loopback_address(ip(127, 0, 0, 1)));
  EXPECT_TRUE(is_private_address(ip(169, 254, 7, 7)));
  EXPECT_FALSE(is_home_address(ip(127, 0, 0, 1)));
}

}  // namespace
}  // namespace sowtide::serve::detail
