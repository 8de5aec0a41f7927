// A laboratory on a real store, whose clock stands at a given moment.
#pragma once

#include "app/lab/care/care.hpp"
#include "app/lab/commands/case_commands.hpp"
#include "app/lab/commands/commands.hpp"
#include "app/lab/commands/day.hpp"
#include "tests/support/repository.hpp"
#include "tests/unit/report/made_log.hpp"

#include <catch2/catch.hpp>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <functional>
#include <unistd.h>
#include <utility>

namespace qb::lab {

// A folder of its own with a store in it, a clock that stands at a given moment, and what was said.
class laboratory {
public:
  laboratory()
      : folder_(std::filesystem::temp_directory_path() / ("qb-day-" + std::to_string(::getpid()))) {
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
    shared_.store = (folder_ / "store.db").string();
    shared_.zones = london_only;
    at.assets = repository() + "/assets";
    at.profile = "fenwick-vale";
    at.zone = "Europe/London";
    at.now = "2027-04-09 10:30";
    at.by = "R. Ashdown";
  }
  ~laboratory() {
    std::error_code none;
    std::filesystem::remove_all(folder_, none);
  }
  laboratory(const laboratory&) = delete;
  laboratory& operator=(const laboratory&) = delete;

  [[nodiscard]] std::string path(const std::string& name) const { return folder_ / name; }
  std::string put(const std::string& name, const std::string& bytes) const {
    std::ofstream(path(name), std::ios::binary) << bytes;
    return path(name);
  }
  void import(const made_test& m = {}) {
    clear();
    REQUIRE(import_logs(shared_, {{put("a.log.json", make_log(m))}, false, false, nullptr, {}},
                        to()) == 0);
  }
  int import_file(const std::string& name, const std::string& bytes, bool practice = false) {
    clear();
    return import_logs(shared_, {{put(name, bytes)}, practice, false, nullptr, {}}, to());
  }
  int import_folder(const std::string& name) {
    clear();
    return import_logs(shared_, {{path(name)}, false, false, nullptr, {}}, to());
  }
  int box(const std::string& kit, const std::string& words) {
    clear();
    return receive_boxes(shared_, at, {kit, words, codes}, to());
  }
  int lines(const std::string& typed) {
    clear();
    const std::string file = put("typed", typed);
    at.standard_input = std::fopen(file.c_str(), "r");
    const int status = receive_boxes(shared_, at, {"", "", codes}, to());
    std::fclose(at.standard_input);
    return status;
  }
  // Types `first`, lets another bench do something, and types `second` on the older screen.
  int two_benches(const std::string& first, const std::function<void()>& meanwhile,
                  const std::string& second) {
    clear();
    two_screens typed{{first, second}, meanwhile};
    cookie_io_functions_t screen{};
    screen.read = &two_screens::read;
    at.standard_input = ::fopencookie(&typed, "r", screen);
    const int status = receive_boxes(shared_, at, {"", "", codes}, to());
    std::fclose(at.standard_input);
    return status;
  }
  int paper(const std::string& sheet, const std::vector<std::string>& confirmed = {}) {
    clear();
    return enter_paper(shared_, at, {"FV-3002", sheet, "lactulose-10g", confirmed}, to());
  }
  int readings(const std::string& table) {
    clear();
    return take_readings(shared_, at, {put("table.csv", table), codes}, to());
  }
  int choose(int tube, long long reading, const std::string& reason) {
    clear();
    return choose_reading(shared_, at, {"FV-3001", tube, reading, reason}, to());
  }
  // Any other command: `command(shared, to)` answers its status.
  template <typename Command>
  int run(Command command) {
    clear();
    return command(std::as_const(shared_), to());
  }
  // What `show`, `judge KIT` and the last `receive` say of a kit as JSON.
  json::value shown(const std::string& kit) {
    return as_json([&] { return show_tests(shared_, kit, to()); });
  }
  json::value judged(const std::string& kit) {
    return as_json([&] { return judge_kit(shared_, at, kit, to()); });
  }
  json::value received(const std::string& kit, const std::string& words) {
    return as_json([&] { return receive_boxes(shared_, at, {kit, words, codes}, to()); });
  }
  std::string work(bool all = false) {
    clear();
    REQUIRE(show_work(shared_, at, all, to()) == 0);
    return out;
  }
  int try_work() {
    clear();
    return show_work(shared_, at, true, to());
  }
  int assign(const assign_options& o) {
    clear();
    return assign_rows(shared_, at, o, to());
  }
  int back(const take_back_options& o) {
    clear();
    return take_back(shared_, at, o, to());
  }
  int override_of(const std::string& kit, const std::string& rule) {
    clear();
    return override_finding(shared_, at, {kit, rule, {}, "told by telephone", false}, to());
  }
  int conclude(const conclude_options& o) {
    clear();
    return conclude_kit(shared_, at, o, to());
  }
  // A report's bytes on standard output: as it is, or what went out with a conclusion.
  int report(const std::string& kit, const std::string& format, int number = 0) {
    clear();
    return write_report(shared_, at, {kit, format, "-", false, number}, to());
  }
  int forget_named(const forget_options& o) {
    clear();
    return forget_test(shared_, at, o, to());
  }
  int box_of(const std::string& kit, const std::string& words, const person_options& who) {
    clear();
    return receive_boxes(shared_, at, {kit, words, codes, who}, to());
  }
  int paper_of(const paper_options& sheet) {
    clear();
    return enter_paper(shared_, at, sheet, to());
  }
  [[nodiscard]] const std::string& store() const { return shared_.store; }
  int forget(bool sure) {
    clear();
    return forget_test(shared_, at, {"FV-3001", "asked by letter", sure, true}, to());
  }
  std::string audit() {
    clear();
    REQUIRE(audit_times(shared_, at, "-", to()) == 0);
    return out;
  }
  int choose_log(const std::string& log, const std::string& reason) {
    clear();
    return which_log(shared_, at, {"FV-3001", log, reason}, to());
  }
  int check() {
    clear();
    return check_store(shared_, to());
  }
  int back_up_to(const std::string& name) {
    clear();
    return back_up(shared_, path(name), to());
  }
  int report_to(const std::string& out_path, const std::string& format = "json") {
    clear();
    return write_report(shared_, at, {"FV-3001", format, out_path, false}, to());
  }
  int not_to_be_reported(const std::string& why) {
    clear();
    return conclude_kit(shared_, at, {"FV-3001", why, "cannot-be-reported", "", "", "test-1"},
                        to());
  }
  // The first conclusion of FV-3001, whatever of it was read.
  int conclude(const std::string& words) {
    conclude_options o{"FV-3001", words, "", "", "lost on the way", "test-1"};
    return conclude(o);
  }
  int export_to(const std::string& name) {
    clear();
    return export_all(shared_, at, path(name), to());
  }
  [[nodiscard]] std::string file(const std::string& name) const {
    std::ifstream in(path(name), std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }

  lab_context_options at;
  std::string codes;
  std::string out;
  std::string err;

private:
  // One typed text a read, with something between the two.
  struct two_screens {
    std::vector<std::string> left;
    std::function<void()> meanwhile;
    static ::ssize_t read(void* self, char* into, std::size_t room) {
      auto& one = *static_cast<two_screens*>(self);
      if (one.left.empty()) return 0;
      if (one.left.size() == 1) one.meanwhile();
      const std::string text = one.left.front();
      one.left.erase(one.left.begin());
      QB_BELIEVE(text.size() <= room);
      text.copy(into, text.size());
      return static_cast<::ssize_t>(text.size());
    }
  };
  void clear() { out = err = ""; }
  template <typename Command>
  json::value as_json(Command command) {
    clear();
    shared_.format = output_format::json;
    REQUIRE(command() == 0);
    shared_.format = output_format::text;
    return json::parse(out, json::numbers::exact).value();
  }
  console to() {
    return {[this](const std::string& text) { out += text; },
            [this](const std::string& text) { err += text; }};
  }
  std::filesystem::path folder_;
  shared_options shared_;
};

inline constexpr const char* table_head = "kit,tube,h2_ppm,ch4_ppm,co2_pct,measured_at\n";

} // namespace qb::lab
