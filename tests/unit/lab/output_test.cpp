// Where a command writes its files, and what is never written over.
#include "app/lab/context/output.hpp"

#include "tests/unit/lab/laboratory.hpp"

#include <csignal>
#include <sys/resource.h>
#include <sys/stat.h>

namespace qb::lab {

using Catch::Matchers::Contains;

namespace {

namespace fs = std::filesystem;

// A folder of its own with a file for the store.
class own_folder {
public:
  own_folder() : path_(fs::temp_directory_path() / ("qb-output-" + std::to_string(::getpid()))) {
    fs::remove_all(path_);
    fs::create_directories(path_);
    put("store.db", "SQLite format 3");
  }
  ~own_folder() {
    std::error_code none;
    fs::remove_all(path_, none);
  }
  own_folder(const own_folder&) = delete;
  own_folder& operator=(const own_folder&) = delete;

  [[nodiscard]] std::string at(const std::string& name) const { return path_ / name; }
  std::string put(const std::string& name, const std::string& bytes) const {
    std::ofstream(at(name), std::ios::binary) << bytes;
    return at(name);
  }
  [[nodiscard]] std::string bytes(const std::string& name) const {
    std::ifstream in(at(name), std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  [[nodiscard]] std::ptrdiff_t entries() const {
    return std::distance(fs::directory_iterator(path_), {});
  }
  // What is said of writing a table there; empty where it was written.
  [[nodiscard]] std::string write(const std::string& path, bool replace = false,
                                  found_output state = found_output::plain) const {
    const auto done = write_outputs({{path, "test,tube,tests,due,x\r\n", state}},
                                    {at("store.db"), {at("input.csv")}, replace});
    return done ? std::string() : done.error().found;
  }

private:
  fs::path path_;
};

} // namespace

TEST_CASE("a new file is written, one of ours is written again, another's only if that is said") {
  const own_folder f;
  CHECK(f.write(f.at("a.csv")).empty());
  CHECK(f.write(f.at("a.csv")).empty());
  f.put("letter.txt", "Dear Sir");
  CHECK(f.write(f.at("letter.txt")) == "a file that this program did not write");
  CHECK(f.bytes("letter.txt") == "Dear Sir");
  CHECK(f.write(f.at("letter.txt"), true).empty());
  CHECK_THAT(f.bytes("letter.txt"), Contains("test,tube"));
  CHECK(f.entries() == 3);
  CHECK((fs::status(f.at("a.csv")).permissions() & fs::perms::all) ==
        (fs::perms::owner_read | fs::perms::owner_write));
}

TEST_CASE("the store is never written over, by whatever name it is called") {
  const own_folder f;
  fs::create_directories(f.at("sub"));
  fs::create_directory_symlink(f.at("sub"), f.at("linked"));
  fs::create_hard_link(f.at("store.db"), f.at("second.pdf"));
  for (const std::string& path :
       {f.at("store.db"), f.at("sub/../store.db"), f.at("linked/../store.db"), f.at("second.pdf"),
        f.at("./store.db"), f.at("store.db-journal"), f.at("store.db-wal")}) {
    INFO(path);
    CHECK(f.write(path, true) == "the store");
  }
  CHECK(f.bytes("store.db") == "SQLite format 3");
}

TEST_CASE("a link, a folder, a pipe and a device are refused, and what they lead to stays") {
  const own_folder f;
  f.put("target", "");
  fs::create_symlink(f.at("target"), f.at("link"));
  fs::create_symlink(f.at("nowhere"), f.at("dangling"));
  fs::create_directories(f.at("folder"));
  REQUIRE(::mkfifo(f.at("pipe").c_str(), 0600) == 0);
  CHECK(f.write(f.at("link"), true) == "a link");
  CHECK(f.write(f.at("dangling"), true) == "a link");
  CHECK(f.write(f.at("folder"), true) == "a folder");
  CHECK(f.write(f.at("pipe"), true) == "a pipe or a device");
  CHECK(f.write("/dev/full", true) == "a pipe or a device");
  CHECK_FALSE(fs::exists(f.at("nowhere")));
  CHECK(f.bytes("target").empty());
}

TEST_CASE("records, signatures, keys, databases, rules and what is read stay, whatever is said") {
  const own_folder f;
  f.put("input.csv", "test,tube,tests,due,mine\r\n");
  CHECK(f.write(f.at("input.csv"), true) == "a file that this command reads");
  for (const std::string& bytes :
       {make_log(), std::string("SQLite format 3\0more", 20),
        std::string("untrusted comment: signature"), std::string("age-encryption.org/v1\n"),
        std::string("AGE-SECRET-KEY-1"), canonical_asset("laboratories/fenwick-vale.json"),
        std::string("%PDF-1.5 /Creator (Quarterbreath)")}) {
    f.put("kept", bytes);
    CHECK(f.write(f.at("kept"), true) == "a record, a key, a database or rules");
    CHECK(f.bytes("kept") == bytes);
  }
}

TEST_CASE("a report that was concluded is not replaced by a draft, nor by anything else") {
  const own_folder f;
  const std::string issued = "{\"format\":\"quarterbreath-report\",\"draft\":false}";
  f.put("r.json", issued);
  for (const found_output state : {found_output::draft, found_output::plain}) {
    CHECK(f.write(f.at("r.json"), false, state) == "a report that was concluded");
    CHECK(f.bytes("r.json") == issued);
  }
  CHECK(f.write(f.at("r.json"), false, found_output::issued).empty());
  f.put("r.json", issued);
  CHECK(f.write(f.at("r.json"), true, found_output::draft).empty());
  f.put("d.json", "{\"format\":\"quarterbreath-report\",\"draft\":true}");
  CHECK(f.write(f.at("d.json"), false, found_output::draft).empty());
}

TEST_CASE("of several files all are written or none, also where a file may not grow") {
  const own_folder f;
  const output_rules rules{f.at("store.db")};
  f.put("b.csv", "Dear Sir");
  CHECK_FALSE(write_outputs({{f.at("a.csv"), "x"}, {f.at("b.csv"), "x"}}, rules));
  CHECK_FALSE(fs::exists(f.at("a.csv")));
  fs::remove(f.at("b.csv"));
  struct rlimit before {};
  REQUIRE(::getrlimit(RLIMIT_FSIZE, &before) == 0);
  auto* const heard = std::signal(SIGXFSZ, SIG_IGN);
  const struct rlimit small { 100'000, before.rlim_max };
  REQUIRE(::setrlimit(RLIMIT_FSIZE, &small) == 0);
  const auto full =
      write_outputs({{f.at("a.csv"), "x"}, {f.at("b.csv"), std::string(300'000, 'x')}}, rules);
  REQUIRE(::setrlimit(RLIMIT_FSIZE, &before) == 0);
  std::signal(SIGXFSZ, heard);
  REQUIRE_FALSE(full);
  CHECK(full.error().kind == refusal_kind::machine);
  CHECK(full.error().file == f.at("b.csv"));
  CHECK(f.entries() == 1); // the store alone
}

TEST_CASE(
    "on a disk that fills up an export leaves all its files as they were, or all of them new") {
  laboratory lab;
  lab.import();
  REQUIRE(lab.export_to("w") == 0);
  const auto all_of = [&](const std::string& folder) {
    std::string all;
    for (const char* name : {"/tests.csv", "/tubes.csv", "/fhir.ndjson"})
      all += lab.file(folder + name) + "\n--\n";
    return all;
  };
  const std::string older = all_of("w");
  REQUIRE(lab.box("FV-3001", "y") == 0);
  REQUIRE(lab.export_to("newer") == 0);
  const std::string newer = all_of("newer");
  REQUIRE(newer != older);
  struct rlimit before {};
  REQUIRE(::getrlimit(RLIMIT_FSIZE, &before) == 0);
  auto* const heard = std::signal(SIGXFSZ, SIG_IGN);
  int refused = 0;
  for (std::size_t room = 0; room <= newer.size(); room += newer.size() / 50) {
    const struct rlimit small { room, before.rlim_max };
    REQUIRE(::setrlimit(RLIMIT_FSIZE, &small) == 0);
    const int status = lab.export_to("w");
    REQUIRE(::setrlimit(RLIMIT_FSIZE, &before) == 0);
    INFO(room << " bytes a file, status " << status << ": " << lab.err);
    const std::string there = all_of("w");
    CHECK((there == older || there == newer));
    CHECK(std::distance(fs::directory_iterator(lab.path("w")), {}) == 3);
    if (there == newer) break;
    CHECK(status == 1);
    ++refused;
  }
  std::signal(SIGXFSZ, heard);
  CHECK(refused > 10);
}

TEST_CASE("the files that commands write are known again by what is in them") {
  laboratory lab;
  lab.import();
  REQUIRE(lab.export_to("w") == 0);
  REQUIRE(lab.export_to("w") == 0); // its own files
  for (const char* name : {"w/tests.csv", "w/tubes.csv", "w/fhir.ndjson"})
    CHECK(found_in(lab.file(name)) == found_output::plain);
  lab.put("w/tubes.csv", "somebody's own");
  const std::string tests = lab.file("w/tests.csv");
  lab.put("w/tests.csv", "kit,test_id,protocol,rehearsal,older");
  CHECK(lab.export_to("w") == 2);
  CHECK_THAT(lab.file("w/tests.csv"), Contains("older")); // none of them
  for (const char* form : {"json", "pdf", "fhir"}) {
    INFO(form);
    REQUIRE(lab.report_to(lab.path("r"), form) == 0);
    CHECK(found_in(lab.file("r")) == found_output::draft);
    REQUIRE(lab.report_to(lab.path("r"), form) == 0);
    std::filesystem::remove(lab.path("r"));
  }
  REQUIRE(lab.box("FV-3001", "y") == 0);
  REQUIRE(lab.not_to_be_reported("No tube was read.") == 0);
  for (const char* form : {"json", "pdf", "fhir"}) {
    INFO(form);
    REQUIRE(lab.report_to(lab.path(form), form) == 0);
    CHECK(found_in(lab.file(form)) == found_output::issued);
  }
  lab.at.rehearsals = true;
  REQUIRE(lab.box("FV-3001", "y !4") == 0); // more came: a draft again
  for (const char* form : {"json", "pdf", "fhir"}) {
    INFO(form);
    CHECK(lab.report_to(lab.path(form), form) == 2);
    CHECK(found_in(lab.file(form)) == found_output::issued);
    lab.at.replace = true;
    CHECK(lab.report_to(lab.path(form), form) == 0);
    lab.at.replace = false;
  }
}

} // namespace qb::lab
