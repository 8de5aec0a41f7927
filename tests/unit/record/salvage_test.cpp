// A damaged record read again: what the chain of hashes proves is kept, the rest keeps its place,
// and nothing doubtful is taken for a fact.
#include "core/record/salvage.hpp"

#include "core/record/codec.hpp"
#include "tests/support/scripted_test.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

const std::vector<event>& whole_test() {
  static const std::vector<event> all = [] {
    patient p;
    p.through_the_drink();
    p.sample(2);
    p.sample(3);
    return p.e.events();
  }();
  return all;
}

std::vector<found_row> rows_of(const std::vector<event>& events) {
  std::vector<found_row> out;
  std::string head = chain_start();
  for (const event& e : events) {
    std::string body = json::canonical(encode_event(e));
    head = chain_next(head, body);
    out.push_back({e.seq, std::move(body), head});
  }
  return out;
}

std::int64_t last_of(const std::vector<found_row>& rows) {
  return static_cast<std::int64_t>(rows.size());
}

const record_salvaged& told(const salvaged_record& r) {
  return std::get<record_salvaged>(r.events.back().what);
}

std::size_t places_lost(const salvaged_record& r) {
  return all_of<entry_lost>(r.events).size();
}

// The row of the first event of that kind, and its place in the list.
template <typename Fact>
std::size_t place_of(const std::vector<event>& events) {
  const auto is_it = [](const event& e) { return std::holds_alternative<Fact>(e.what); };
  return static_cast<std::size_t>(std::find_if(events.begin(), events.end(), is_it) -
                                  events.begin());
}

} // namespace

TEST_CASE("a record that is whole is read whole, and says that nothing is lost") {
  auto rows = rows_of(whole_test());
  std::reverse(rows.begin(), rows.end()); // found in any order
  const auto r = salvage(rows, {}, last_of(rows), {"ask-milk-allergy"});
  REQUIRE(r.events.size() == whole_test().size() + 1);
  CHECK(r.lost == 0);
  CHECK(told(r).complete);
  CHECK(told(r).ask_again == std::vector<std::string>{"ask-milk-allergy"});
  CHECK(json::canonical(encode_event(r.events[4])) ==
        json::canonical(encode_event(whole_test()[4])));
}

TEST_CASE("where the file does not say which row was its last, the end may be missing") {
  auto rows = rows_of(whole_test());
  CHECK_FALSE(told(salvage(rows, {}, std::nullopt, {})).complete);
  const auto said = last_of(rows);
  rows.pop_back();
  CHECK_FALSE(told(salvage(rows, {}, said, {})).complete);
}

TEST_CASE("one wrong byte in any place of a row is put right by its hash") {
  const auto rows = rows_of(whole_test());
  const std::size_t at = place_of<drink_started>(whole_test());
  for (std::size_t byte = 0; byte < rows[at].body.size(); byte += 7) {
    auto damaged = rows;
    damaged[at].body[byte] = static_cast<char>(damaged[at].body[byte] ^ 0x11);
    const auto r = salvage(damaged, {}, last_of(rows), {});
    INFO("byte " << byte);
    CHECK(r.lost == 0);
    CHECK(told(r).complete);
  }
}

TEST_CASE("a hash that was damaged costs nothing: its row is proved by all that is left of it") {
  const auto rows = rows_of(whole_test());
  for (const std::size_t at : {std::size_t{3}, rows.size() - 1}) {
    auto damaged = rows;
    damaged[at].hash.replace(5, 3, "***");
    CHECK(salvage(damaged, {}, last_of(rows), {}).lost == 0);
  }
}

TEST_CASE("two wrong bytes lose the row, whose place is kept; those behind it are proved") {
  const auto rows = rows_of(whole_test());
  const std::size_t at = place_of<drink_started>(whole_test()) - 2;
  auto damaged = rows;
  damaged[at].body.replace(20, 2, "##");
  const auto r = salvage(damaged, {}, last_of(rows), {});
  CHECK(r.lost == 1);
  CHECK(places_lost(r) == 1);
  CHECK_FALSE(told(r).complete);
  REQUIRE(r.events.size() == rows.size() + 1);
  CHECK(std::holds_alternative<entry_lost>(r.events[at].what));
  CHECK(r.events[at].at.wall == r.events[at - 1].at.wall);
  for (std::size_t i = 0; i < r.events.size(); ++i)
    CHECK(r.events[i].seq == static_cast<std::int64_t>(i) + 1);
  CHECK(fold_events(r.events).drink_start);
}

TEST_CASE("a row of which nothing was found takes the next with it: nobody vouches for that one") {
  auto rows = rows_of(whole_test());
  const auto last = last_of(rows);
  rows.erase(rows.begin() + 4);
  const auto r = salvage(rows, {}, last, {});
  CHECK(r.lost == 2);
  CHECK(std::holds_alternative<entry_lost>(r.events[4].what));
  CHECK(std::holds_alternative<entry_lost>(r.events[5].what));
}

TEST_CASE(
    "a sealed row needs nobody to vouch for it behind one that is lost, whatever that one says") {
  auto rows = rows_of(whole_test());
  for (found_row& row : rows)
    row.sealed = true;
  const auto last = last_of(rows);
  for (const char* hash :
       {"", "not a hash", "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"}) {
    auto damaged = rows;
    damaged[4] = {damaged[4].number, "no event", hash};
    const auto r = salvage(damaged, {}, last, {});
    INFO("hash " << hash);
    CHECK(r.lost == 1);
    CHECK(std::holds_alternative<entry_lost>(r.events[4].what));
  }
  rows.erase(rows.begin() + 4);
  CHECK(salvage(rows, {}, last, {}).lost == 1);
}

