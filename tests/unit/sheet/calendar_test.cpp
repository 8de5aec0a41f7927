// The reminders, read as a person hears them, and their bytes by RFC 5545's rules.
// Byte rules stand here because the packaged parsers let three of them pass.
#include "core/sheet/calendar.hpp"

#include "tests/unit/sheet/made_plan.hpp"

#include <algorithm>
#include <set>

using namespace qb;
using test::made_plan;

namespace {

std::string bytes_of(const made_plan& m) {
  return calendar_of(m.get(), m.z, m.instant_of("2027-03-01 12:00"));
}

const calendar_event* find(const std::vector<calendar_event>& all, const std::string& step) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const calendar_event& e) {
    return e.uid.find("." + step + "@") != std::string::npos;
  });
  return found == all.end() ? nullptr : &*found;
}

// What is wrong with the bytes; empty where nothing is.
std::string fault_of(const std::string& bytes) {
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    const bool ends = bytes[i] == '\r' && i + 1 < bytes.size() && bytes[i + 1] == '\n';
    const bool within = bytes[i] == '\n' && i > 0 && bytes[i - 1] == '\r';
    if ((bytes[i] == '\r' && !ends) || (bytes[i] == '\n' && !within)) return "a bare line end";
  }
  if (bytes.size() < 2 || bytes.compare(bytes.size() - 2, 2, "\r\n") != 0) return "no last CRLF";
  for (std::size_t at = 0; at < bytes.size();) {
    const std::size_t end = bytes.find("\r\n", at);
    if (end - at > 75) return "a line of " + std::to_string(end - at) + " octets";
    // A line must not begin, nor go on after its fold, within a character.
    const std::size_t first = bytes[at] == ' ' ? at + 1 : at;
    if ((static_cast<unsigned char>(bytes[first]) & 0xC0U) == 0x80U) return "a character cut";
    at = end + 2;
  }
  return {};
}

std::size_t count(const std::vector<std::string>& lines, const std::string& start) {
  return static_cast<std::size_t>(
      std::count_if(lines.begin(), lines.end(),
                    [&](const std::string& line) { return line.rfind(start, 0) == 0; }));
}

} // namespace

TEST_CASE("a start at 07:30 rings before water only from 19:30") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const auto all = calendar_events(m.get(), m.z);
  const calendar_event* fast = find(all, "fast");
  REQUIRE(fast != nullptr);
  CHECK(fast->from == m.instant_of("2027-04-05 19:30"));
  CHECK(fast->until == m.instant_of("2027-04-06 07:30"));
  CHECK(fast->summary == "Breath test: water only; no smoking from now");
  REQUIRE(fast->alarms.size() == 2);
  CHECK(fast->alarms[0].before == std::chrono::minutes{60});
  CHECK(fast->alarms[1].before == std::chrono::minutes{15});
  CHECK(fast->alarms[1].words == "Breath test, in 15 min: water only; no smoking");
  CHECK(fast->description.find("From Monday 5 April 2027, 19:30 to Tuesday 6 April 2027, 07:30 (by "
                               "the clocks of Europe/London).") == 0);
  CHECK(fast->description.find("If your blood sugar is low, treat it at once") !=
        std::string::npos);
  CHECK(fast->description.find("01632 960 417 (Monday to Friday, 8:30 to 16:30)") !=
        std::string::npos);
}

TEST_CASE("what begins together is one reminder, and the test is one event without its samples") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const auto all = calendar_events(m.get(), m.z);
  REQUIRE(all.size() == 5); // plain food, water only, the evening's list, the last hour, the test
  CHECK(all[0].summary == "Breath test: plain food only from now");
  CHECK(all[2].summary == "Breath test: lay out the kit for tomorrow");
  CHECK(all[2].from == m.instant_of("2027-04-05 20:00"));
  CHECK(all[3].summary == "Breath test: stay awake, no exercise from now");
  CHECK(all[3].from == m.instant_of("2027-04-06 06:30"));
  CHECK(all[4].summary == "Breath test: tube 1 now");
  CHECK(all[4].from == m.s.planned->what.start);
  CHECK(all[4].until == m.s.planned->what.ends);
}

