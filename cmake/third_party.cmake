# Header-only libraries from the system. A cross compiler must not see /usr/include, so wasm gets a
# folder holding links to just the libraries the core uses.
add_library(wheyfield_third_party INTERFACE)
target_compile_definitions(wheyfield_third_party
                           INTERFACE FMT_HEADER_ONLY FMT_STATIC_THOUSANDS_SEPARATOR)

foreach(library nlohmann fmt tl boost)
  if(NOT EXISTS /usr/include/${library})
    message(FATAL_ERROR "/usr/include/${library} is missing: run tools/setup run")
  endif()
  if(EMSCRIPTEN)
    file(MAKE_DIRECTORY ${CMAKE_BINARY_DIR}/third_party)
    file(CREATE_LINK /usr/include/${library} ${CMAKE_BINARY_DIR}/third_party/${library} SYMBOLIC)
  endif()
endforeach()
if(EMSCRIPTEN)
  target_include_directories(wheyfield_third_party SYSTEM
                             INTERFACE ${CMAKE_BINARY_DIR}/third_party)
endif()
