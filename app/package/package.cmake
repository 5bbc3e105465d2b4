# What is installed, and the Debian package made of it:  cmake --preset package && cmake --build --preset package &&
# cpack --preset deb.  The help and the drawings are compiled into the program.
include(GNUInstallDirs)
set(package_files ${PROJECT_SOURCE_DIR}/app/package)
install(TARGETS interlude RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(DIRECTORY ${PROJECT_SOURCE_DIR}/sample-fleet DESTINATION ${CMAKE_INSTALL_DATADIR}/interlude)
install(FILES ${package_files}/interlude.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
install(FILES ${package_files}/interlude.xml DESTINATION ${CMAKE_INSTALL_DATADIR}/mime/packages)
install(FILES ${PROJECT_SOURCE_DIR}/resources/marks/interlude.svg
  DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps)
install(FILES ${PROJECT_SOURCE_DIR}/README.md DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR} RENAME copyright)
# Debian wants manual pages compressed; -n leaves the time out, so that the same tree gives the same package.
find_program(gzip_program gzip REQUIRED)
set(manual ${CMAKE_CURRENT_BINARY_DIR}/interlude.1.gz)
add_custom_command(OUTPUT ${manual} COMMAND ${gzip_program} -9nc ${package_files}/interlude.1 > ${manual}
  DEPENDS ${package_files}/interlude.1 VERBATIM)
add_custom_target(manual ALL DEPENDS ${manual})
install(FILES ${manual} DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME interlude)
set(CPACK_PACKAGE_CONTACT "The Interlude team <interlude@example.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "workbench for changeovers on heated-chamber printers")
set(CPACK_PACKAGE_DESCRIPTION "Plans which job goes on which printer, guides a technician through nozzle and material
changeovers with live countdowns, and prints the record for the lab binder.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION misc)
# Libraries are found by dpkg-shlibdeps; what Qt loads at run time, type faces and time zones must be named.
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "libqt6sql6-sqlite, libqt6svg6, qt6-qpa-plugins, fonts-inter, fonts-dejavu-core, tzdata")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "qt6-wayland, desktop-file-utils, shared-mime-info")
include(CPack)