TEST_CASE("no reminder begins after the start, whatever the protocol and the hour") {
  for (const char* id : test::shipped_protocols) {
    for (const char* start : {"2027-04-06 07:30", "2027-03-28 00:10", "2027-03-28 02:20",
                              "2027-10-31 01:30", "2027-10-31 23:50", "2027-12-31 12:00"}) {
      made_plan m(id);
      for (const char* rule : {"antibiotics", "laxatives", "prokinetics", "anti-diarrhoeals"})
        m.told(rule, washout_answer::until);
      m.plan_for(start);
      const auto all = calendar_events(m.get(), m.z);
      INFO(id << " at " << start);
      CHECK(all.back().from == m.s.planned->what.start);
      for (const calendar_event& e : all)
        CHECK(e.from <= m.s.planned->what.start);
      CHECK(fault_of(bytes_of(m)).empty());
    }
  }
}

TEST_CASE("a fast across the clock change is twelve real hours") {
  made_plan m;
  m.plan_for("2027-03-28 09:00"); // clocks went forward at 01:00
  const auto all = calendar_events(m.get(), m.z);
  const calendar_event* fast = find(all, "fast");
  REQUIRE(fast != nullptr);
  CHECK(*fast->until - fast->from == std::chrono::hours{12});
  CHECK(utc_stamp(fast->from) == "20270327T200000Z");
  CHECK(fast->description.find("Saturday 27 March 2027, 20:00 to Sunday 28 March 2027, 09:00") !=
        std::string::npos);
}

TEST_CASE("a reminder in the hour that comes twice says which of the two") {
  made_plan m;
  m.plan_for("2027-10-31 01:30");
  const auto all = calendar_events(m.get(), m.z);
  CHECK(all.back().description.find("01:30 (before the clocks go back)") != std::string::npos);
}

TEST_CASE("a medicine's reminder asks first and never tells anybody to stop") {
  made_plan m;
  m.told("laxatives", washout_answer::until);
  m.told("prokinetics", washout_answer::cannot_stop);
  m.told("antibiotics", washout_answer::last_on);
  m.told("anti-diarrhoeals", washout_answer::never);
  m.told("colonoscopy", washout_answer::last_on);
  m.plan_for("2027-04-06 07:30");
  const auto all = calendar_events(m.get(), m.z);
  const calendar_event* laxatives = find(all, "laxatives");
  REQUIRE(laxatives != nullptr);
  CHECK(laxatives->from ==
        m.instant_of("2027-03-31 09:00")); // 7 days before the 6th, then the next
  CHECK(laxatives->summary == "Breath test: about a medicine"); // a phone may show it to others
  CHECK(laxatives->description.find("but only if your prescriber agreed: laxatives.\nNot asked, or "
                                    "they said no? Keep taking it as prescribed and tell the "
                                    "laboratory.") != std::string::npos);
  CHECK(laxatives->alarms.front().before == std::chrono::hours{72});
  REQUIRE(find(all, "prokinetics") != nullptr);
  CHECK(find(all, "prokinetics")->description.find("Keep taking it as prescribed") !=
        std::string::npos);
  REQUIRE(find(all, "antibiotics") != nullptr);
  CHECK(find(all, "antibiotics")->description.find("Finish it as prescribed") != std::string::npos);
  CHECK(find(all, "anti-diarrhoeals") == nullptr);
  CHECK(find(all, "colonoscopy") == nullptr); // nothing to take or leave
  for (const calendar_event& e : all) {
    for (const char* word : {"stop ", "Stop ", "do not take", "pause"}) {
      INFO(e.description);
      CHECK(e.description.find(word) == std::string::npos);
    }
  }
}

