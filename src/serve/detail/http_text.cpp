#include "serve/detail/http_text.hpp"

#include <algorithm>
#include <charconv>

namespace sowtide::serve::detail {
namespace {

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

bool is_safe(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte >= 0x20 && byte != 0x7f && c != '\\';
}

/// The weight of one element of an Accept list, 1 when none is given, 0 when it cannot be read.
double weight_of(std::string_view element) {
  for (const std::string_view part : split(element, ';')) {
    const std::string_view parameter = trimmed(part);
    if (parameter.size() < 2 || lower_case(parameter.substr(0, 2)) != "q=") continue;
    double weight = 0.0;
    const std::string_view digits = parameter.substr(2);
    const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), weight);
    return read.ec == std::errc{} ? weight : 0.0;
  }
  return 1.0;
}

std::string_view without_weak_mark(std::string_view tag) {
  return tag.rfind("W/", 0) == 0 ? tag.substr(2) : tag;
}

}  // namespace

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return lower;
}

std::string_view trimmed(std::string_view text) {
  const auto is_blank = [](char c) { return c == ' ' || c == '\t'; };
  while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
  return text;
}

std::vector<std::string_view> split(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  for (;;) {
    const std::size_t at = text.find(separator);
    parts.push_back(text.substr(0, at));
    if (at == std::string_view::npos) return parts;
    text.remove_prefix(at + 1);
  }
}

std::optional<std::string> decode_escapes(std::string_view text) {
  std::string plain;
  plain.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    char c = text[i];
    if (c == '%') {
      if (i + 2 >= text.size()) return std::nullopt;
      const int high = hex_digit(text[i + 1]);
      const int low = hex_digit(text[i + 2]);
      if (high < 0 || low < 0) return std::nullopt;
      c = static_cast<char>(high * 16 + low);
      i += 2;
    }
    if (!is_safe(c)) return std::nullopt;
    plain.push_back(c);
  }
  return plain;
}

std::optional<std::string> decode_path(std::string_view target) {
  if (target.empty() || target.front() != '/') return std::nullopt;
  auto path = decode_escapes(target);
  if (!path) return std::nullopt;
  for (const std::string_view part : split(*path, '/')) {
    if (part == "." || part == "..") return std::nullopt;
  }
  return path;
}

bool accepts_gzip(std::string_view accept_encoding) {
  double any = 0.0;
  for (const std::string_view element : split(accept_encoding, ',')) {
    const std::string name = lower_case(trimmed(element.substr(0, element.find(';'))));
    if (name == "gzip" || name == "x-gzip") return weight_of(element) > 0.0;
    if (name == "*") any = weight_of(element);
  }
  return any > 0.0;
}

bool names_tag(std::string_view if_none_match, std::string_view tag) {
  if (trimmed(if_none_match) == "*") return true;
  const auto elements = split(if_none_match, ',');
  return std::any_of(elements.begin(), elements.end(), [&](std::string_view element) {
    return without_weak_mark(trimmed(element)) == without_weak_mark(tag);
  });
}

std::string media_type(std::string_view content_type) {
  return lower_case(trimmed(content_type.substr(0, content_type.find(';'))));
}

PathPattern::PathPattern(std::string_view pattern) {
  for (const std::string_view part : split(pattern, '/')) parts_.emplace_back(part);
}

std::string PathPattern::text() const {
  std::string all;
  for (std::size_t i = 0; i < parts_.size(); ++i) all += (i == 0 ? "" : "/") + parts_[i];
  return all;
}

std::optional<std::map<std::string, std::string>> PathPattern::match(std::string_view path) const {
  const auto given = split(path, '/');
  if (given.size() != parts_.size()) return std::nullopt;
  std::map<std::string, std::string> captured;
  for (std::size_t i = 0; i < given.size(); ++i) {
    const std::string& part = parts_[i];
    if (part.size() > 2 && part.front() == '{' && part.back() == '}') {
      if (given[i].empty()) return std::nullopt;
      captured[part.substr(1, part.size() - 2)] = std::string(given[i]);
    } else if (part != given[i]) {
      return std::nullopt;
    }
  }
  return captured;
}

}  // namespace sowtide::serve::detail
