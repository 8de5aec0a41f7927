// What the laboratory keeps of itself and of requests, where several tests bear one kit number: it
// is held against each test, handed out by test, and forgotten with it.
#include "app/lab/own/own_commands.hpp"
#include "tests/unit/lab/laboratory.hpp"

namespace qb::lab {

using Catch::Contains;

namespace {

class asked_laboratory : public laboratory {
public:
  int requests(const std::string& rows) {
    const std::string columns =
        put("columns.json", R"({"format":"quarterbreath-request-columns","version":1,"kit":"kit",)"
                            R"("name":"name","birth_date":"born"})");
    const std::string file = put("requests.csv", "kit,name,born\n" + rows);
    return run([&](const shared_options& shared, const console& to) {
      return take_requests(shared, at, {file, columns}, to);
    });
  }
  int report_all() {
    return run([&](const shared_options& shared, const console& to) {
      report_options o;
      o.format = "json";
      o.out = path("reports");
      o.all = true;
      return write_all_reports(shared, at, o, to);
    });
  }
  int export_new(const std::string& folder) {
    return run([&](const shared_options& shared, const console& to) {
      return export_all(shared, at, path(folder), to, true);
    });
  }
  std::size_t handed(const std::string& what) {
    std::size_t count = 0;
    run([&](const shared_options& shared, const console&) {
      count = laboratory_store::open(shared.store)->handed(what)->size();
      return 0;
    });
    return count;
  }
  std::size_t asked_for(const std::string& kit) {
    std::size_t count = 0;
    run([&](const shared_options& shared, const console&) {
      count = laboratory_store::open(shared.store)->requests(kit)->size();
      return 0;
    });
    return count;
  }
  // A second test under the number of the first, and whose the box is.
  void second_test(const made_test& m) {
    REQUIRE(import_file("b.log.json", make_log(m)) == 0);
    at.test = "test-1";
    REQUIRE(assign({"FV-3001", "it came first"}) == 0);
    at.test = "test-2";
    REQUIRE(box("FV-3001", "y") == 0);
    at.test.clear();
  }
  int conclude_test(const std::string& test, const std::string& words) {
    return laboratory::conclude({test, words, "", "", "lost on the way", test});
  }
};

} // namespace

TEST_CASE("a request for somebody else than the record is told at the bench, and bars concluding") {
  asked_laboratory lab;
  lab.import();
  REQUIRE(lab.requests("FV-3001,Odile Marchbank,1948-05-17\n") == 0);
  REQUIRE(lab.box("FV-3001", "y") == 0);
  CHECK_FALSE(Contains("the request").match(lab.out));
  REQUIRE(lab.requests("FV-3001,Tobin Farthingale,1948-05-17\n") == 0);
  REQUIRE(lab.box("FV-3001", "y") == 0);
  CHECK_THAT(lab.out, Contains("the record and the request do not name the same person: the name "
                               "is another"));
  CHECK(lab.conclude("For the doctor.") == 2);
  CHECK_THAT(lab.err, Contains("the request do not name the same person"));
  REQUIRE(lab.requests("FV-3001,\"Marchbank, Odile\",1948-05-17\n") == 0);
  CHECK(lab.conclude("For the doctor.") == 0);
}

TEST_CASE("a request that comes after a conclusion and names another makes it a draft again") {
  asked_laboratory lab;
  lab.import();
  REQUIRE(lab.box("FV-3001", "y") == 0);
  REQUIRE(lab.conclude("For the doctor.") == 0);
  REQUIRE(lab.requests("FV-3001,Odile Marchbank,\n") == 0);
  CHECK(lab.judged("FV-3001").find("conclusion")->find("since")->items()->empty());
  REQUIRE(lab.requests("FV-3001,Tobin Farthingale,\n") == 0);
  CHECK_FALSE(lab.judged("FV-3001").find("conclusion")->find("since")->items()->empty());
  CHECK(lab.report_all() == 0);
  CHECK_THAT(lab.out, Contains("0 of 0 reports"));
}

TEST_CASE("two tests of one kit number are reported into two files, each once") {
  asked_laboratory lab;
  lab.import();
  REQUIRE(lab.box("FV-3001", "y") == 0);
  lab.second_test({"test-2"});
  REQUIRE(lab.conclude_test("test-1", "Of the first.") == 0);
  REQUIRE(lab.conclude_test("test-2", "Of the second.") == 0);
  CHECK(lab.report_all() == 0);
  CHECK_THAT(lab.out, Contains("2 of 2 reports"));
  CHECK_THAT(lab.file("reports/FV-3001-test-1.report.json"), Contains("Of the first."));
  CHECK_THAT(lab.file("reports/FV-3001-test-2.report.json"), Contains("Of the second."));
  CHECK(lab.report_all() == 0);
  CHECK_THAT(lab.out, Contains("0 of 0 reports"));
}

TEST_CASE("a report or export that was not written is not marked as handed out") {
  asked_laboratory lab;
  lab.import();
  REQUIRE(lab.box("FV-3001", "y") == 0);
  REQUIRE(lab.conclude("For the doctor.") == 0);
  std::filesystem::create_directories(lab.path("reports"));
  lab.put("reports/FV-3001.report.json", "somebody's own");
  CHECK(lab.report_all() == 2);
  CHECK_THAT(lab.out, Contains("0 of 1 reports"));
  CHECK(lab.handed("report") == 0);
  std::filesystem::create_directories(lab.path("out"));
  lab.put("out/tubes.csv", "somebody's own");
  CHECK(lab.export_new("out") == 2);
  CHECK(lab.handed("export") == 0);
  lab.at.replace = true;
  CHECK(lab.report_all() == 0);
  CHECK(lab.export_new("out") == 0);
  CHECK((lab.handed("report") == 1 && lab.handed("export") == 1));
}

TEST_CASE("a forgotten test takes its own marks and its request along, and leaves another's") {
  asked_laboratory lab;
  lab.import();
  REQUIRE(lab.box("FV-3001", "y") == 0);
  lab.second_test({"test-2"});
  REQUIRE(lab.export_new("out") == 0);
  REQUIRE(lab.handed("export") == 2);
  REQUIRE(lab.requests("FV-3001,Odile Marchbank,1948-05-17\n") == 0);
  REQUIRE(lab.forget_named({"test-1", "she asked for it", true}) == 0);
  CHECK(lab.handed("export") == 1);
  CHECK(lab.asked_for("FV-3001") == 1); // of the other, who is the same person
  REQUIRE(lab.forget_named({"test-2", "she asked for it", true}) == 0);
  CHECK(lab.handed("export") == 0);
  CHECK(lab.asked_for("FV-3001") == 0);
}

TEST_CASE("a request alone can be forgotten, of a kit that never came") {
  asked_laboratory lab;
  REQUIRE(lab.requests("FV-3009,Odile Marchbank,1948-05-17\n") == 0);
  CHECK(lab.forget_named({"FV-3009", "she asked for it", false}) == 2);
  CHECK(lab.asked_for("FV-3009") == 1);
  CHECK(lab.forget_named({"FV-3009", "she asked for it", true}) == 0);
  CHECK(lab.asked_for("FV-3009") == 0);
  CHECK(lab.forget_named({"FV-3009", "she asked for it", true}) == 2);
}

} // namespace qb::lab
