# Run while building: npm builds web/ to DIST, and the embedding of DIST is written to OUT.
# usage: cmake -D NPM=... -D WEB_DIR=web -D DIST=build/<preset>/web_dist -D OUT=build/<preset>/page -P build_page.cmake
include(${CMAKE_CURRENT_LIST_DIR}/embedding.cmake)

function(npm)
  execute_process(COMMAND ${NPM} ${ARGN} WORKING_DIRECTORY ${WEB_DIR} OUTPUT_VARIABLE said ERROR_VARIABLE said
    RESULT_VARIABLE failed)
  if(failed)
    list(JOIN ARGN " " words)
    message(FATAL_ERROR "npm ${words}: ${said}\nWithout the page: cmake -DWEB=OFF")
  endif()
endfunction()

# Two builds of one tree share web/node_modules and web/dist.
file(LOCK ${WEB_DIR}/node_modules.lock GUARD PROCESS TIMEOUT 600)
# npm notes there what it installed from.
set(installed ${WEB_DIR}/node_modules/.package-lock.json)
if(NOT EXISTS ${installed} OR ${WEB_DIR}/package-lock.json IS_NEWER_THAN ${installed})
  npm(ci --no-audit --no-fund)
  file(TOUCH ${installed})
endif()
npm(run build)
file(REMOVE_RECURSE ${DIST})
file(COPY ${WEB_DIR}/dist/ DESTINATION ${DIST})

file(GLOB_RECURSE files RELATIVE ${DIST} ${DIST}/*)
list(FILTER files EXCLUDE REGEX "^\\.vite/")
list(SORT files)
# Written anew even if the names are the same: the bytes are not.
file(REMOVE ${OUT}/page_bytes.S)
fallaway_write_embedding(${OUT} page ${DIST} ${files})
file(TOUCH ${OUT}/page_table.inc ${OUT}/page_symbols.inc)
