# fallaway_write_embedding(out name root files...): three files in `out` that put `files` (paths below `root`) into a
# binary byte for byte: <name>_bytes.S, <name>_symbols.inc (declarations), <name>_table.inc (rows "path, begin, end").
# Also used while building, by cmake/build_page.cmake.
function(fallaway_write_embedding out name root)
  set(asm "    .section .rodata\n")
  set(table "")
  set(declarations "")
  set(index 0)
  foreach(file ${ARGN})
    set(symbol fallaway_${name}_${index})
    string(APPEND asm
      "    .globl ${symbol}\n${symbol}:\n    .incbin \"${root}/${file}\"\n"
      "    .globl ${symbol}_end\n${symbol}_end:\n    .byte 0\n")
    string(APPEND declarations "extern const char ${symbol}[];\nextern const char ${symbol}_end[];\n")
    string(APPEND table "    {\"${file}\", ${symbol}, ${symbol}_end},\n")
    math(EXPR index "${index} + 1")
  endforeach()
  string(APPEND asm "    .section .note.GNU-stack,\"\",@progbits\n")
  file(MAKE_DIRECTORY ${out})
  file(CONFIGURE OUTPUT ${out}/${name}_bytes.S CONTENT "${asm}" @ONLY)
  file(CONFIGURE OUTPUT ${out}/${name}_table.inc CONTENT "${table}" @ONLY)
  file(CONFIGURE OUTPUT ${out}/${name}_symbols.inc CONTENT "extern \"C\" {\n${declarations}}\n" @ONLY)
endfunction()
