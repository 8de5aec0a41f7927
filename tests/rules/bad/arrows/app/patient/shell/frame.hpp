// The frame loop.
// Bad on purpose: tests/rules/run must find it.
#pragma once
