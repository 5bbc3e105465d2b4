# The preset `fuzz`: the model and the fuzz targets alone, with clang's libFuzzer, AddressSanitizer and UBSan. Included by
# the CMakeLists.txt of the tree once the model is known. GCC judges the warnings.
target_compile_options(interlude_flags INTERFACE -w -fsanitize=fuzzer-no-link,address,undefined
  -fno-sanitize-recover=undefined -fno-omit-frame-pointer)
target_link_options(interlude_flags INTERFACE -fsanitize=address,undefined)

file(GLOB fuzz_targets CONFIGURE_DEPENDS tests/fuzz/*_target.cpp)
foreach(file ${fuzz_targets})
  get_filename_component(name ${file} NAME_WE)
  string(REGEX REPLACE "_target$" "" name ${name})
  add_executable(fuzz_${name} ${file})
  target_link_libraries(fuzz_${name} PRIVATE interlude_model)
  target_link_options(fuzz_${name} PRIVATE -fsanitize=fuzzer)
  target_compile_definitions(fuzz_${name} PRIVATE INTERLUDE_FUZZING INTERLUDE_SOURCE_DIR="${PROJECT_SOURCE_DIR}")
endforeach()
# The words of the command line are read without Qt's windows.
target_sources(fuzz_command_line PRIVATE app/call.cpp)
