// Core that opens a database by itself.
// Bad on purpose: tests/rules/run must find it.
#include <string>

struct sqlite3;
extern "C" int sqlite3_open(const char*, sqlite3**);

namespace qb::inline records {

void open_rows(const std::string& path, sqlite3** db) {
  sqlite3_open(path.c_str(), db);
}

} // namespace qb::inline records