TEST_CASE(
    "a sealed row that does not fit what is proved before it was taken back, and is nothing") {
  auto rows = rows_of(whole_test());
  for (found_row& row : rows)
    row.sealed = true;
  rows[4].hash = std::string(64, 'a'); // as of another line
  const auto r = salvage(rows, {}, last_of(rows), {});
  CHECK(std::holds_alternative<entry_lost>(r.events[4].what));
}

TEST_CASE("an answer that was made another is not taken for one") {
  const auto rows = rows_of(whole_test());
  auto forged = rows;
  const std::size_t at = place_of<reported_caution>(whole_test());
  const std::string no = "\"answer\":\"no\"";
  const std::size_t where = forged[at].body.find(no);
  REQUIRE(where != std::string::npos);
  forged[at].body.replace(where, no.size(), "\"answer\":\"yes\"");
  const auto r = salvage(forged, {}, last_of(rows), {});
  CHECK(std::holds_alternative<entry_lost>(r.events[at].what));
}

TEST_CASE("a row that says another number than its place is lost, though its hash is right") {
  auto events = whole_test();
  events[4].seq = 40;
  auto rows = rows_of(events);
  rows[4].number = 5;
  rows[4].body[0] = 'x'; // it is mended by its hash, and only then says its number
  const auto r = salvage(rows, {}, last_of(rows), {});
  REQUIRE(r.events.size() > 5);
  CHECK(std::holds_alternative<entry_lost>(r.events[4].what));
  for (std::size_t i = 0; i < r.events.size(); ++i)
    CHECK(r.events[i].seq == static_cast<std::int64_t>(i) + 1);
}

TEST_CASE("rows behind the last that is proved were there, and are lost") {
  auto rows = rows_of(whole_test());
  rows.back().body.replace(20, 2, "##");
  const auto r = salvage(rows, {}, std::nullopt, {});
  CHECK(r.lost == 1);
  CHECK(r.events.size() == rows.size() + 1);
}

TEST_CASE("noise is nothing, however much of it there is") {
  CHECK(salvage({}, {}, std::nullopt, {}).events.empty());
  std::vector<found_row> noise;
  for (int n = 1; n <= 500; ++n)
    noise.push_back({n, std::string(300, 'x'), std::string(64, 'a')});
  noise.push_back({1000000000, "y", std::string(64, 'b')});
  CHECK(salvage(noise, {}, std::nullopt, {}).events.empty());
}

TEST_CASE("the rows without which no due time is known are kept twice, and fill what is lost") {
  const auto kept = key_rows(whole_test());
  CHECK(kept.size() == 4); // opened, plan, tube 1, drink
  const auto text = key_rows_text(kept);
  const auto trusted = read_key_rows(text);
  REQUIRE(trusted.size() == kept.size());
  const auto r = salvage({}, trusted, std::nullopt, {});
  const state s = fold_events(r.events);
  CHECK(s.planned);
  CHECK(s.drink_start);
  const state whole = fold_events(whole_test());
  const clock_reading now = whole_test().back().at;
  for (int n = 4; n <= 10; ++n)
    CHECK(due_on_wall(s, sample_number(n), now) == due_on_wall(whole, sample_number(n), now));
  CHECK(text.find(invented_person().name) == std::string::npos);
}

TEST_CASE("rows kept twice with any byte wrong are not read at all") {
  const auto text = key_rows_text(key_rows(whole_test()));
  for (std::size_t i = 0; i < text.size(); i += 97) {
    std::string damaged = text;
    damaged[i] = static_cast<char>(damaged[i] ^ 0x01);
    CHECK(read_key_rows(damaged).empty());
  }
  CHECK(read_key_rows(text.substr(0, text.size() / 2)).empty());
  CHECK(read_key_rows("").empty());
}

TEST_CASE("what no due time is known without is kept twice, however it was told, and no more") {
  const auto is_key = [](const payload& what) { return is_key_event({1, {}, what}); };
  const sample_number first(1);
  const sample_number second(2);
  for (const payload& what :
       {payload(opened{}), payload(plan_made{}), payload(plan_called_off{}),
        payload(drink_started{}), payload(reported_drink{}), payload(test_ended{}),
        payload(tube_closed{first}), payload(reported_breath{first, {}, how_known::told})})
    CHECK(is_key(what));
  for (const payload& what :
       {payload(invented_person()), payload(reported_comment{"words"}), payload(drink_ended{}),
        payload(tube_closed{second}), payload(reported_breath{second, {}, how_known::told}),
        payload(reported_caution{"ask-diabetes", caution_answer::no, asked_outcome::not_asked, "",
                                 ""})})
    CHECK_FALSE(is_key(what));
}

TEST_CASE("rows kept twice of another form, whose sum is right, are not read") {
  const auto summed = [](const std::string& lines) { return lines + sha256_hex(lines) + "\n"; };
  const std::string text = key_rows_text(key_rows(whole_test()));
  const std::string lines = text.substr(0, text.size() - chain_start().size() - 1);
  REQUIRE(read_key_rows(summed(lines)).size() == 4);
  std::string newer = lines;
  newer.replace(newer.find(" 1\n"), 3, " 2\n");
  CHECK(read_key_rows(summed(newer)).empty());
  CHECK(read_key_rows(summed(lines + "noblank\n")).empty());
}
