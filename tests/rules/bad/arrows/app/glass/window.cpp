// A window that looks at what stands on it.
// Bad on purpose: tests/rules/run must find it.
#include "app/patient/shell/frame.hpp"
