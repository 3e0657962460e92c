#include "serve/detail/api_documents.hpp"

#include <map>
#include <string_view>

namespace sowtide::serve::detail {

/// By name without its endings; written by cmake/embed_text.cmake.
const std::map<std::string, std::string_view>& api_files();

std::vector<Asset> api_documents() {
  std::vector<Asset> documents;
  for (const auto& [name, text] : api_files()) {
    const std::string ending = name == "openapi" ? ".json" : ".schema.json";
    documents.push_back(make_asset("/api/" + name + ending, std::string(text)));
  }
  return documents;
}

}  // namespace sowtide::serve::detail
