# One library target a layer, with include roots of its own:
#   include/LAYER/graftcast/...  headers that are installed, included as "graftcast/X.hpp"
#   src/LAYER/LAYER/...          headers for the layers above, included as "LAYER/X.hpp"
# A layer links the layer before it, and so sees the roots of those below: an include that points up does not
# compile (tests/layers).

add_library(graftcast_flags INTERFACE)
target_compile_features(graftcast_flags INTERFACE cxx_std_20)
# Contraction would let two machines round the same expression differently.
target_compile_options(graftcast_flags INTERFACE -ffp-contract=off -fno-math-errno -fno-trapping-math)

add_library(graftcast_warnings INTERFACE)
target_compile_options(graftcast_warnings INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wshadow
  # g++ 12 sees overlapping and overlong copies inside std::string where there are none (GCC bug 105651).
  $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict -Wno-array-bounds -Wno-stringop-overflow>
  $<$<BOOL:${GRAFTCAST_WARNINGS_AS_ERRORS}>:-Werror>)
if(GRAFTCAST_SANITIZE)
  # Eigen allocates otherwise where it sees the sanitizer; instrumented and other code must agree.
  target_compile_definitions(graftcast_flags INTERFACE EIGEN_MALLOC_ALREADY_ALIGNED=1)
  # Not the tests' own code: instrumenting that too takes a check too long.
  target_compile_options(graftcast_flags INTERFACE $<$<NOT:$<BOOL:$<TARGET_PROPERTY:GRAFTCAST_IS_TEST>>>:-fsanitize=${GRAFTCAST_SANITIZE};-fno-sanitize-recover=all;-fno-omit-frame-pointer>)
  target_link_options(graftcast_flags INTERFACE -fsanitize=${GRAFTCAST_SANITIZE})
endif()
if(GRAFTCAST_FUZZERS)
  # Counts the edges that are passed, which the fuzzers steer by; other programs link the same libraries.
  target_compile_options(graftcast_flags INTERFACE $<$<NOT:$<BOOL:$<TARGET_PROPERTY:GRAFTCAST_IS_TEST>>>:-fsanitize=fuzzer-no-link>)
endif()
if(GRAFTCAST_COVERAGE)
  target_compile_options(graftcast_flags INTERFACE --coverage)
  target_link_options(graftcast_flags INTERFACE --coverage)
endif()

# graftcast_layer(NAME science SOURCES air.cpp ... LINK graftcast::text ...)
function(graftcast_layer)
  cmake_parse_arguments(LAYER "" "NAME" "SOURCES;LINK;LINK_PRIVATE" ${ARGN})
  set(target graftcast_${LAYER_NAME})
  add_library(${target} STATIC ${LAYER_SOURCES})
  add_library(graftcast::${LAYER_NAME} ALIAS ${target})
  set_target_properties(${target} PROPERTIES EXPORT_NAME ${LAYER_NAME} POSITION_INDEPENDENT_CODE ON)
  target_include_directories(${target} PUBLIC
    $<BUILD_INTERFACE:${CMAKE_CURRENT_SOURCE_DIR}>
    $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}>)
  if(IS_DIRECTORY ${PROJECT_SOURCE_DIR}/include/${LAYER_NAME})
    target_include_directories(${target} PUBLIC $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}/include/${LAYER_NAME}>)
    install(DIRECTORY ${PROJECT_SOURCE_DIR}/include/${LAYER_NAME}/graftcast DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}
      COMPONENT development)
  endif()
  target_link_libraries(${target} PUBLIC graftcast_flags ${LAYER_LINK}
    PRIVATE $<BUILD_INTERFACE:graftcast_warnings> ${LAYER_LINK_PRIVATE})
  install(TARGETS ${target} EXPORT graftcastTargets ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT development)
endfunction()
