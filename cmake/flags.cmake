# Flags that every target of ours shares; linked PRIVATE, so nothing leaks.
find_package(fmt REQUIRED)
find_program(CCACHE ccache)
if(CCACHE)
  # A precompiled header changes neither macros nor times that our code looks at; ccache has to be told. Paths below
  # the source folder count as relative, so that one clone is served from another's cache.
  set(CMAKE_CXX_COMPILER_LAUNCHER env CCACHE_SLOPPINESS=pch_defines,time_macros CCACHE_NOHASHDIR=1
    CCACHE_BASEDIR=${CMAKE_SOURCE_DIR} ${CCACHE})
endif()

add_library(fallaway_flags INTERFACE)
target_compile_options(fallaway_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion -Wno-missing-field-initializers -Werror=return-type)
# GCC 12 sees overruns in its own string moves where there are none.
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  target_compile_options(fallaway_flags INTERFACE -Wno-array-bounds)
endif()
# The reports must not depend on the machine: no contraction into fused operations, no unsafe maths.
target_compile_options(fallaway_flags INTERFACE -ffp-contract=off)
target_compile_definitions(fallaway_flags INTERFACE EIGEN_MPL2_ONLY)
if(FALLAWAY_SANITIZE)
  target_compile_options(fallaway_flags INTERFACE
    -fsanitize=${FALLAWAY_SANITIZE} -fno-omit-frame-pointer -fno-sanitize-recover=all)
  target_link_options(fallaway_flags INTERFACE -fsanitize=${FALLAWAY_SANITIZE})
endif()
# Formatting is everywhere, and one definition of it everywhere lets all targets share the precompiled header.
target_link_libraries(fallaway_flags INTERFACE fmt::fmt)

# The standard headers that nearly every file reads, parsed once a build. Clang's builds (fuzz) do without.
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  file(WRITE ${CMAKE_BINARY_DIR}/precompiled.cpp "")
  add_library(fallaway_precompiled OBJECT ${CMAKE_BINARY_DIR}/precompiled.cpp)
  target_compile_options(fallaway_precompiled PRIVATE -fpch-preprocess)
  target_link_libraries(fallaway_precompiled PRIVATE fallaway_flags)
  target_precompile_headers(fallaway_precompiled PRIVATE
    <algorithm> <array> <cmath> <cstdint> <functional> <map> <optional> <ranges> <set> <span> <string> <string_view>
    <utility> <variant> <vector> <fmt/format.h> <fmt/ranges.h> <tl/expected.hpp>)
endif()

# fallaway_precompile(target): reads them from there.
function(fallaway_precompile target)
  if(TARGET fallaway_precompiled)
    target_compile_options(${target} PRIVATE $<$<COMPILE_LANGUAGE:CXX>:-fpch-preprocess>)
    target_precompile_headers(${target} REUSE_FROM fallaway_precompiled)
  endif()
endfunction()
