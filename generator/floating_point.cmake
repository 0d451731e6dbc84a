# Same input, same bytes: no fused multiply-add, no excess precision, no fast mathematics.
# FOOTROOM_FP_CONTRACT=fast lets the compiler fuse, to try whether a last bit changes a sheet.
include(CheckCXXSourceCompiles)
set(FOOTROOM_FP_CONTRACT off CACHE STRING "what a compiler may fuse: off, or fast for a test")
add_compile_options(-ffp-contract=${FOOTROOM_FP_CONTRACT})
# 32-bit x86 works in 80 bits and rounds when it stores, unless SSE2 is asked for.
check_cxx_source_compiles("#include <cfloat>
  static_assert(FLT_EVAL_METHOD == 0);
  int main() {}" FOOTROOM_NO_EXCESS_PRECISION)
if(NOT FOOTROOM_NO_EXCESS_PRECISION)
  add_compile_options(-msse2 -mfpmath=sse)
endif()
