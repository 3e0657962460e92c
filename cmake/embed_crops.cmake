# Writes OUTPUT, a C++ file that holds every crops/*.toml of CROPS_DIR as a raw string.
# Run as: cmake -DCROPS_DIR=... -DOUTPUT=... -P embed_crops.cmake
file(GLOB FILES ${CROPS_DIR}/*.toml)
list(SORT FILES)
set(ENTRIES "")
foreach(FILE IN LISTS FILES)
  get_filename_component(NAME ${FILE} NAME)
  # Brackets and semicolons are list syntax to CMake when a text is expanded unquoted; it is always quoted here.
  file(READ "${FILE}" TEXT)
  if(NAME STREQUAL "sources.toml")
    set(SOURCES "  static const CropFile file{\"crops/${NAME}\", R\"CROPTOML(${TEXT})CROPTOML\"};\n")
  else()
    string(APPEND ENTRIES "      {\"crops/${NAME}\", R\"CROPTOML(${TEXT})CROPTOML\"},\n")
  endif()
endforeach()
file(WRITE ${OUTPUT}.new "// Made by cmake/embed_crops.cmake; do not edit.
#include \"crop/detail/compiled_files.hpp\"

namespace sowtide::crop::detail {

const std::vector<CropFile>& compiled_crop_files() {
  static const std::vector<CropFile> files{
${ENTRIES}  };
  return files;
}

const CropFile& compiled_sources_file() {
${SOURCES}  return file;
}

}  // namespace sowtide::crop::detail
")
file(RENAME ${OUTPUT}.new ${OUTPUT})
