// A store that knows more than rows of text.
// Bad on purpose: tests/rules/run must find it.
#include "core/session/state.hpp"
