// Who works at a bench is told once, of people on the list, for one store and one shift.
#include "app/lab/context/signed_in.hpp"
#include "app/lab/own/own_commands.hpp"
#include "tests/unit/lab/laboratory.hpp"

#include <cstdlib>

namespace qb::lab {

using Catch::Contains;

namespace {

// A laboratory of two, and a user's data folder of its own.
class bench : public laboratory {
public:
  bench() {
    if (const char* before = ::getenv(name)) before_ = before;
    ::setenv(name, path("home").c_str(), 1);
  }
  ~bench() {
    if (before_.empty())
      ::unsetenv(name);
    else
      ::setenv(name, before_.c_str(), 1);
  }
  bench(const bench&) = delete;
  bench& operator=(const bench&) = delete;

  void set_up() {
    set_up_options o;
    o.profile = "fenwick-vale";
    o.zone = "Europe/London";
    o.people = {"R. Ashdown / ra / bench", "Dr L. Fennimore / lf / reader"};
    o.trying = true;
    at.by = "lf";
    REQUIRE(run([&](const shared_options& shared, const console& to) {
              return set_up_laboratory(shared, at, o, to);
            }) == 0);
  }
  int signs_in(const std::string& who) {
    return run([&](const shared_options& shared, const console& to) {
      return sign_in_here(shared, who, to);
    });
  }
  std::string at_bench() {
    std::string who;
    (void)run([&](const shared_options& shared, const console& to) {
      who = person_at_bench(shared, to).value();
      return 0;
    });
    return who;
  }

private:
  static constexpr const char* name = "XDG_DATA_HOME";
  std::string before_;
};

const instant morning = parse_rfc3339_utc("2027-04-12T07:00:00Z").value();

} // namespace

TEST_CASE("somebody of the list signs in, the next one takes their place, and sign-out ends it") {
  bench lab;
  CHECK(lab.signs_in("ra") == 2); // nobody to choose from
  lab.set_up();
  CHECK(lab.at_bench().empty());
  CHECK(lab.signs_in("") == 0);
  CHECK_THAT(lab.out, Contains("nobody is signed in") && Contains("ra  R. Ashdown (bench)") &&
                          Contains("lf  Dr L. Fennimore (reader)"));
  CHECK(lab.signs_in("Marchbank") == 2);
  CHECK_THAT(lab.err, Contains("not on the list") && !Contains("Marchbank"));
  CHECK(lab.signs_in("RA") == 0);
  CHECK(lab.at_bench() == "R. Ashdown");
  CHECK_THAT(lab.err, Contains("by R. Ashdown, who is signed in at this bench"));
  CHECK(lab.signs_in("dr l. fennimore") == 0);
  CHECK(lab.at_bench() == "Dr L. Fennimore");
  CHECK(lab.run([](const shared_options&, const console& to) { return sign_out_here(to); }) == 0);
  CHECK(lab.at_bench().empty());
}

TEST_CASE("a sign-in is for one store, and for no longer than a shift by a clock that goes on") {
  const bench lab;
  const std::string store = lab.put("one.db", "");
  REQUIRE(sign_in(store, "R. Ashdown", morning));
  const auto at = [&](std::chrono::minutes later) {
    return who_is_signed_in(store, morning + later).value().value();
  };
  CHECK(at(std::chrono::hours{16}).who == "R. Ashdown");
  CHECK_FALSE(at(std::chrono::hours{16}).over);
  CHECK(at(std::chrono::hours{16} + std::chrono::minutes{1}).over);
  CHECK(at(std::chrono::minutes{-1}).over);
  CHECK_FALSE(who_is_signed_in(lab.put("other.db", ""), morning)->has_value());
  CHECK(who_is_signed_in(lab.path("./one.db"), morning)->has_value());
}

TEST_CASE("a file that sign-in did not write is refused, and nobody is taken from it") {
  const bench lab;
  const std::string store = lab.put("one.db", "");
  REQUIRE(sign_in(store, "R. Ashdown", morning));
  std::ofstream(lab.path("home/quarterbreath-lab/at-this-bench")) << "R. Ashdown\n";
  CHECK(who_is_signed_in(store, morning).error().kind == refusal_kind::malformed);
}

} // namespace qb::lab
