// One of 25 ideas in a folder.
#include "tests/enough/idea_01.hpp"
