// A journal of version 1, as programs wrote it before rows were sealed: what is on devices still.
#pragma once

#include "app/store/journal_file.hpp"
#include "app/store/statement.hpp"

#include <string>
#include <vector>

namespace qb::test {

// Makes the file at `path` with those rows and one draft; no key lies beside it.
inline void write_unsealed_journal(const std::string& path, const std::vector<event_row>& rows,
                                   const std::string& name = "Maren Oakhollow") {
  sqlite3* db = nullptr;
  QB_BELIEVE(sqlite3_open(path.c_str(), &db) == SQLITE_OK);
  QB_BELIEVE(run_sql(db, "BEGIN;"
                         "CREATE TABLE meta(key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;"
                         "CREATE TABLE event(seq INTEGER PRIMARY KEY, body TEXT NOT NULL,"
                         " hash TEXT NOT NULL) STRICT;"
                         "CREATE TABLE draft(key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;"
                         "INSERT INTO meta VALUES('format','quarterbreath-journal'),"
                         "('version','1')"));
  {
    statement put(db, "INSERT INTO event VALUES(?1,?2,?3)");
    for (const event_row& row : rows) {
      put.bind(1, row.seq).bind(2, row.body).bind(3, row.hash);
      QB_BELIEVE(put.step() == SQLITE_DONE);
      put.again();
    }
    statement draft(db, "INSERT INTO draft VALUES('who.name',?1)");
    draft.bind(1, name);
    QB_BELIEVE(draft.step() == SQLITE_DONE);
  }
  QB_BELIEVE(run_sql(db, "COMMIT"));
  sqlite3_close(db);
}

} // namespace qb::test
