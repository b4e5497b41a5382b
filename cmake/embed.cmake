include(${CMAKE_CURRENT_LIST_DIR}/embedding.cmake)

# fallaway_embed(target dirs...): every file under the directories is put into the target and found at run time by
# its path (src/shop/files/embedded.h).
function(fallaway_embed target)
  set(all_files "")
  foreach(dir ${ARGN})
    file(GLOB_RECURSE files CONFIGURE_DEPENDS RELATIVE ${CMAKE_SOURCE_DIR} ${CMAKE_SOURCE_DIR}/${dir}/*)
    list(FILTER files EXCLUDE REGEX "\\.(cpp|h|md|txt)$")
    list(SORT files)
    list(APPEND all_files ${files})
  endforeach()
  set(out ${CMAKE_BINARY_DIR}/embedded)
  fallaway_write_embedding(${out} embedded ${CMAKE_SOURCE_DIR} ${all_files})
  list(TRANSFORM all_files PREPEND ${CMAKE_SOURCE_DIR}/)
  set_source_files_properties(${out}/embedded_bytes.S PROPERTIES OBJECT_DEPENDS "${all_files}")
  target_sources(${target} PRIVATE ${out}/embedded_bytes.S)
  target_include_directories(${target} PRIVATE ${out})
endfunction()
