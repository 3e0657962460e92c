#include "serve/detail/http_text.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "serve/assets.hpp"
#include "serve/http_client.hpp"

namespace sowtide::serve::detail {
namespace {

TEST(DecodePath, UndoesEscapesOnce) {
  EXPECT_EQ(decode_path("/api/outlook/s%201"), "/api/outlook/s 1");
  EXPECT_EQ(decode_path("/a%2541"), "/a%41");
  EXPECT_EQ(decode_path("/%C3%BC"), "/\xC3\xBC");
}

TEST(DecodePath, RefusesWhatCouldLeaveTheTree) {
  for (const char* target : {"/..", "/../etc/passwd", "/a/../b", "/a/%2e%2e/b", "/%2e%2E%2fetc", "/a/./b",
                             "/..%2f", "/a\\..\\b", "/a%5c..%5cb", "/%2e"}) {
    EXPECT_EQ(decode_path(target), std::nullopt) << target;
  }
}

TEST(DecodePath, RefusesControlCharactersAndBrokenEscapes) {
  for (const char* target : {"", "a", "*", "http://127.0.0.1/", "/%", "/%4", "/%zz", "/%00",
                             "/a%0d%0aSet-Cookie:x", "/%7f", "/\x01"}) {
    EXPECT_EQ(decode_path(target), std::nullopt) << target;
  }
}

RC_GTEST_PROP(DecodePath, NeverGivesAControlCharacterOrAStepUp, (const std::string& rest)) {
  const auto path = decode_path("/" + rest);
  if (!path) return;
  RC_ASSERT(path->front() == '/');
  for (const char c : *path) RC_ASSERT(static_cast<unsigned char>(c) >= 0x20);
  RC_ASSERT(("/" + *path + "/").find("/../") == std::string::npos);
}

RC_GTEST_PROP(DecodePath, ReadsBackWhatWasEscapedByteByByte, (const std::string& rest)) {
  std::string escaped = "/x";
  for (const char c : rest) {
    constexpr const char* kDigits = "0123456789ABCDEF";
    const auto byte = static_cast<unsigned char>(c);
    escaped += {'%', kDigits[byte >> 4], kDigits[byte & 15]};
  }
  const auto path = decode_path(escaped);
  if (path) RC_ASSERT(*path == "/x" + rest);
}

// RFC 9110, section 12.5.3: examples of Accept-Encoding.
TEST(AcceptsGzip, FollowsRfc9110) {
  EXPECT_TRUE(accepts_gzip("compress, gzip"));
  EXPECT_FALSE(accepts_gzip(""));
  EXPECT_TRUE(accepts_gzip("*"));
  EXPECT_TRUE(accepts_gzip("compress;q=0.5, gzip;q=1.0"));
  EXPECT_TRUE(accepts_gzip("gzip;q=1.0, identity; q=0.5, *;q=0"));
  EXPECT_FALSE(accepts_gzip("gzip;q=0"));
  EXPECT_FALSE(accepts_gzip("gzip; q=0.000, *"));
  EXPECT_FALSE(accepts_gzip("identity"));
}

// RFC 9110, section 13.1.2: If-None-Match uses weak comparison.
TEST(NamesTag, FollowsRfc9110) {
  EXPECT_TRUE(names_tag("\"xyzzy\"", "\"xyzzy\""));
  EXPECT_TRUE(names_tag("W/\"xyzzy\"", "\"xyzzy\""));
  EXPECT_TRUE(names_tag("\"xyzzy\", \"r2d2xxxx\", \"c3piozzzz\"", "\"r2d2xxxx\""));
  EXPECT_TRUE(names_tag("*", "\"xyzzy\""));
  EXPECT_FALSE(names_tag("\"xyz\"", "\"xyzzy\""));
}

TEST(MediaType, DropsParametersAndCase) {
  EXPECT_EQ(media_type("Application/JSON; charset=utf-8"), "application/json");
  EXPECT_EQ(media_type(""), "");
}

TEST(PathPattern, CapturesWholePartsOnly) {
  const PathPattern pattern("/api/outlook/{stand}");
  EXPECT_EQ(pattern.match("/api/outlook/s17")->at("stand"), "s17");
  EXPECT_FALSE(pattern.match("/api/outlook/"));
  EXPECT_FALSE(pattern.match("/api/outlook"));
  EXPECT_FALSE(pattern.match("/api/outlook/s1/x"));
  EXPECT_FALSE(pattern.match("/api/Outlook/s1"));
}

}  // namespace
}  // namespace sowtide::serve::detail
