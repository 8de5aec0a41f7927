// A session, which may use time through plan.
// Bad on purpose: tests/rules/run must find it.
#pragma once
#include "core/time/instant.hpp"
