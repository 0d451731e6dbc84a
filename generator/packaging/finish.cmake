# Makes of an installed tree what Debian expects in a package.
cmake_minimum_required(VERSION 3.25)

set(share ${CPACK_TEMPORARY_INSTALL_DIRECTORY}/usr/share)
set(doc ${share}/doc/footroom)

function(compress file)
  # -n: no name and no time, so that the same tree gives the same bytes
  execute_process(COMMAND gzip -9nf ${file} COMMAND_ERROR_IS_FATAL ANY)
endfunction()

compress(${share}/man/man1/footroom.1)
configure_file(${CPACK_FOOTROOM_FOLDER}/changelog ${doc}/changelog COPYONLY)
compress(${doc}/changelog)

# In /usr, which every session's PATH has; the installed entry names a folder of this build.
configure_file(${CPACK_FOOTROOM_FOLDER}/../../templates/desk/footroom.desktop
               ${share}/applications/footroom.desktop COPYONLY)

# Where Debian's zsh looks for what packages bring.
file(RENAME ${share}/zsh/site-functions ${share}/zsh/vendor-completions)

# The libraries that are compiled in from headers and ask for their notice in a binary too. Boost,
# fmt and mustache do not.
file(READ ${doc}/LICENSE copyright)
file(REMOVE ${doc}/LICENSE)
string(APPEND copyright "
The program holds code from the headers of the libraries below. What follows is what Debian says
about each.
")
foreach(package IN ITEMS libcli11-dev libfast-float-dev librandom123-dev nlohmann-json3-dev)
  file(READ /usr/share/doc/${package}/copyright notice)
  string(APPEND copyright "\n==== ${package} ====\n\n${notice}")
endforeach()
file(READ ${share}/footroom/page/notices.txt notice)
string(APPEND copyright "\n==== the practice page ====\n\n${notice}")
file(WRITE ${doc}/copyright "${copyright}")
