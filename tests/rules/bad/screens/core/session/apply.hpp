// The fold over all events.
// Bad on purpose: tests/rules/run must find it.
#pragma once
