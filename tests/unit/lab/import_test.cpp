// What an import takes, what it refuses, and what it says.
#include "app/lab/commands/commands.hpp"
#include "tests/unit/report/made_log.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sys/stat.h>
#include <unistd.h>

namespace qb::lab {

namespace {

namespace fs = std::filesystem;
using Catch::Contains;

// A folder of its own with a store in it, and what the program said.
class lab_context {
public:
  lab_context() : folder_(fs::temp_directory_path() / ("qb-import-" + std::to_string(::getpid()))) {
    fs::remove_all(folder_);
    fs::create_directories(folder_ / "post");
    shared_.store = (folder_ / "store.db").string();
    shared_.zones = london_only;
  }
  ~lab_context() {
    std::error_code none;
    fs::remove_all(folder_, none);
  }
  lab_context(const lab_context&) = delete;
  lab_context& operator=(const lab_context&) = delete;

  std::string put(const std::string& name, const std::string& bytes) {
    const fs::path path = folder_ / "post" / name;
    fs::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << bytes;
    return path.string();
  }
  [[nodiscard]] fs::path post() const { return folder_ / "post"; }
  [[nodiscard]] std::string store() const { return shared_.store; }

  int import(const std::vector<std::string>& paths, bool rehearsals = false) {
    out = err = "";
    return import_logs(shared_, {paths, rehearsals, false, nullptr, {}}, to());
  }
  int import_post() { return import({post().string()}); }
  std::string list() {
    out = err = "";
    REQUIRE(list_tests(shared_, to()) == 0);
    return out;
  }
  int show(const std::string& what, output_format format = output_format::text) {
    out = err = "";
    shared_.format = format;
    const int status = show_tests(shared_, what, to());
    shared_.format = output_format::text;
    return status;
  }

