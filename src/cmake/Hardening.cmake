# SPDX-License-Identifier: MIT
# Flags that make a defect of ours, or of what we link, harder to turn against the gardener. Checked
# on the installed program by tests/package/hardening.sh. Debug builds go without: they are for
# developers, and fortification needs optimisation.
include(CheckCXXCompilerFlag)
include(CheckLinkerFlag)

function(trug_add_hardening target)
  if(CMAKE_BUILD_TYPE STREQUAL "Debug")
    return()
  endif()
  foreach(flag -fstack-protector-strong -fstack-clash-protection -fcf-protection)
    string(MAKE_C_IDENTIFIER "TRUG_HAS${flag}" has)
    check_cxx_compiler_flag(${flag} ${has})  # -fcf-protection is for x86 alone
    if(${has})
      target_compile_options(${target} INTERFACE ${flag})
    endif()
  endforeach()
  if(NOT TRUG_SANITIZE)  # the sanitizers do this themselves, and better
    target_compile_options(${target} INTERFACE -U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=2)
  endif()
  set(type $<TARGET_PROPERTY:TYPE>)
  target_compile_options(${target} INTERFACE
    $<$<NOT:$<STREQUAL:${type},SHARED_LIBRARY>>:-fPIE>)
  target_link_options(${target} INTERFACE $<$<STREQUAL:${type},EXECUTABLE>:-pie>)
  foreach(flag -Wl,-z,relro -Wl,-z,now -Wl,-z,noexecstack)
    string(MAKE_C_IDENTIFIER "TRUG_LINKS${flag}" has)
    check_linker_flag(CXX ${flag} ${has})
    if(${has})
      target_link_options(${target} INTERFACE ${flag})
    endif()
  endforeach()
endfunction()
