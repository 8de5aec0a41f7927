// Log, code, box and request of one kit come in whatever order: what is known in the end is the
// same.
#include "app/lab/own/own_commands.hpp"
#include "core/code/code_text.hpp"
#include "core/code/result_of_events.hpp"
#include "tests/unit/lab/laboratory.hpp"

#include <algorithm>

namespace qb::lab {

namespace {

enum class arrives { log, code, box, request };

// The patient typed the number in small letters; the code and the bench have it in its own form.
made_test as_typed() {
  made_test out;
  out.kit_number = "fv 3001";
  return out;
}

void comes(laboratory& lab, arrives what) {
  switch (what) {
  case arrives::log: return lab.import(as_typed());
  case arrives::code: {
    const auto packed = code::packed_of(make_events(as_typed())).value();
    std::string typed;
    const auto parts = code::code_texts(code::with_seal(pack(packed), std::nullopt)).value();
    for (const std::string& part : parts)
      typed += part + "\n";
    const std::string file = lab.put("scanned.txt", typed);
    const int status = lab.run([&](const shared_options& shared, const console& to) {
      return import_logs(shared, {{file}, false, true, nullptr, {}}, to);
    });
    INFO(lab.err);
    REQUIRE(status == 0);
    return;
  }
  case arrives::box: REQUIRE(lab.box("FV-3001", "lactulose-10g y !4") == 0); return;
  case arrives::request: {
    const std::string columns =
        lab.put("columns.json", R"({"format":"quarterbreath-request-columns","version":1,)"
                                R"("kit":"kit","name":"name","birth_date":"born"})");
    const std::string list =
        lab.put("requests.csv", "kit,name,born\nFv-3001,Odile Marchbank,1948-05-17\n");
    const int status = lab.run([&](const shared_options& shared, const console& to) {
      return take_requests(shared, lab.at, {list, columns}, to);
    });
    INFO(lab.err);
    REQUIRE(status == 0);
    return;
  }
  }
}

std::string name_of(const std::vector<arrives>& order) {
  std::string out;
  for (const arrives one : order)
    out += std::to_string(static_cast<int>(one));
  return out;
}

// What the store comes to: the report, the list and the export.
std::string known_after(const std::vector<arrives>& order) {
  laboratory lab;
  for (const arrives one : order)
    comes(lab, one);
  std::string table = table_head;
  for (int tube = 1; tube <= 10; ++tube)
    table += "FV-3001," + std::to_string(tube) + ",5,1,5,2027-04-09 10:00\n";
  REQUIRE(lab.readings(table) == 0);
  REQUIRE(lab.report("FV-3001", "json") == 0);
  std::string out = lab.out;
  out += lab.work(true);
  REQUIRE(lab.export_to("out") == 0);
  return out + lab.file("out/tests.csv") + lab.file("out/tubes.csv") + lab.file("out/fhir.ndjson");
}

} // namespace

TEST_CASE("whatever of a kit comes first, the same is known of it in the end") {
  std::vector<arrives> order{arrives::log, arrives::code, arrives::box, arrives::request};
  const std::string wanted = known_after(order);
  CHECK_THAT(wanted, Catch::Contains("lid-bad") && Catch::Contains("\"code_beside\":{"));
  while (std::next_permutation(order.begin(), order.end())) {
    CAPTURE(name_of(order));
    CHECK(known_after(order) == wanted);
  }
}

} // namespace qb::lab
