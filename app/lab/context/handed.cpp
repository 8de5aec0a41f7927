// Marks in and out of the store.
#include "app/lab/context/handed.hpp"

#include "app/lab/context/lab_context.hpp"
#include "core/record/codec.hpp"

namespace qb::lab {

std::string mark_of(const std::string& bytes) {
  return sha256_hex(bytes);
}

namespace {

// A test is the same whatever its kit number was put right to.
std::pair<std::string, std::string> key_of(const std::string& kit, const std::string& test) {
  return {test.empty() ? kit : std::string(), test};
}

} // namespace

handed_marks::handed_marks(const std::vector<handed_row>& rows) {
  for (const handed_row& r : rows)
    last_[key_of(r.kit, r.test)] = r.of;
}

bool handed_marks::has(const handed_mark& mark) const {
  const auto at = last_.find(key_of(mark.kit, mark.test));
  return at != last_.end() && at->second == mark.of;
}

result<handed_marks> load_handed(const std::string& store, const std::string& what) {
  const auto db = laboratory_store::open(store);
  if (!db) return tl::unexpected(db.error());
  const auto rows = db->handed(what);
  if (!rows) return tl::unexpected(rows.error());
  return handed_marks(*rows);
}

result<void> keep_handed(const std::string& store, const std::string& what,
                         const std::vector<handed_mark>& marks, const std::string& by) {
  std::vector<handed_row> rows;
  for (const handed_mark& m : marks)
    rows.push_back({m.kit, m.test, what, m.of, by, clock_moment()});
  auto db = laboratory_store::open(store);
  if (!db) return tl::unexpected(db.error());
  return db->put(rows);
}

} // namespace qb::lab
