# data/ -> generated/data.json, words.<language>.json, embedded.cpp; examples/ -> seasons.cpp
set(WHEYFIELD_GENERATED ${CMAKE_BINARY_DIR}/generated)
file(GLOB_RECURSE bundle_sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/data/*.toml
     ${CMAKE_SOURCE_DIR}/data/words/*.po ${CMAKE_SOURCE_DIR}/examples/*.toml)
add_custom_command(
  OUTPUT ${WHEYFIELD_GENERATED}/embedded.cpp ${WHEYFIELD_GENERATED}/seasons.cpp
  BYPRODUCTS ${WHEYFIELD_GENERATED}/data.json ${WHEYFIELD_GENERATED}/words.en.json
  COMMAND ${WHEYFIELD_PYTHON} ${CMAKE_SOURCE_DIR}/tools/bundle.py
          --data ${CMAKE_SOURCE_DIR}/data --examples ${CMAKE_SOURCE_DIR}/examples
          --out ${WHEYFIELD_GENERATED}
  DEPENDS ${bundle_sources} ${CMAKE_SOURCE_DIR}/tools/bundle.py ${CMAKE_SOURCE_DIR}/tools/po.py
  COMMENT "Bundling data and words"
  VERBATIM)
add_custom_target(bundle ALL DEPENDS ${WHEYFIELD_GENERATED}/embedded.cpp)

add_library(wheyfield_embedded STATIC ${WHEYFIELD_GENERATED}/embedded.cpp)
target_include_directories(wheyfield_embedded PUBLIC ${CMAKE_SOURCE_DIR}/hosts/common)
target_link_libraries(wheyfield_embedded PRIVATE wheyfield_flags wheyfield_warnings)
