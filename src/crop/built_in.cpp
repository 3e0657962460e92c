#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <stdexcept>

#include "base/nearest.hpp"
#include "crop/crop.hpp"
#include "crop/detail/compiled_files.hpp"

namespace sowtide::crop {
namespace {

/// A name as it is compared: small letters, and a space for a hyphen.
std::string plain(std::string_view name) {
  std::string made;
  for (const char letter : name) {
    const auto c = static_cast<unsigned char>(letter);
    const bool gap = letter == '-' || letter == '_' || std::isspace(c) != 0;
    if (gap && (made.empty() || made.back() == ' ')) continue;
    made += gap ? ' ' : static_cast<char>(std::tolower(c));
  }
  if (made.ends_with(' ')) made.pop_back();
  return made;
}

/// The names of a crop as they are compared; of "Courgette (summer squash)" both the whole and "courgette".
std::vector<std::string> names_of(const Crop& crop) {
  std::vector<std::string> names{plain(crop.id), plain(crop.name),
                                 plain(crop.name.substr(0, crop.name.find('(')))};
  for (const std::string& other : crop.also) names.push_back(plain(other));
  return names;
}

/// The word itself, and what it may be the plural of: "tomatoes", "broad beans".
std::vector<std::string> one_of(const std::string& word) {
  constexpr std::size_t kShortest = 3;
  std::vector<std::string> forms{word};
  for (const std::string_view ending : {"s", "es"}) {
    if (word.ends_with(ending) && word.size() >= kShortest + ending.size())
      forms.push_back(word.substr(0, word.size() - ending.size()));
  }
  return forms;
}

constexpr std::size_t kMostOffered = 3;

/// The ids of the crops whose names are near the word; where none is, how to see them all.
std::string remedy_for(const CropLibrary& library, std::string_view word) {
  std::vector<std::string> names;
  std::map<std::string, std::string, std::less<>> ids;
  for (const auto& [id, crop] : library.crops) {
    for (const std::string& name : names_of(crop)) {
      if (ids.emplace(name, id).second) names.push_back(name);
    }
  }
  std::vector<std::string> near;
  for (const std::string& name : base::nearest_names(plain(word), names, names.size())) {
    const std::string& id = ids.find(name)->second;
    if (near.size() < kMostOffered && std::find(near.begin(), near.end(), id) == near.end())
      near.push_back(id);
  }
  if (!near.empty()) return base::question_of(near);
  return "`sowtide windows PLACE` lists the crops that are known";
}

/// The first crop that goes by a name that another goes by already.
base::Result<void> check_names(const CropLibrary& library) {
  std::map<std::string, std::string, std::less<>> owner;
  for (const auto& [id, crop] : library.crops) {
    for (const std::string& name : names_of(crop)) {
      const auto [known, fresh] = owner.emplace(name, id);
      if (fresh || known->second == id) continue;
      return base::fail(base::ProblemCode::already_exists,
                        fmt::format("\"{}\" is a name of {} and of {}", name, known->second, id),
                        {.file = "crops/" + id + ".toml", .field = "also"},
                        "Leave the name to one of the two");
    }
  }
  return {};
}

}  // namespace

const Crop* CropLibrary::named(std::string_view name) const {
  const auto found = crops.find(name);
  if (found != crops.end()) return &found->second;
  for (const std::string& form : one_of(plain(name))) {
    for (const auto& [id, crop] : crops) {
      const std::vector<std::string> known = names_of(crop);
      if (std::find(known.begin(), known.end(), form) != known.end()) return &crop;
    }
  }
  return nullptr;
}

std::string CropLibrary::id_for(std::string_view name) const {
  const Crop* crop = named(name);
  return crop == nullptr ? std::string(name) : crop->id;
}

std::string CropLibrary::name_of(const std::string& id) const {
  const auto found = crops.find(id);
  return found == crops.end() ? id : found->second.name;
}

base::Result<const Crop*> CropLibrary::find(std::string_view name) const {
  if (const Crop* crop = named(name)) return crop;
  const std::string_view shown = name.substr(0, 60);
  return base::fail(base::ProblemCode::not_found, fmt::format("there is no crop \"{}\"", shown),
                    {.field = "crop"}, remedy_for(*this, shown));
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
  if (auto named = check_names(library); !named) return tl::unexpected(named.error());
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
