# Writes OUT, which tells the commit that SOURCES stand at. A repository around a copy without one
# says nothing about it.
set(commit "")
execute_process(COMMAND git -C ${SOURCES} rev-parse --show-toplevel --short=12 HEAD
  OUTPUT_VARIABLE told ERROR_QUIET OUTPUT_STRIP_TRAILING_WHITESPACE)
string(REGEX MATCH "^(.*)\n([0-9a-f]+)$" parts "${told}")
if(parts)
  file(REAL_PATH "${CMAKE_MATCH_1}" top)
  set(digits ${CMAKE_MATCH_2})
  file(REAL_PATH "${SOURCES}" here)
  if(top STREQUAL here)
    set(commit ${digits})
  endif()
endif()
file(CONFIGURE OUTPUT ${OUT} CONTENT [=[
#include "cli/commit.hpp"

namespace norma::cli {

std::string_view commit() { return "@commit@"; }

} // namespace norma::cli
]=] @ONLY)
