// Where time would begin.
// Bad on purpose: tests/rules/run must find it.
#pragma once
