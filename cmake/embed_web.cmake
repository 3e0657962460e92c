# Writes OUTPUT, a C++ file that holds every file below WEB_DIR as bytes; none when the directory is not there.
# Run as: cmake -DWEB_DIR=... -DOUTPUT=... -P embed_web.cmake
file(GLOB_RECURSE FILES RELATIVE ${WEB_DIR} ${WEB_DIR}/*)
list(SORT FILES)
set(ARRAYS "")
set(ENTRIES "")
set(COUNT 0)
foreach(FILE IN LISTS FILES)
  file(READ "${WEB_DIR}/${FILE}" HEX HEX)
  if(HEX STREQUAL "")
    set(HEX "00")
    set(SIZE 0)
  else()
    set(SIZE "sizeof kFile${COUNT}")
  endif()
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," BYTES "${HEX}")
  string(APPEND ARRAYS "const unsigned char kFile${COUNT}[] = {${BYTES}};\n")
  string(APPEND ENTRIES "    {\"/${FILE}\", reinterpret_cast<const char*>(kFile${COUNT}), ${SIZE}},\n")
  math(EXPR COUNT "${COUNT} + 1")
endforeach()
if(COUNT EQUAL 0)
  set(TABLE "const EmbeddedFile* const kEmbeddedFiles = nullptr;\n")
else()
  set(TABLE "namespace {\n${ARRAYS}const EmbeddedFile kTable[] = {\n${ENTRIES}};\n}  // namespace\nconst EmbeddedFile* const kEmbeddedFiles = kTable;\n")
endif()
file(WRITE ${OUTPUT}.new "// Made by cmake/embed_web.cmake; do not edit.
#include \"serve/detail/embedded.hpp\"

namespace sowtide::serve::detail {

const std::size_t kEmbeddedCount = ${COUNT};
${TABLE}
}  // namespace sowtide::serve::detail
")
file(RENAME ${OUTPUT}.new ${OUTPUT})
