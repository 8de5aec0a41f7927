// A folder that the design does not have.
// Bad on purpose: tests/rules/run must find it.
