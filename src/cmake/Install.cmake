# SPDX-License-Identifier: MIT
# cmake --install: program, manual page, completions, user unit, examples, licences.
include(GNUInstallDirs)

set(documents ${CMAKE_BINARY_DIR}/documents)
install(TARGETS trug RUNTIME)
install(TARGETS trug-feed RUNTIME DESTINATION libexec/trug)
install(FILES ${documents}/trug.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${documents}/trug.bash DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions RENAME trug)
install(FILES ${documents}/trug.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
install(DIRECTORY ${PROJECT_SOURCE_DIR}/examples/ DESTINATION ${CMAKE_INSTALL_DOCDIR}/examples
  FILES_MATCHING PATTERN *.toml PATTERN *.svg PATTERN *.conf PATTERN *.service PATTERN update.sh)
install(FILES ${PROJECT_SOURCE_DIR}/src/packaging/copyright ${PROJECT_SOURCE_DIR}/README.md
              ${documents}/changelog.gz
  DESTINATION ${CMAKE_INSTALL_DOCDIR})

# Where it is installed is known only then. The unit names the program there, and lies where the
# system looks for units: under a home folder in share, elsewhere in lib. Debian keeps the zsh
# completions of its packages apart.
install(CODE "
  set(documents \"${documents}\")
  set(unit_source \"${PROJECT_SOURCE_DIR}/examples/trug-feed.service\")
  set(program \"\${CMAKE_INSTALL_PREFIX}/${CMAKE_INSTALL_BINDIR}/trug\")
")
install(CODE [[
  set(unit_folder share/systemd/user)
  set(zsh_folder share/zsh/site-functions)
  if("${CMAKE_INSTALL_PREFIX}" MATCHES "^(/usr|/usr/local|/opt/.*)$")
    set(unit_folder lib/systemd/user)
  endif()
  if("${CMAKE_INSTALL_PREFIX}" STREQUAL "/usr")
    set(zsh_folder share/zsh/vendor-completions)
  endif()
  file(READ "${unit_source}" unit)
  string(REPLACE "%h/.local/bin/trug" "${program}" unit "${unit}")
  file(WRITE "${documents}/trug-feed.service" "${unit}")
  file(INSTALL "${documents}/trug-feed.service"
    DESTINATION "${CMAKE_INSTALL_PREFIX}/${unit_folder}")
  file(INSTALL "${documents}/_trug" DESTINATION "${CMAKE_INSTALL_PREFIX}/${zsh_folder}")
]])

add_custom_target(uninstall
  COMMAND ${CMAKE_COMMAND} -DMANIFEST=${CMAKE_BINARY_DIR}/install_manifest.txt
          -P ${PROJECT_SOURCE_DIR}/src/cmake/uninstall.cmake
  VERBATIM)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME trug)
set(CPACK_PACKAGE_VENDOR trug)
set(CPACK_PACKAGE_CONTACT "the trug developers <trug@example.org>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "year's jobs of a cut-flower bed, as a calendar")
set(CPACK_PACKAGE_DESCRIPTION "\
trug reckons when to sow, plant out, pinch, support, cut and lift the crops
of a cut-flower bed from the bed as it lies, the frost dates and the vases
that are wanted, and writes them as an iCalendar file that moves its jobs
when the frosts or the wishes change.")
# The scripts above see the folder in which the package will lie.
set(CPACK_SET_DESTDIR ON)
set(CPACK_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION misc)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_GENERATE_SHLIBS OFF)
set(CPACK_DEBIAN_COMPRESSION_TYPE xz)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS
  OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
include(CPack)