  std::string out;
  std::string err;

private:
  console to() {
    return {[this](const std::string& text) { out += text; },
            [this](const std::string& text) { err += text; }};
  }
  fs::path folder_;
  shared_options shared_;
};

// The end of an import's line, where no log came with a signature.
std::string without(int logs) {
  return "; signatures: 0 good, 0 not matching, " + std::to_string(logs) + " without\n";
}

std::string log_of_first(std::size_t count) {
  std::vector<event> events = make_events();
  events.resize(count);
  return write_log(events, "quarterbreath 0.1.0", "");
}

std::size_t lines(const std::string& text) {
  return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

} // namespace

TEST_CASE("a log is taken in once, however often it comes") {
  lab_context d;
  d.put("a.json", make_log());
  d.put("b.json", make_log());
  CHECK(d.import_post() == 0);
  CHECK(d.out == "1 new, 0 grown, 1 already there, 0 refused" + without(2));
  CHECK(d.import_post() == 0);
  CHECK(d.out == "0 new, 0 grown, 2 already there, 0 refused" + without(2));
  CHECK(lines(d.list()) == 3); // heads, rule, one test
}

TEST_CASE("the store is its owner's alone") {
  lab_context d;
  CHECK(d.import({d.put("a.json", make_log())}) == 0);
  struct stat about {};
  REQUIRE(::stat(d.store().c_str(), &about) == 0);
  CHECK((about.st_mode & 0777U) == 0600U);
}

TEST_CASE("a log that grew replaces the shorter one, and the shorter one cannot come back") {
  lab_context d;
  CHECK(d.import({d.put("a.json", log_of_first(make_events().size() - 12))}) == 0);
  CHECK(d.import({d.put("b.json", make_log())}) == 0);
  CHECK(d.out == "0 new, 1 grown, 0 already there, 0 refused" + without(1));
  CHECK(d.import({d.put("a.json", log_of_first(make_events().size() - 12))}) == 0);
  CHECK(d.out == "0 new, 0 grown, 1 already there, 0 refused" + without(1));
  CHECK_THAT(d.list(), Contains("10/10"));
}

TEST_CASE("a log that contradicts the kept one is set aside, and what differs is said") {
  lab_context d;
  CHECK(d.import({d.put("a.json", make_log())}) == 0);
  const std::string other = d.put("b.json", changed(make_log(), "a little wind", "no wind"));
  CHECK(d.import({other}) == 2);
  CHECK(lines(d.err) == 1);
  CHECK_THAT(d.err, Contains(other + ": event ") && Contains("(symptoms), data.comment: found "
                                                             "other words, expected words as in "
                                                             "the log kept for this test"));
  CHECK_THAT(d.err, !Contains("wind")); // a person's words stay out of messages
  CHECK_THAT(d.out, Contains("0 new, 0 grown, 0 already there, 0 refused; 1 set aside: not what "
                             "the log kept for its test says" +
                             without(1)));
  CHECK(d.import({other}) == 2); // the very same one is there once
  CHECK(d.show("FV-3001") == 0);
  CHECK_THAT(d.out, Contains("a little wind") && Contains("matches itself"));
  const auto said = d.out.find("another log of this test came and was set aside; event ");
  REQUIRE(said != std::string::npos);
  CHECK(d.out.find("another log of this test", said + 1) == std::string::npos);
  CHECK_THAT(d.out, !Contains("no wind"));
}

TEST_CASE("practice is refused unless it is asked for, and then marked wherever it is shown") {
  lab_context d;
  const std::string log = d.put("a.json", make_log({"t", "FV-1", true, std::chrono::seconds{0}}));
  CHECK(d.import({log}) == 2);
  CHECK_THAT(d.err, Contains("found practice"));
  CHECK(d.list() == "No tests.\n");
  CHECK(d.import({log}, true) == 0);
  CHECK_THAT(d.out, Contains("1 of them PRACTICE - not a test"));
  CHECK_THAT(d.list(), Contains("PRACTICE - not a test"));
  CHECK(d.show("FV-1") == 0);
  CHECK_THAT(d.out, Contains("PRACTICE - not a test"));
  CHECK(d.show("FV-1", output_format::json) == 0);
  CHECK_THAT(d.out, Contains("\"rehearsal\": true"));
}

TEST_CASE("practice with its mark taken off the head is still refused") {
  lab_context d;
  const std::string practice = make_log({"t", "FV-1", true, std::chrono::seconds{0}});
  CHECK(d.import({d.put("a.json", changed(practice, R"("rehearsal":true,"rules")",
                                          R"("rehearsal":false,"rules")"))}) == 2);
  CHECK(d.list() == "No tests.\n");
}

TEST_CASE("an edited log is taken in and says so in the list and in its report") {
  lab_context d;
  CHECK(d.import({d.put("a.json", changed(make_log(), "a little wind", "a lot of wind"))}) == 0);
  CHECK_THAT(d.list(), Contains("does not match itself"));
  CHECK(d.show("FV-3001") == 0);
  CHECK_THAT(d.out, Contains("DOES NOT MATCH ITSELF") &&
                        Contains("does not match its own record: from event "));
  CHECK(d.show("test-1", output_format::json) == 0);
  CHECK_THAT(d.out, Contains("\"matches_own_record\": false"));
}

TEST_CASE("bad files get one clear line each, and the good ones beside them are taken in") {
  lab_context d;
  const std::string whole = make_log();
  d.put("1-junk.json", "not json at all");
  d.put("2-binary.json", std::string("\x00\xFF\xFE\x01\x89PNG\r\n", 10));
  d.put("3-truncated.json", whole.substr(0, whole.size() / 2));
  d.put("4-newer.json", changed(whole, "\"version\":3,\"zone\"", "\"version\":4,\"zone\""));
  d.put("5-other.json", canonical_asset("protocols/glucose-75g.json"));
  d.put("6-empty.json", "");
  d.put("7-no-person.json", log_of_first(1));
  d.put("8-good.json", whole);
  d.put("9-deep.json", std::string(100000, '['));
  d.put("sub/good.json", make_log({"test-2", "FV-3002"}));
  d.put("readme.txt", "hello");
  CHECK(d.import_post() == 2);
  INFO(d.err);
  CHECK(lines(d.err) == 8);
  CHECK(d.out == "2 new, 0 grown, 0 already there, 8 refused; 1 other files passed "
                 "over" +
                     without(2));
  CHECK_THAT(d.err,
             Contains("4-newer.json: version: found version 4, expected version 3 or older"));
  CHECK_THAT(d.err, Contains("7-no-person.json: events: found no kit number"));
  CHECK_THAT(d.list(), Contains("FV-3001") && Contains("FV-3002"));
  CHECK(lines(d.list()) == 4);
}

TEST_CASE("messages hold nothing personal") {
  lab_context d;
  const std::string log = make_log();
  d.put("a.json", changed(log, "\"data\":{\"birth_date\":\"1948-05-17\"",
                          "\"data\":{\"birth_date\":\"17.5.1948\""));
  d.put("b.json", changed(log, "Laboratory\",\"name\":\"Odile Marchbank\"",
                          "Laboratory\",\"name\":[\"Odile Marchbank\"]"));
  CHECK(d.import_post() == 2);
  CHECK(lines(d.err) == 2);
  CHECK_THAT(d.err, !Contains("Odile") && !Contains("1948"));
}

TEST_CASE("nothing is followed and nothing is waited for") {
  lab_context d;
  fs::create_directories(d.post().parent_path() / "elsewhere");
  fs::create_directory_symlink(d.post().parent_path() / "elsewhere", d.post() / "link");
  REQUIRE(::mkfifo((d.post() / "pipe.json").c_str(), 0600) == 0);
  d.put("good.json", make_log());
  CHECK(d.import_post() == 2);
  CHECK(lines(d.err) == 2);
  CHECK_THAT(d.err, Contains("link: found a link to a folder"));
  CHECK_THAT(d.err, Contains("pipe.json: found a pipe or a device, expected a file"));
  CHECK(d.import({(d.post() / "link").string()}) == 2);
  CHECK(d.import({(d.post() / "absent.json").string()}) == 2);
  CHECK_THAT(d.err, Contains("absent.json: open: found No such file"));
}

TEST_CASE("a file of more than the limit is refused, not read") {
  lab_context d;
  const std::string big = d.put("big.json", "");
  fs::resize_file(big, json::most_bytes + 1);
  CHECK(d.import({big}) == 2);
  CHECK_THAT(d.err, Contains("big.json: found more bytes"));
}

TEST_CASE("a terminal is not moved by what stands in a log") {
  lab_context d;
  std::vector<event> events = make_events();
  // C1 control, right-to-left override: both valid UTF-8 and allowed in a text.
  std::get<reported_person>(events[1].what).name = "Od\xC2\x9B"
                                                   "31m\xE2\x80\xAE"
                                                   "ile";
  CHECK(d.import({d.put("a.json", write_log(events, "quarterbreath 0.1.0", ""))}) == 0);
  CHECK(d.show("FV-3001") == 0);
  CHECK_THAT(d.out, Contains("Od\\u009b31m\\u202eile"));
}

TEST_CASE("no line of a report is wider than the terminal") {
  lab_context d;
  made_test m;
  m.tube_4_late = std::chrono::seconds{4000};
  m.food_told = true;
  CHECK(d.import({d.put("a.json", make_log(m))}) == 0);
  CHECK(d.show("FV-3001") == 0);
  std::size_t from = 0;
  for (std::size_t end = d.out.find('\n'); end != std::string::npos;
       from = end + 1, end = d.out.find('\n', from))
    CHECK(end - from <= 100);
}

TEST_CASE("a kit that is not there is refused") {
  lab_context d;
  CHECK(d.import({d.put("a.json", make_log())}) == 0);
  CHECK(d.show("FV-0000") == 2);
  CHECK(d.out.empty());
  CHECK_THAT(d.err, Contains("no test of that kit number or id"));
}

TEST_CASE(
    "a test is shown with the program and the zone data that its log names, as it names them") {
  lab_context d;
  CHECK(d.import({d.put("a.json", write_log(make_events(), "quarterbreath 0.1.0", "2026f"))}) == 0);
  CHECK(d.show("FV-3001") == 0);
  CHECK_THAT(d.out,
             Contains("written by quarterbreath 0.1.0 with zone data 2026f; matches itself"));
  lab_context silent;
  CHECK(silent.import(
            {silent.put("a.json", write_log(make_events(), "quarterbreath 0.1.0", ""))}) == 0);
  CHECK(silent.show("FV-3001") == 0);
  CHECK_THAT(silent.out, Contains("written by quarterbreath 0.1.0; matches itself"));
}

} // namespace qb::lab
