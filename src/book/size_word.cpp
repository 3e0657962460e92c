#include "book/size_word.hpp"

namespace sowtide::book {

using stand::SizeClass;

std::optional<SizeClass> size_class_of(std::string_view text) noexcept {
  for (const SizeClass size :
       {SizeClass::too_small, SizeClass::small, SizeClass::large, SizeClass::over_size})
    if (text == stand::size_class_text(size)) return size;
  return std::nullopt;
}

double weight_of_class(SizeClass size, const crop::Harvest& harvest) noexcept {
  switch (size) {
    case SizeClass::too_small:
      return 0.5 * harvest.smallest_g;
    case SizeClass::small:
      return harvest.small_g;
    case SizeClass::large:
      return harvest.large_g;
    case SizeClass::over_size:
      return harvest.over_size_g;
  }
  return 0.0;
}

}  // namespace sowtide::book
