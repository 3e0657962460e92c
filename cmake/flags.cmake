# All compiler flags travel on one INTERFACE target, so nothing is set globally.
add_library(sowtide_flags INTERFACE)
target_compile_options(sowtide_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wnon-virtual-dtor -Wold-style-cast
  -Woverloaded-virtual -Wdouble-promotion
  # Designated initialisers leave the other members at their defaults on purpose.
  -Wno-missing-field-initializers
  # Contraction of a*b+c differs between compilers; results must not.
  -ffp-contract=off)
if(SOWTIDE_WERROR)
  target_compile_options(sowtide_flags INTERFACE -Werror)
endif()
if(SOWTIDE_SANITIZE)
  target_compile_options(sowtide_flags INTERFACE
    -fsanitize=${SOWTIDE_SANITIZE} -fno-omit-frame-pointer -fno-sanitize-recover=all)
  target_link_options(sowtide_flags INTERFACE -fsanitize=${SOWTIDE_SANITIZE})
endif()

find_program(SOWTIDE_CCACHE ccache)
if(SOWTIDE_CCACHE)
  set(CMAKE_CXX_COMPILER_LAUNCHER ${SOWTIDE_CCACHE})
endif()
find_program(SOWTIDE_MOLD mold)
if(SOWTIDE_MOLD)
  target_link_options(sowtide_flags INTERFACE -fuse-ld=mold)
endif()
