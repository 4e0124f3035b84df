# One library target a layer. A layer links only the layers below it, and its
# private headers are reachable only from its own folder, so an include that
# points the wrong way does not compile or does not link.

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
    $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}/include>
    $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}>)
  target_include_directories(${target} PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
  target_link_libraries(${target} PUBLIC graftcast_flags ${LAYER_LINK}
    PRIVATE $<BUILD_INTERFACE:graftcast_warnings> ${LAYER_LINK_PRIVATE})
  install(TARGETS ${target} EXPORT graftcastTargets ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT development)
endfunction()