TEST_CASE("a move keeps every identity and raises the sequence") {
  made_plan m;
  m.told("laxatives", washout_answer::until);
  m.plan_for("2027-04-06 07:30");
  const auto before = calendar_events(m.get(), m.z);
  CHECK(bytes_of(m).find("SEQUENCE:0\r\n") != std::string::npos);
  m.plan_for("2027-04-13 08:00");
  const auto after = calendar_events(m.get(), m.z);
  std::set<std::string> old_uids;
  std::set<std::string> new_uids;
  for (const calendar_event& e : before)
    old_uids.insert(e.uid);
  for (const calendar_event& e : after)
    new_uids.insert(e.uid);
  CHECK(old_uids == new_uids);
  CHECK(new_uids.size() == after.size());
  CHECK(count(unfolded_lines(bytes_of(m)), "SEQUENCE:1") == after.size());
  CHECK(after.back().uid == "a1b2c3d4e5f60718293a4b5c6d7e8f90.test.start@quarterbreath.invalid");
}

TEST_CASE("a plan that was called off takes the same reminders back") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const auto before = calendar_events(m.get(), m.z);
  m.tell(plan_called_off{""});
  REQUIRE(m.get().called_off);
  const auto after = calendar_events(m.get(), m.z);
  REQUIRE(after.size() == before.size());
  for (std::size_t i = 0; i < after.size(); ++i) {
    CHECK(after[i].uid == before[i].uid);
    CHECK(after[i].from == before[i].from);
  }
  const auto lines = unfolded_lines(bytes_of(m));
  CHECK(count(lines, "STATUS:CANCELLED") == after.size());
  CHECK(count(lines, "SEQUENCE:1") == after.size());
  CHECK(count(lines, "BEGIN:VALARM") == 0);
}

TEST_CASE("a step that only the earlier plan had, or a medicine no longer taken, is taken back") {
  made_plan m;
  m.told("laxatives", washout_answer::until);
  m.plan_for("2027-04-06 07:30");
  m.told("laxatives", washout_answer::never);
  const auto all = calendar_events(m.get(), m.z);
  const calendar_event* laxatives = find(all, "laxatives");
  REQUIRE(laxatives != nullptr);
  CHECK(laxatives->cancelled);
  CHECK(m.get().revision == 1); // else a calendar would keep what it has

  // The next plan is of a protocol whose fast has another name.
  std::string& text = m.protocol_text;
  for (std::size_t at = text.find("\"fast\""); at != std::string::npos;
       at = text.find("\"fast\"", at))
    text.replace(at, 6, "\"only-water\"");
  m.plan_for("2027-04-07 07:30");
  const auto moved = calendar_events(m.get(), m.z);
  REQUIRE(find(moved, "fast") != nullptr);
  CHECK(find(moved, "fast")->cancelled);
  REQUIRE(find(moved, "only-water") != nullptr);
  CHECK_FALSE(find(moved, "only-water")->cancelled);
}

TEST_CASE("practice rings as practice") {
  made_plan m("lactulose-10g", true);
  m.plan_for("2027-04-06 07:30");
  for (const calendar_event& e : calendar_events(m.get(), m.z))
    CHECK(e.summary.rfind("Practice, not a test: ", 0) == 0);
}

TEST_CASE("the name stays out of the calendar, and the same inputs give the same bytes") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const std::string bytes = bytes_of(m);
  CHECK(bytes.find("Fennimore") == std::string::npos);
  CHECK(bytes.find("FV-2071") == std::string::npos);
  CHECK(bytes == bytes_of(m));
  CHECK(bytes.find("DTSTAMP:20270301T120000Z\r\n") != std::string::npos);
}

