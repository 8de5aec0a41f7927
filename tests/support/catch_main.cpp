// The main function of every test program built on Catch2.
// Kept apart because compiling it takes seconds and it never changes.
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
