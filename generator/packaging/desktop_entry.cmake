# Installs the desktop entry with the program's whole path: the PATH of a desktop's session may not
# have the folder that the program was installed into. ENTRY, BINARIES and DATA are set before.
set(program "${CMAKE_INSTALL_PREFIX}/${BINARIES}/footroom")
if(program MATCHES "[^A-Za-z0-9/._+-]")
  # As the Desktop Entry Specification wants it: quoted, then escaped once more as a text.
  string(REGEX REPLACE "([\"`$\\\\])" "\\\\\\1" program "${program}")
  string(REPLACE "\\" "\\\\" program "${program}")
  set(program "\"${program}\"")
endif()
file(READ "${ENTRY}" text)
string(REPLACE "Exec=footroom " "Exec=${program} " text "${text}")
set(installed "${CMAKE_INSTALL_PREFIX}/${DATA}/applications/footroom.desktop")
message(STATUS "Installing: $ENV{DESTDIR}${installed}")
file(WRITE "$ENV{DESTDIR}${installed}" "${text}")
list(APPEND CMAKE_INSTALL_MANIFEST_FILES "${installed}")
