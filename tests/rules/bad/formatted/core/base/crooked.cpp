// Code as nobody formats it.
// Bad on purpose: tests/rules/run must find it.

constexpr   int answer=1;
