// The seam to the clocks.
// Bad on purpose: tests/rules/run must find it.
#pragma once
