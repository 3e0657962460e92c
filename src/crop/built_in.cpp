#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "crop/crop.hpp"
#include "crop/detail/compiled_files.hpp"

namespace sowtide::crop {
namespace {

/// Letters to insert, drop or change to make one word of the other (Levenshtein 1966).
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = diagonal + (a[i - 1] == b[j - 1] ? 0U : 1U);
      diagonal = row[j];
      row[j] = std::min({changed, row[j] + 1, row[j - 1] + 1});
    }
  }
  return row[b.size()];
}

/// Up to three ids nearest in spelling, or those that hold the word.
std::string nearest_ids(const CropLibrary& library, std::string_view id) {
  std::vector<std::pair<std::size_t, std::string_view>> ranked;
  for (const auto& [known, crop] : library.crops) {
    const bool holds = !id.empty() && known.find(id) != std::string::npos;
    ranked.emplace_back(holds ? 0 : edit_distance(id, known), known);
  }
  std::sort(ranked.begin(), ranked.end());
  std::string list;
  for (std::size_t i = 0; i < std::min<std::size_t>(3, ranked.size()); ++i) {
    list += (list.empty() ? "" : ", ") + std::string(ranked[i].second);
  }
  return list;
}

}  // namespace

base::Result<const Crop*> CropLibrary::find(std::string_view id) const {
  const auto found = crops.find(id);
  if (found != crops.end()) return &found->second;
  const std::string_view shown = id.substr(0, 60);
  return base::fail(base::ProblemCode::not_found, fmt::format("there is no crop \"{}\"", shown),
                    {.field = "crop"}, fmt::format("The nearest names are: {}", nearest_ids(*this, shown)));
}

base::Result<CropLibrary> read_library(const std::vector<CropFile>& crop_files,
                                       const CropFile& sources_file) {
  CropLibrary library;
  auto sources = read_sources(sources_file.text, std::string(sources_file.name));
  if (!sources) return tl::unexpected(sources.error());
  library.sources = std::move(*sources);
  for (const CropFile& file : crop_files) {
    auto crop = read_crop(file.text, std::string(file.name), library.sources);
    if (!crop) return tl::unexpected(crop.error());
    std::string id = crop->id;
    if (!library.crops.emplace(id, std::move(*crop)).second) {
      return base::fail(base::ProblemCode::already_exists, fmt::format("crop \"{}\" comes twice", id),
                        {.file = std::string(file.name)}, "Give the file another name");
    }
  }
  return library;
}

const CropLibrary& built_in_library() {
  static const CropLibrary library = [] {
    auto read = read_library(detail::compiled_crop_files(), detail::compiled_sources_file());
    if (!read) throw std::logic_error(base::to_text(read.error()));
    return std::move(*read);
  }();
  return library;
}

}  // namespace sowtide::crop
