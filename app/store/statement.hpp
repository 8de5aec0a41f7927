// A prepared SQLite statement that finalises itself.
#pragma once

#include "core/base/result.hpp"

#include <cstdint>
#include <memory>
#include <sqlite3.h>
#include <string>

namespace qb::inline store {

// One statement. Binding positions count from 1, columns from 0, as SQLite has them.
class statement {
public:
  statement(sqlite3* db, const char* sql) {
    sqlite3_stmt* made = nullptr;
    code_ = sqlite3_prepare_v2(db, sql, -1, &made, nullptr);
    made_.reset(made);
  }
  [[nodiscard]] bool ok() const { return code_ == SQLITE_OK; }
  statement& bind(int at, const std::string& text) {
    if (ok())
      code_ = sqlite3_bind_text(made_.get(), at, text.data(), static_cast<int>(text.size()),
                                SQLITE_TRANSIENT);
    return *this;
  }
  statement& bind(int at, std::int64_t n) {
    if (ok()) code_ = sqlite3_bind_int64(made_.get(), at, n);
    return *this;
  }
  statement& bind_bytes(int at, const std::string& bytes) {
    if (ok())
      code_ = sqlite3_bind_blob(made_.get(), at, bytes.data(), static_cast<int>(bytes.size()),
                                SQLITE_TRANSIENT);
    return *this;
  }
  // SQLITE_ROW, SQLITE_DONE, or an error code.
  [[nodiscard]] int step() { return ok() ? sqlite3_step(made_.get()) : code_; }
  // Calls `f` after each step that gives a row; false where a step fails.
  template <typename F>
  [[nodiscard]] bool each_row(F&& f) {
    int code = step();
    for (; code == SQLITE_ROW; code = step())
      f();
    return code == SQLITE_DONE;
  }
  // To be bound and stepped anew; what it read is let go of.
  void again() {
    if (!made_) return; // it was never prepared, and stays so
    code_ = SQLITE_OK;
    sqlite3_reset(made_.get());
    sqlite3_clear_bindings(made_.get());
  }
  [[nodiscard]] std::string text(int column) const {
    const auto* bytes = sqlite3_column_text(made_.get(), column);
    const auto size = static_cast<std::size_t>(sqlite3_column_bytes(made_.get(), column));
    return bytes == nullptr ? std::string()
                            : std::string(reinterpret_cast<const char*>(bytes), size);
  }
  [[nodiscard]] std::string bytes(int column) const {
    const auto* bytes = static_cast<const char*>(sqlite3_column_blob(made_.get(), column));
    const auto size = static_cast<std::size_t>(sqlite3_column_bytes(made_.get(), column));
    return bytes == nullptr ? std::string() : std::string(bytes, size);
  }
  [[nodiscard]] int columns() const { return sqlite3_column_count(made_.get()); }
  [[nodiscard]] std::int64_t integer(int column) const {
    return sqlite3_column_int64(made_.get(), column);
  }

private:
  struct finalizer {
    void operator()(sqlite3_stmt* s) const { sqlite3_finalize(s); }
  };
  std::unique_ptr<sqlite3_stmt, finalizer> made_;
  int code_{SQLITE_OK};
};

// A statement that its connection keeps prepared, for one use: ready now, and let go of afterwards.
class kept_statement {
public:
  explicit kept_statement(statement& s) : s_(s) {}
  ~kept_statement() { s_.again(); }
  kept_statement(const kept_statement&) = delete;
  kept_statement& operator=(const kept_statement&) = delete;
  statement* operator->() { return &s_; }
  statement& operator*() { return s_; }

private:
  statement& s_;
};

// Runs statements that answer nothing; true when all went well.
[[nodiscard]] inline bool run_sql(sqlite3* db, const char* sql) {
  return sqlite3_exec(db, sql, nullptr, nullptr, nullptr) == SQLITE_OK;
}

} // namespace qb::inline store
