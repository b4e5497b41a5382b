# fallaway_embed(target dirs...): every file under the directories is put into the target byte for byte and
# found at run time by its path (src/shop/files/embedded.h).
function(fallaway_embed target)
  set(asm "    .section .rodata\n")
  set(table "")
  set(declarations "")
  set(index 0)
  foreach(dir ${ARGN})
    file(GLOB_RECURSE files CONFIGURE_DEPENDS RELATIVE ${CMAKE_SOURCE_DIR} ${CMAKE_SOURCE_DIR}/${dir}/*)
    list(FILTER files EXCLUDE REGEX "\\.(cpp|h|md|txt)$")
    list(SORT files)
    foreach(file ${files})
      string(APPEND asm
        "    .globl fallaway_embedded_${index}\nfallaway_embedded_${index}:\n"
        "    .incbin \"${CMAKE_SOURCE_DIR}/${file}\"\n"
        "    .globl fallaway_embedded_${index}_end\nfallaway_embedded_${index}_end:\n    .byte 0\n")
      string(APPEND declarations
        "extern const char fallaway_embedded_${index}[];\nextern const char fallaway_embedded_${index}_end[];\n")
      string(APPEND table "    {\"${file}\", fallaway_embedded_${index}, fallaway_embedded_${index}_end},\n")
      list(APPEND all_files ${CMAKE_SOURCE_DIR}/${file})
      math(EXPR index "${index} + 1")
    endforeach()
  endforeach()
  string(APPEND asm "    .section .note.GNU-stack,\"\",@progbits\n")
  set(out ${CMAKE_BINARY_DIR}/embedded)
  file(MAKE_DIRECTORY ${out})
  file(CONFIGURE OUTPUT ${out}/embedded_bytes.S CONTENT "${asm}" @ONLY)
  file(CONFIGURE OUTPUT ${out}/embedded_table.inc CONTENT "${table}" @ONLY)
  file(CONFIGURE OUTPUT ${out}/embedded_symbols.inc CONTENT "extern \"C\" {\n${declarations}}\n" @ONLY)
  set_source_files_properties(${out}/embedded_bytes.S PROPERTIES OBJECT_DEPENDS "${all_files}")
  target_sources(${target} PRIVATE ${out}/embedded_bytes.S)
  target_include_directories(${target} PRIVATE ${out})
endfunction()
