// A window that others may not look at.
// Bad on purpose: tests/rules/run must find it.
#pragma once
