// A promise in the code.
// Bad on purpose: tests/rules/run must find it.
// TO@@DO later
