# cmake -DPROJECT=FOLDER -DPLANTED=FOLDER -P layers_refused.cmake
# Plants forbidden includes in a copy of the layer table and checks that layers.cmake names each,
# and nothing else.
cmake_minimum_required(VERSION 3.25)

file(REMOVE_RECURSE "${PLANTED}")
file(COPY "${PROJECT}/generator/layers.txt" DESTINATION "${PLANTED}/generator")
file(WRITE "${PLANTED}/generator/engine/planted.cpp"
     "#include \"engine/planted.hpp\"\n#include <boost/units/quantity.hpp>\n#include <cmath>\n"
     "#include \"notation/unit.hpp\"\n#include <fmt/format.h>\n#include <unistd.h>\n"
     "#include \"planted.hpp\"\n")
file(WRITE "${PLANTED}/generator/render/planted.hpp"
     "#include \"quiz/question.hpp\"\n  #  include <cli11.hpp>\n#include \"bank/item.hpp\"\n")
file(WRITE "${PLANTED}/generator/extra/planted.hpp" "#pragma once\n")

execute_process(
  COMMAND "${CMAKE_COMMAND}" "-DPROJECT=${PLANTED}" -P "${CMAKE_CURRENT_LIST_DIR}/layers.cmake"
  RESULT_VARIABLE code ERROR_VARIABLE told)
if(code EQUAL 0)
  message(FATAL_ERROR "the planted includes were not refused")
endif()
foreach(expected
        "engine/planted.cpp: #include \"notation/unit.hpp\"" "engine/planted.cpp: #include <fmt/format.h>"
        "engine/planted.cpp: #include <unistd.h>" "engine/planted.cpp: #include \"planted.hpp\""
        "render/planted.hpp:   #  include <cli11.hpp>" "render/planted.hpp: #include \"bank/item.hpp\""
        "generator/extra: has no row")
  string(FIND "${told}" "${expected}" place)
  if(place EQUAL -1)
    message(FATAL_ERROR "not refused: ${expected}\n${told}")
  endif()
endforeach()
foreach(fine "engine/planted.hpp" "boost/units" "<cmath>" "quiz/question.hpp")
  string(FIND "${told}" "${fine}" place)
  if(NOT place EQUAL -1)
    message(FATAL_ERROR "refused by mistake: ${fine}\n${told}")
  endif()
endforeach()
