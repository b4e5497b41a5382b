# Flags that every target of ours shares; linked PRIVATE, so nothing leaks.
find_program(CCACHE ccache)
if(CCACHE)
  set(CMAKE_CXX_COMPILER_LAUNCHER ${CCACHE})
endif()

add_library(fallaway_flags INTERFACE)
target_compile_options(fallaway_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion -Wno-missing-field-initializers -Werror=return-type)
# The reports must not depend on the machine: no contraction into fused operations, no unsafe maths.
target_compile_options(fallaway_flags INTERFACE -ffp-contract=off)
target_compile_definitions(fallaway_flags INTERFACE EIGEN_MPL2_ONLY)
if(FALLAWAY_SANITIZE)
  target_compile_options(fallaway_flags INTERFACE
    -fsanitize=${FALLAWAY_SANITIZE} -fno-omit-frame-pointer -fno-sanitize-recover=all)
  target_link_options(fallaway_flags INTERFACE -fsanitize=${FALLAWAY_SANITIZE})
endif()
