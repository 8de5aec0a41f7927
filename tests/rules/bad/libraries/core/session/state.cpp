// A session that knows its database.
// Bad on purpose: tests/rules/run must find it.
#include <sqlite3.h>
