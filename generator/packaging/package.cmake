# How CPack makes footroom_VERSION_ARCHITECTURE.deb; generator/packaging/make-package runs it.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME footroom)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_VENDOR "Footroom contributors")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_MAINTAINER "Footroom contributors <footroom@example.invalid>")
set(CPACK_DEBIAN_PACKAGE_SECTION education)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "fall-protection quizzes with worked keys, for roof work")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION
"Writes a quiz on fall protection for people who work on roofs: a different
sheet for each seat, and for each sheet a key that is worked out by one
calculation engine, with every step and the source of every limit. Grades
the answers, tells how each question did over many classes, and keeps
training records. In English and Spanish, US and SI units.
.
A training aid, not a design: on a real roof, follow the manufacturer's
instructions, local codes, and a competent or qualified person.")
set(CPACK_PRE_BUILD_SCRIPTS ${CMAKE_CURRENT_LIST_DIR}/finish.cmake)
set(CPACK_FOOTROOM_FOLDER ${CMAKE_CURRENT_LIST_DIR})
include(CPack)
