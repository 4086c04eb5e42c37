# Flags of our own code. Floating point must not be contracted: native and wasm give the same
# numbers. Exceptions stay inside the core, but nlohmann and the standard library throw.
find_program(WHEYFIELD_CCACHE ccache)
if(WHEYFIELD_CCACHE)
  set(CMAKE_CXX_COMPILER_LAUNCHER ${CMAKE_COMMAND} -E env CCACHE_SLOPPINESS=pch_defines,time_macros
                                  ${WHEYFIELD_CCACHE})
endif()

set(CMAKE_CXX_FLAGS_RELEASE "-O3 -DNDEBUG")
set(CMAKE_CXX_FLAGS_ASAN
    "-O1 -g1 -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer")
set(CMAKE_CXX_FLAGS_FUZZ "-O1 -g1 -fsanitize=fuzzer-no-link,address,undefined \
-fno-sanitize-recover=all -fno-omit-frame-pointer")

add_library(wheyfield_flags INTERFACE)
target_compile_options(wheyfield_flags INTERFACE -ffp-contract=off)
if(EMSCRIPTEN)
  target_compile_options(wheyfield_flags INTERFACE -fwasm-exceptions)
  target_link_options(wheyfield_flags INTERFACE -fwasm-exceptions)
endif()

add_library(wheyfield_warnings INTERFACE)
target_compile_options(wheyfield_warnings INTERFACE -Wall -Wextra -Werror)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # g++ 12 warns of overlapping copies in `"text" + std::string` at -O3, wrongly (its bug 105651),
  # and of uninitialised strings inside aggregates that are moved whole (bug 105562).
  target_compile_options(wheyfield_warnings INTERFACE -Wno-restrict -Wno-maybe-uninitialized)
endif()

# The two headers that cost more to read than most of our files cost to compile. For targets of many
# files; each file still names what it includes, and headers_alone compiles without this.
function(precompile_heavy_headers target)
  target_precompile_headers(${target} PRIVATE <nlohmann/json.hpp> ${ARGN})
endfunction()

# Code that is not in a hurry at run time: compiled in about half the time of -O3, and smaller.
add_library(wheyfield_quick_build INTERFACE)
target_compile_options(wheyfield_quick_build INTERFACE $<$<CONFIG:Release>:-O1>)