TEST_CASE("a calendar file has what RFC 5545 asks of it and nothing that needs a zone") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const std::string bytes = bytes_of(m);
  CHECK(fault_of(bytes).empty());
  const auto lines = unfolded_lines(bytes);
  CHECK(lines.front() == "BEGIN:VCALENDAR");
  CHECK(lines.back() == "END:VCALENDAR");
  CHECK(count(lines, "VERSION:2.0") == 1);
  CHECK(count(lines, "PRODID:") == 1);
  CHECK(count(lines, "METHOD") == 0);
  CHECK(bytes.find("TZID") == std::string::npos);
  for (const char* one :
       {"BEGIN:VEVENT", "UID:", "DTSTAMP:", "DTSTART:2", "DTEND:2", "SUMMARY:", "STATUS:CONFIRMED"})
    CHECK(count(lines, one) == 5);
  const std::size_t alarms = count(lines, "BEGIN:VALARM");
  CHECK(alarms == 6);
  CHECK(count(lines, "ACTION:DISPLAY") == alarms);
  CHECK(count(lines, "TRIGGER:") == alarms);
  CHECK(count(lines, "DESCRIPTION:") == alarms + 5);
  for (const std::string& line : lines) {
    if (line.rfind("DT", 0) != 0) continue;
    CHECK(line.size() - line.find(':') == 17);
    CHECK(line.back() == 'Z');
  }
}

TEST_CASE("lines fold at 75 octets and never inside a character") {
  CHECK(folded_line(std::string(75, 'a')) == std::string(75, 'a') + "\r\n");
  CHECK(folded_line(std::string(76, 'a')) == std::string(75, 'a') + "\r\n a\r\n");
  for (std::size_t ascii = 60; ascii < 80; ++ascii) {
    for (const char* letter : {"å", "€", "𝄞"}) {
      std::string line(ascii, 'a');
      for (int n = 0; n < 80; ++n)
        line += letter;
      const std::string folded = folded_line(line);
      CHECK(fault_of(folded).empty());
      CHECK(unfolded_lines(folded) == std::vector<std::string>{line});
    }
  }
}

TEST_CASE("text is escaped as RFC 5545 has it") {
  CHECK(escaped_text("a, b; c\\d\ne: \"f\"") == "a\\, b\\; c\\\\d\\ne: \"f\"");
  CHECK(escaped_text("bell\a tab\t CR\r.") == "bell tab CR.");
  CHECK(escaped_text("Ångström €") == "Ångström €");
}

TEST_CASE("a calendar is known as its test's own by its identities, however they are folded") {
  made_plan m;
  m.told("laxatives", washout_answer::until);
  m.plan_for("2027-04-06 07:30");
  CHECK(is_calendar_of(bytes_of(m), m.get().test_id));
  CHECK_FALSE(is_calendar_of(bytes_of(m), "a1b2"));
  CHECK_FALSE(is_calendar_of("UID:a1b2.x", "a1b2"));
  CHECK_FALSE(is_calendar_of("", "a1b2"));
  CHECK(is_calendar_identity("lactulose-10g"));
  for (const char* bad : {"", "a.b", "a b", "a\nb", "ü"})
    CHECK_FALSE(is_calendar_identity(bad));
}

TEST_CASE("the alarm clock is set for a little before each step and the start") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const auto alarms = second_alarms(m.get());
  REQUIRE(alarms.size() == 4);
  CHECK(alarms[1].at == m.instant_of("2027-04-05 19:15"));
  CHECK(alarms[1].words == "Water only; no smoking");
  CHECK(alarms[2].at == m.instant_of("2027-04-06 06:15"));
  CHECK(alarms[3].at == m.instant_of("2027-04-06 07:15"));
  CHECK(alarms[3].rule == start_step);
}

TEST_CASE("reminders are old once the plan moved, was called off, or a medicine's answer changed") {
  made_plan m;
  m.told("laxatives", washout_answer::until);
  m.plan_for("2027-04-06 07:30");
  CHECK(reminders_of(m.s) == reminders_state::none);
  const reported_checklist written{reminders_list, {calendar_item, page_item}};
  m.tell(written);
  CHECK(reminders_of(m.s) == reminders_state::fresh);
  m.plan_for("2027-04-13 07:30");
  CHECK(reminders_of(m.s) == reminders_state::old);
  m.tell(written);
  CHECK(reminders_of(m.s) == reminders_state::fresh);
  m.told("laxatives", washout_answer::never);
  CHECK(reminders_of(m.s) == reminders_state::old);
  m.tell(written);
  m.tell(plan_called_off{""});
  CHECK(reminders_of(m.s) == reminders_state::old);
}
