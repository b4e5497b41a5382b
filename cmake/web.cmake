# The page of `fallaway serve`, built by npm from web/ and put into the binary (src/shop/serve/page_files.h). Without
# Node 18 or newer, or with -DWEB=OFF, the program builds all the same and says how to get the page.
include(${CMAKE_CURRENT_LIST_DIR}/embedding.cmake)

find_program(NODE NAMES node nodejs)
find_program(NPM npm)
set(node_is_new_enough OFF)
if(NODE AND NPM)
  execute_process(COMMAND ${NODE} --version OUTPUT_VARIABLE node_version OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET)
  string(REGEX REPLACE "^v" "" node_version "${node_version}")
  if(node_version VERSION_GREATER_EQUAL 18)
    set(node_is_new_enough ON)
  endif()
endif()
option(WEB "put the page into the binary (needs node 18 or newer, and npm)" ${node_is_new_enough})

# fallaway_page(target): makes the target depend on the page and hold its files. npm runs again only when something
# in web/ changed.
function(fallaway_page target)
  set(out ${CMAKE_BINARY_DIR}/page)
  target_include_directories(${target} PRIVATE ${out})
  if(NOT WEB)
    fallaway_write_embedding(${out} page ${CMAKE_BINARY_DIR}/web_dist)
    return()
  endif()
  set(web ${CMAKE_SOURCE_DIR}/web)
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${web}/src/* ${web}/public/*)
  file(GLOB beside CONFIGURE_DEPENDS ${web}/*.json ${web}/*.html ${web}/*.ts ${web}/.npmrc ${web}/dev/sizes.mjs
    ${web}/tools/types.mjs ${CMAKE_SOURCE_DIR}/schema/api.schema.json)
  set(made ${out}/page_bytes.S ${out}/page_table.inc ${out}/page_symbols.inc)
  set(script ${CMAKE_SOURCE_DIR}/cmake/build_page.cmake)
  add_custom_command(OUTPUT ${made}
    COMMAND ${CMAKE_COMMAND} -D NPM=${NPM} -D WEB_DIR=${web} -D DIST=${CMAKE_BINARY_DIR}/web_dist -D OUT=${out}
      -P ${script}
    DEPENDS ${sources} ${beside} ${script} ${CMAKE_SOURCE_DIR}/cmake/embedding.cmake
    COMMENT "Building the page" VERBATIM)
  target_sources(${target} PRIVATE ${made})
endfunction()
