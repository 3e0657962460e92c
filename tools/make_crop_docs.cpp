// Prints docs/crops.md from the compiled-in crop library.
#include <cstdio>

#include "crop/listing.hpp"

int main() {
  const std::string page = sowtide::crop::library_page(sowtide::crop::built_in_library());
  return std::fwrite(page.data(), 1, page.size(), stdout) == page.size() ? 0 : 1;
}
