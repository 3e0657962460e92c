# Writes OUTPUT, a C++ file with one function returning name → text for every file of DIR that ends in EXT.
# Run as: cmake -DDIR=... -DEXT=csv -DOUTPUT=... -DNAMESPACE=sowtide::desk::detail -DFUNCTION=proof_files -P embed_text.cmake
file(GLOB FILES ${DIR}/*.${EXT})
list(SORT FILES)
set(ENTRIES "")
foreach(FILE IN LISTS FILES)
  get_filename_component(NAME ${FILE} NAME_WE)
  file(READ "${FILE}" TEXT)
  string(APPEND ENTRIES "      {\"${NAME}\", R\"EMBEDDED(${TEXT})EMBEDDED\"},\n")
endforeach()
file(WRITE ${OUTPUT}.new "// Made by cmake/embed_text.cmake; do not edit.
#include <map>
#include <string>
#include <string_view>

namespace ${NAMESPACE} {

const std::map<std::string, std::string_view>& ${FUNCTION}();

const std::map<std::string, std::string_view>& ${FUNCTION}() {
  static const std::map<std::string, std::string_view> files{
${ENTRIES}  };
  return files;
}

}  // namespace ${NAMESPACE}
")
file(RENAME ${OUTPUT}.new ${OUTPUT})
