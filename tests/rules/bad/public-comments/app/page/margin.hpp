// A header of app is a contract too.
// Bad on purpose: tests/rules/run must find it.
#pragma once

namespace qb::page {

// Of an A4 page, in points.
double left_margin();

double right_margin();

} // namespace qb::page
