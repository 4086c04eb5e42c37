# GoogleTest built from the sources Debian ships: one way for native, sanitised and wasm builds.
set(googletest_root /usr/src/googletest/googletest)
if(NOT EXISTS ${googletest_root}/src/gtest-all.cc)
  message(FATAL_ERROR "${googletest_root} is missing: run tools/setup run")
endif()
add_library(wheyfield_googletest STATIC ${googletest_root}/src/gtest-all.cc
            ${googletest_root}/src/gtest_main.cc)
target_include_directories(wheyfield_googletest SYSTEM PUBLIC ${googletest_root}/include
                           PRIVATE ${googletest_root})
target_link_libraries(wheyfield_googletest PUBLIC wheyfield_flags PRIVATE wheyfield_quick_build)
if(EMSCRIPTEN)
  target_compile_definitions(wheyfield_googletest PUBLIC GTEST_HAS_PTHREAD=0)
else()
  find_package(Threads REQUIRED)
  target_link_libraries(wheyfield_googletest PUBLIC Threads::Threads)
endif()
