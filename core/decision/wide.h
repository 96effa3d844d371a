#pragma once

/// Before a function: made twice, for processors with wider registers and for any; the right one is taken
/// when the program starts. Both round alike. (Resolvers of such functions run before a sanitizer is ready.)
#if defined(__x86_64__) && defined(__gnu_linux__) && !defined(__SANITIZE_ADDRESS__) && !defined(__clang__)
#define SECONDPULL_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define SECONDPULL_WIDE
#endif
