// A header that nothing includes.
// Bad on purpose: tests/rules/run must find it.
#pragma once
