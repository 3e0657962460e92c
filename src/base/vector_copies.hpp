// One copy of a hot function for each instruction set, picked at start by GCC's dispatch.
//
// The results are the same to the last bit as long as the function keeps the order of its sums and the room
// is compiled with -ffp-contract=off. Sanitizers do not work with the picking.
#pragma once

#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && !defined(__SANITIZE_ADDRESS__) && \
    !defined(__SANITIZE_THREAD__)
#define SOWTIDE_VECTOR_COPIES __attribute__((target_clones("default", "avx2", "avx512f")))
#else
#define SOWTIDE_VECTOR_COPIES
#endif
